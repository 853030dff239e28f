//! Finds the lays that are not kept yet, or all of them again.

use std::collections::BTreeSet;

use super::task::{PRODUCT, Task};
use crate::lay::lock::{self, Entry};
use crate::lay::{Bad, Budget, Lay, Lock, Options, Pattern, Progress, pack, rows};

/// How long is searched.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Effort {
    /// For a look.
    Quick,
    /// For a sample.
    #[default]
    Normal,
    /// For an order.
    Long,
}

impl Effort {
    /// Every effort by its word.
    pub const ALL: [(&'static str, Effort); 3] =
        [("quick", Effort::Quick), ("normal", Effort::Normal), ("long", Effort::Long)];

    /// Places tried for the pieces of a lay.
    pub fn evaluations(self, pieces: usize) -> u64 {
        let pieces = pieces as u64;
        match self {
            Effort::Quick => (pieces * 4_000).clamp(50_000, 400_000),
            Effort::Normal => (pieces * 20_000).clamp(200_000, 2_000_000),
            Effort::Long => (pieces * 250_000).clamp(1_000_000, 30_000_000),
        }
    }
}

/// What became of one lay.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// What is laid.
    pub title: String,
    /// Length before, µm: of the lay that was kept for it, whether it fits or not.
    pub before: Option<i64>,
    /// Length found, µm.
    pub found: i64,
    /// Whether the one found is kept now; a longer one is not, unless asked.
    pub taken: bool,
    /// Whether the one kept before still fits.
    pub fitted: bool,
    /// Whether the search was stopped early, with the best so far.
    pub interrupted: bool,
}

/// Told what is being laid, which of how many, and how far it is.
pub type Observe<'a> = dyn Fn(&str, (usize, usize), Progress) + 'a;

/// How lays are found.
pub struct Search<'a> {
    /// How long.
    pub effort: Effort,
    /// Whether lays that are kept and fit are found again.
    pub again: bool,
    /// Whether a longer lay is taken in place of one that is kept and fits.
    pub longer: bool,
    /// Asked now and then whether to stop with what was found so far.
    pub stop: &'a (dyn Fn() -> bool + Sync),
    /// Who is told.
    pub observe: &'a Observe<'a>,
}

/// One lay that may be searched: what is laid, how, and the one kept.
struct Job<'t> {
    task: &'t Task,
    pattern: Pattern,
    kept: Option<&'t Lay>,
}

impl Job<'_> {
    /// What dies strike in rows is laid freely as well, for one product, so that both can be compared.
    fn of<'t>(task: &'t Task, of: &str) -> Vec<Job<'t>> {
        let mut jobs = vec![Job { task, pattern: task.pattern, kept: task.lay.as_ref() }];
        if task.pattern == Pattern::Rows && of == PRODUCT {
            jobs.push(Job { task, pattern: Pattern::Free, kept: task.beside.as_ref() });
        }
        jobs
    }

    fn title(&self) -> String {
        let rows = if self.pattern == Pattern::Rows { ", in rows" } else { "" };
        format!("{}{rows}", self.task.instance.name)
    }

    fn key(&self) -> String {
        match self.pattern == self.task.pattern {
            true => self.task.key.clone(),
            false => lock::key(&self.task.instance, self.pattern),
        }
    }

    /// The lay, whether it was stopped early, and the places tried. Rows are struck, not searched.
    fn found(&self, how: &Search<'_>, observe: &dyn Fn(Progress)) -> Result<(Lay, bool, u64), Bad> {
        let instance = &self.task.instance;
        if self.pattern == Pattern::Rows {
            return rows(instance).map(|found| (found.lay, false, 0));
        }
        let budget = Budget::Evaluations(how.effort.evaluations(instance.count()));
        let packed = pack(instance, Options { budget, seed: 1, threads: 2, stop: how.stop, observe })?;
        Ok((packed.lay, packed.interrupted, packed.evaluations))
    }
}

/// Finds lays for tasks and keeps them in a lock; gives what became of each, and why what cannot be laid cannot: a piece
/// does not fit its fabric, say.
pub fn search(tasks: &[&Task], of: &str, lock: &mut Lock, how: &Search<'_>) -> (Vec<Moved>, Vec<Bad>) {
    let jobs: Vec<Job<'_>> = tasks.iter().flat_map(|task| Job::of(task, of)).collect();
    let wanted: Vec<&Job<'_>> = jobs.iter().filter(|job| how.again || job.kept.is_none()).collect();
    let keys: BTreeSet<String> = jobs.iter().map(Job::key).collect();
    let (mut moved, mut refused) = (Vec::new(), Vec::new());
    for (number, job) in wanted.iter().enumerate() {
        if (how.stop)() {
            break;
        }
        let title = job.title();
        let observe = |progress: Progress| (how.observe)(&title, (number + 1, wanted.len()), progress);
        let (lay, interrupted, evaluations) = match job.found(how, &observe) {
            Ok(found) => found,
            Err(bad) => {
                refused.push(Bad(format!("{title}: {bad}")));
                continue;
            }
        };
        let before = outdated(lock, of, &title, &keys);
        let kept = job.kept.map(|lay| lay.length);
        let taken = kept.is_none_or(|kept| lay.length < kept || (how.longer && lay.length > kept));
        let (before, found, fitted) = (kept.or(before), lay.length, kept.is_some());
        if taken {
            lock.entries.insert(job.key(), entry(job, &title, of, evaluations, lay));
        }
        moved.push(Moved { title, before, found, taken, fitted, interrupted });
    }
    (moved, refused)
}

/// Length of the lay that was kept for what has this title now. Two fabrics may share a title, one in each colourway, so what
/// is still wanted is not meant.
fn outdated(lock: &Lock, of: &str, title: &str, wanted: &BTreeSet<String>) -> Option<i64> {
    let mut old =
        lock.entries.iter().filter(|(key, entry)| entry.of == of && entry.title == title && !wanted.contains(*key));
    old.next().map(|(_, entry)| entry.length)
}

fn entry(job: &Job<'_>, title: &str, of: &str, evaluations: u64, lay: Lay) -> Entry {
    Entry {
        title: title.to_string(),
        of: of.to_string(),
        length: lay.length,
        evaluations,
        names: job.task.instance.pieces.iter().map(|piece| piece.id.clone()).collect(),
        placed: lay.placed,
    }
}

/// Drops entries of products that nothing asks for any more; gives their titles.
pub fn swept(lock: &mut Lock, of: &str, tasks: &[&Task]) -> Vec<String> {
    let wanted: BTreeSet<String> = tasks.iter().flat_map(|task| Job::of(task, of)).map(|job| job.key()).collect();
    let unwanted = |(key, one): &(&String, &Entry)| one.of == of && !wanted.contains(*key);
    let gone: Vec<String> = lock.entries.iter().filter(unwanted).map(|(key, _)| key.clone()).collect();
    gone.iter().filter_map(|key| lock.entries.remove(key)).map(|entry| entry.title).collect()
}

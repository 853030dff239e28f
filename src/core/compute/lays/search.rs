//! Finds the lays that are not kept yet, or all of them anew.

use super::task::Task;
use crate::lay::lock::Entry;
use crate::lay::{Bad, Budget, Lay, Lock, Options, Progress, pack};

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
}

/// Told what is being laid, which of how many, and how far it is.
pub type Observe<'a> = dyn Fn(&str, (usize, usize), Progress) + 'a;

/// How lays are found.
pub struct Search<'a> {
    /// How long.
    pub effort: Effort,
    /// Whether lays that are kept and fit are found anew.
    pub anew: bool,
    /// Whether a longer lay is taken in place of one that is kept and fits.
    pub longer: bool,
    /// Asked now and then whether to stop with what was found so far.
    pub stop: &'a (dyn Fn() -> bool + Sync),
    /// Who is told.
    pub observe: &'a Observe<'a>,
}

/// Finds lays for tasks and keeps them in a lock; gives what became of each, and why what cannot be laid cannot: a piece
/// does not fit its cloth, say.
pub fn search(tasks: &[&Task], of: &str, lock: &mut Lock, how: &Search<'_>) -> (Vec<Moved>, Vec<Bad>) {
    let wanted: Vec<&&Task> = tasks.iter().filter(|task| how.anew || task.lay.is_none()).collect();
    let (mut moved, mut refused) = (Vec::new(), Vec::new());
    for (number, task) in wanted.iter().enumerate() {
        if (how.stop)() {
            break;
        }
        let title = task.instance.name.as_str();
        let observe = |progress: Progress| (how.observe)(title, (number + 1, wanted.len()), progress);
        let evaluations = how.effort.evaluations(task.instance.count());
        let budget = Budget::Evaluations(evaluations);
        let options = Options { budget, seed: 1, threads: 2, stop: how.stop, observe: &observe };
        let packed = match pack(&task.instance, options) {
            Ok(packed) => packed,
            Err(bad) => {
                refused.push(Bad(format!("{title}: {bad}")));
                continue;
            }
        };
        let before = lock.entries.values().find(|entry| entry.of == of && entry.title == title).map(|old| old.length);
        let kept = task.lay.as_ref().map(|lay| lay.length);
        let taken = kept.is_none_or(|kept| packed.lay.length < kept || (how.longer && packed.lay.length > kept));
        moved.push(Moved {
            title: title.to_string(),
            before: kept.or(before),
            found: packed.lay.length,
            taken,
            fitted: kept.is_some(),
        });
        if taken && !packed.interrupted {
            lock.entries.retain(|_, entry| entry.of != of || entry.title != title);
            lock.entries.insert(task.key.clone(), entry(task, of, packed.evaluations, &packed.lay));
        }
    }
    (moved, refused)
}

fn entry(task: &Task, of: &str, evaluations: u64, lay: &Lay) -> Entry {
    Entry {
        title: task.instance.name.clone(),
        of: of.to_string(),
        length: lay.length,
        evaluations,
        names: task.instance.pieces.iter().map(|piece| piece.id.clone()).collect(),
        placed: lay.placed.clone(),
    }
}

/// Drops entries of products that nothing asks for any more; gives their titles.
pub fn swept(lock: &mut Lock, of: &str, tasks: &[&Task]) -> Vec<String> {
    let wanted = |key: &String| tasks.iter().any(|task| task.key == *key);
    let gone: Vec<String> =
        lock.entries.iter().filter(|(key, one)| one.of == of && !wanted(key)).map(|(key, _)| key.clone()).collect();
    gone.iter().filter_map(|key| lock.entries.remove(key)).map(|entry| entry.title).collect()
}

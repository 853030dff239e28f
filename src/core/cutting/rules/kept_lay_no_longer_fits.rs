//! Rule: backtack.lock keeps lays, but not one that fits what is cut now.

use crate::cutting::figures::{LayTasks, PRODUCT, Task};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::lay::lock::Entry;
use crate::words::{Phrase, say, words};

use crate::compute::input::Ground;
use crate::compute::rules::telling::mm;

/// Backtack.lock keeps lays, but not one that fits what is cut now.
pub const RULE: Rule = Rule {
    code: "kept-lay-no-longer-fits",
    family: "cutting",
    severity: Severity::Should,
    summary: "backtack.lock keeps lays, but not one that fits what is cut now",
    explanation: "Outlines, counts, widths and margins decide a lay. Where they have changed, the kept lay no longer fits, and its length is no yardage any more: an estimate stands in its place until the lay is found again.",
    failing: "# backtack.lock keeps \"Shell, L × 6\"; then the panel was made wider",
    passing: "# after `backtack build`, which says what each lay was and what it is now",
    source: "common practice",
};

words! {
    WAS "kept-lay-no-longer-fits.was" = "{title} was {length}";
    NEW "kept-lay-no-longer-fits.new" = "{title} is new";
    MESSAGE "kept-lay-no-longer-fits.message" = "no kept lay fits any more: {open}";
    HELP "kept-lay-no-longer-fits.help" = "run `backtack build` or `backtack lay` on the folder";
}

/// Reports what has no lay that fits, if lays are kept at all.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let kept: Vec<&Entry> = ground.model.lock.entries.values().filter(|entry| entry.of == PRODUCT).collect();
    let said = |task: &Task| {
        let title = &task.instance.name;
        match kept.iter().find(|entry| entry.title == *title) {
            Some(old) => say!(WAS, title, length = mm(old.length as f64 / 1000.0)),
            None => say!(NEW, title),
        }
    };
    let open: Vec<Phrase> = lays.tasks.iter().filter(|task| task.lay.is_none()).map(said).collect();
    if !kept.is_empty() && !open.is_empty() {
        let finding = Finding::new(&RULE, say!(MESSAGE, open = Phrase::list(open)));
        findings.push(finding.help(HELP));
    }
}

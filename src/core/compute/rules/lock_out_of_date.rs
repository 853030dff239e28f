use crate::compute::lays::{Lays, PRODUCT};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::lay::lock::Entry;

use super::{Ground, mm};

/// Backtack.lock keeps lays, but not one that fits what is cut now.
pub const RULE: Rule = Rule {
    code: "lock-out-of-date",
    family: "cutting",
    severity: Severity::Should,
    summary: "backtack.lock keeps lays, but not one that fits what is cut now",
    explanation: "Outlines, counts, widths and margins decide a lay. Where they have changed, the kept lay no longer fits, and its length is no yardage any more: an estimate stands in its place until the lay is found anew.",
    failing: "# backtack.lock keeps \"Shell, L × 6\"; then the panel was made wider",
    passing: "# after `backtack build`, which says what each lay was and what it is now",
    source: "common practice",
};

/// Reports what has no lay that fits, if lays are kept at all.
pub fn check(ground: &Ground<'_>, lays: &Lays, findings: &mut Findings) {
    let kept: Vec<&Entry> = ground.model.lock.entries.values().filter(|entry| entry.of == PRODUCT).collect();
    if kept.is_empty() {
        return;
    }
    for task in lays.tasks.iter().filter(|task| task.lay.is_none()) {
        let title = &task.instance.name;
        let message = match kept.iter().find(|entry| entry.title == *title) {
            Some(old) => format!("{title}: the kept lay of {} no longer fits", mm(old.length as f64 / 1000.0)),
            None => format!("{title}: no lay is kept for it"),
        };
        findings.push(Finding::new(&RULE, message).help("run `backtack build` or `backtack lay` on the folder"));
    }
}

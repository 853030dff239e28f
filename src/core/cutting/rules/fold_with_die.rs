//! Rule: fabric that is cut by dies is to be spread folded.

use std::collections::BTreeSet;

use crate::cutting::figures::{LayTasks, Task, cutting};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Method, Spread};
use crate::words::{say, words};

use crate::compute::input::Ground;

/// Fabric that is cut by dies is to be spread folded.
pub const RULE: Rule = Rule {
    code: "fold-with-die",
    family: "cutting",
    severity: Severity::Must,
    summary: "fabric that is cut by dies is to be spread folded",
    explanation: "A die cuts a whole shape through flat plies. Fabric folded along its length has a fold that no die may be struck across, and nothing can be cut on the fold.",
    failing: "[cutting.press]\nmethod = \"die\"\nspread = \"folded\"",
    passing: "[cutting.press]\nmethod = \"die\"\nspread = \"one way\"",
    source: "common practice",
};

words! {
    MESSAGE "fold-with-die.message" = "{fabric} is cut by dies and is to be spread folded";
    HERE "fold-with-die.here" = "folded";
    HELP "fold-with-die.help" = "write spread = \"one way\" or \"face to face\"";
}

/// Reports each fabric once.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let wrong = |task: &&Task| task.how.spread == Spread::Folded && task.how.method == Method::Die;
    let fabrics: BTreeSet<&str> = lays.tasks.iter().filter(wrong).map(|task| task.bought.article.as_str()).collect();
    for fabric in fabrics {
        let finding = Finding::new(&RULE, say!(MESSAGE, fabric));
        let spread = cutting(ground.model, fabric).and_then(|one| one.spread.as_ref());
        let finding = spread.into_iter().fold(finding, |finding, spread| finding.at(spread.span, HERE));
        findings.push(finding.help(HELP));
    }
}

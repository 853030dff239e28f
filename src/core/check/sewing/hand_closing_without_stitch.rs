//! Rule: an opening is closed by hand, and nobody says with what stitch.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::JointKind;
use crate::words::{say, words};

/// A closing that each hand sews in its own way.
pub const RULE: Rule = Rule {
    code: "hand-closing-without-stitch",
    family: "sewing",
    severity: Severity::Should,
    summary: "an opening is closed by hand, and nobody says with what stitch",
    explanation: "The seam that is closed by hand is the one that opens first, and the one that is seen. The stitch under \
                  [work] is that of a machine. Say which stitch by hand, how close, with what thread, and how its ends are \
                  secured: in a `stitch` of the opening or in words.",
    failing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\nclose = { by = \"hand\" }",
    passing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\nclose = { by = \"hand\", note = \"ladder stitch, 4 to \
              the cm, thread doubled, ends knotted inside\" }",
    source: "common practice",
};

words! {
    MESSAGE "hand-closing-without-stitch.message" = "opening {id} is closed by hand, and nothing says with what stitch";
    HERE "hand-closing-without-stitch.here" = "how is it sewn?";
    HELP "hand-closing-without-stitch.help" = "write close = { by = \"hand\", note = \"ladder stitch, 4 to the cm, thread doubled, ends knotted inside\" }, or what it is";
}

/// Reports each opening closed by hand without a stitch of its own and without a remark.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, joint) in context.model.joints.iter().filter(|(_, joint)| joint.kind == JointKind::Opening) {
        let Some(close) = &joint.close else { continue };
        let Some(by) = close.by.as_ref().filter(|by| by.known().is_some_and(|by| is_bare(by))) else { continue };
        let stitch = &joint.stitch;
        let own = stitch.shared.is_some() || stitch.kind.is_some() || stitch.density.is_some();
        if own || close.note.is_some() || joint.note.is_some() {
            continue;
        }
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(by.span, HERE).help(HELP));
    }
}

/// Whether a closing says no more than that a hand does it.
fn is_bare(by: &str) -> bool {
    matches!(by.trim().to_lowercase().as_str(), "hand" | "by hand" | "hand sewn" | "hand-sewn" | "sewn by hand")
}

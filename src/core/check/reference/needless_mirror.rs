//! Rule: a seam is written as mirrored and is its own mirror image.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::TroubleKind;

/// A seam that is its own mirror image.
pub const RULE: Rule = Rule {
    code: "needless-mirror",
    family: "reference",
    severity: Severity::Must,
    summary: "a seam is written as mirrored and is its own mirror image",
    explanation: "`mirrored = true` says the seam once more with left and right exchanged. A seam that joins the left \
                  side to the right one is the same seam when they are exchanged, and would be counted and sewn twice.",
    failing: "[seam.crown]\na = \"SIDE.l:n-c\"\nb = \"SIDE.r:n-c\"\nmirrored = true",
    passing: "[seam.crown]\na = \"SIDE.l:n-c\"\nb = \"SIDE.r:n-c\"",
    source: "common practice",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for trouble in context.assembly.troubles.iter().filter(|trouble| trouble.kind == TroubleKind::Mirror) {
        let finding = Finding::new(&RULE, trouble.message.clone()).at(trouble.span, trouble.label.clone());
        findings.push(trouble.help.iter().fold(finding, |finding, help| finding.help(help.clone())));
    }
}

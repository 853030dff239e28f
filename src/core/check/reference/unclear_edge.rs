//! Rule: an edge that does not say which piece or which way it means.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::TroubleKind;

/// An edge that could be several, or is none.
pub const RULE: Rule = Rule {
    code: "unclear-edge",
    family: "reference",
    severity: Severity::Must,
    summary: "an edge that does not say which piece or which way it means",
    explanation: "Seams are written for single copies, edge by edge: the left side is sewn to other things than the \
                  right one. Where a piece is cut more than once, the copy must be named; and an edge goes from a point \
                  to the next one on the outline, so that only one way round is possible.",
    failing: "[piece.SIDE]\ncopies = [\"l\", \"r mirrored\"]\n[seam.belly]\na = \"SIDE:b-n\"",
    passing: "[piece.SIDE]\ncopies = [\"l\", \"r mirrored\"]\n[seam.belly]\na = \"SIDE.l:b-n\"",
    source: "common practice",
};

/// Reports runs that could not be told apart.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for trouble in context.assembly.troubles.iter().filter(|trouble| trouble.kind == TroubleKind::Unclear) {
        let finding = Finding::new(&RULE, trouble.message.clone()).at(trouble.span, trouble.label.clone());
        findings.push(trouble.help.iter().fold(finding, |finding, help| finding.help(help.clone())));
    }
}

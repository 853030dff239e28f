//! Rule: two named points less than 0.5 mm apart on an outline.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// Two points in one place.
pub const RULE: Rule = Rule {
    code: "edge-too-short",
    family: "outline",
    severity: Severity::Must,
    summary: "two named points less than 0.5 mm apart on an outline",
    explanation: "The edge between them is shorter than a stitch. It is a slip of the hand: one of the two was meant \
                  to be the other, or to lie elsewhere.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # SIDE.a and SIDE.b 0.2 mm apart",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # SIDE.a and SIDE.b 40 mm apart",
    source: "common practice",
};

words! {
    TOO_NEAR "edge-too-short.too-near" = "too near to another point";
    MOVE_POINTS "edge-too-short.move-points" = "move one of the points, or delete it";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::MicroRun, &RULE, TOO_NEAR, MOVE_POINTS, findings);
}

//! Rule: an outline with fewer than three named points.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// An outline without enough points.
pub const RULE: Rule = Rule {
    code: "too-few-points",
    family: "outline",
    severity: Severity::Must,
    summary: "an outline with fewer than three named points",
    explanation: "Edges are named by the points at their ends. With two points both ways round have the same name, \
                  and with none there is nothing to sew by. A fold needs three points in the drawing itself.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the drawing names SIDE.a and SIDE.b",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the drawing names SIDE.a, SIDE.b and SIDE.c",
    source: "common practice",
};

words! {
    NAMED_POINTS "too-few-points.named-points" = "named points are missing";
    DRAW_SMALL "too-few-points.draw-small" = "draw a small circle on the outline for each point, with the id PIECE.point: SIDE.a; or add points = { p = \"a-b 40 mm\" }";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::TooFewPoints, &RULE, NAMED_POINTS, DRAW_SMALL, findings);
}

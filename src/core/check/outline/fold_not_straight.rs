//! Rule: a fold edge that is no straight line.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A fold that is bent.
pub const RULE: Rule = Rule {
    code: "fold-not-straight",
    family: "outline",
    severity: Severity::Must,
    summary: "a fold edge that is no straight line",
    explanation: "A half outline is unfolded at its fold, as paper is. An edge that leaves the straight line by more \
                  than 0.05 mm cannot lie on the fold of the fabric.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\", fold = \"h-g\" } # the edge h-g bulges",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\", fold = \"h-g\" } # the edge h-g is one straight line",
    source: "common practice",
};

words! {
    EDGE_FOLD "fold-not-straight.edge-fold" = "this edge is the fold";
    DRAW_EDGE "fold-not-straight.draw-edge" = "draw the edge between the two points as one straight line";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::FoldNotStraight, &RULE, EDGE_FOLD, DRAW_EDGE, findings);
}

//! Rule: one name for two shapes of a drawing, or two points of an outline.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A name twice.
pub const RULE: Rule = Rule {
    code: "duplicate-point",
    family: "outline",
    severity: Severity::Must,
    summary: "one name for two shapes of a drawing, or two points of an outline",
    explanation: "A copied circle keeps its label. Which of the two is meant cannot be told, and the edges at it are \
                  not the ones that were meant.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # two circles with the label SIDE.a",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the circles SIDE.a and SIDE.b",
    source: "common practice",
};

words! {
    NAME_STANDS "duplicate-point.name-stands" = "the name is there twice";
    RENAME_DELETE "duplicate-point.rename-delete" = "rename or delete one of them";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::DuplicatePoint, &RULE, NAME_STANDS, RENAME_DELETE, findings);
}

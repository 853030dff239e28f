//! Rule: added points that refer to each other in a circle.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// Added points that none of which can be placed first.
pub const RULE: Rule = Rule {
    code: "points-in-circle",
    family: "outline",
    severity: Severity::Must,
    summary: "added points refer to each other in a circle",
    explanation: "A point may lie on an edge that ends at another added point, in whatever order they are written. If the second \
                  also depends on the first, none of them can be placed.",
    failing: "[piece.STRIP.outline]\nshape = \"rectangle\"\nwidth = \"300 mm\"\nheight = \"50 mm\"\npoints = { p = \"nw-q 40 mm\", q \
              = \"p-ne 50 %\" }",
    passing: "[piece.STRIP.outline]\nshape = \"rectangle\"\nwidth = \"300 mm\"\nheight = \"50 mm\"\npoints = { p = \"nw-q 40 mm\", q \
              = \"nw-ne 50 %\" }",
    source: "common practice",
};

words! {
    HERE "points-in-circle.here" = "waits for the next";
    HELP "points-in-circle.help" = "place one of them between points that the shape itself has, such as \"nw-ne 40 mm\"";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::Circle, &RULE, HERE, HELP, findings);
}

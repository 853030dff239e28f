//! Rule: a drawn outline that does not come back to its start.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A line with a gap.
pub const RULE: Rule = Rule {
    code: "open-outline",
    family: "outline",
    severity: Severity::Must,
    summary: "a drawn outline that does not come back to its start",
    explanation: "A piece is cut along a closed line. A gap of up to 0.01 mm is closed in silence, since editors \
                  round; a wider one may hide a missing edge.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path ends 2 mm from its start",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path is closed",
    source: "common practice",
};

words! {
    CLOSE "open-outline.close" = "does not close";
    CLOSE_PATH "open-outline.close-path" = "close the path in the editor (its data then end in `Z`)";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::Open, &RULE, CLOSE, CLOSE_PATH, findings);
}

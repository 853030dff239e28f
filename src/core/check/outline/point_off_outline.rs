//! Rule: a named point or notch that does not lie on its outline.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A point beside the line.
pub const RULE: Rule = Rule {
    code: "point-off-outline",
    family: "outline",
    severity: Severity::Must,
    summary: "a named point or notch that does not lie on its outline",
    explanation: "A point within 0.5 mm is moved onto the outline, and onto a corner as near as that. Farther off it \
                  is not clear which edge is meant, and every edge from or to it would be wrong.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the circle SIDE.a is 3 mm off the path",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the circle SIDE.a is centred on the path",
    source: "common practice",
};

words! {
    OUTLINE "point-off-outline.outline" = "not on the outline";
    MOVE_CENTRE "point-off-outline.move-centre" = "move the centre of the circle onto the outline: switch on snapping to paths in the editor";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::OffOutline, &RULE, OUTLINE, MOVE_CENTRE, findings);
}

//! Rule: a drawing that does not hold the outline of a piece.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::words::words;

use super::faults;

/// A piece the drawing does not show.
pub const RULE: Rule = Rule {
    code: "outline-not-drawn",
    family: "outline",
    severity: Severity::Must,
    summary: "a drawing that does not hold the outline of a piece",
    explanation: "The outline is the shape whose id, or label in the editor, is that of the piece. Shapes on hidden \
                  layers are not read.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path is called path12",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path is called SIDE",
    source: "common practice",
};

words! {
    SUCH_SHAPE "outline-not-drawn.such-shape" = "no such shape";
    GIVE_CLOSED "outline-not-drawn.give-closed" = "give the closed path the id of the piece in the editor, or name it here: svg = \"file.svg#its_id\"";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    faults(context, Fault::NotDrawn, &RULE, SUCH_SHAPE, GIVE_CLOSED, findings);
}

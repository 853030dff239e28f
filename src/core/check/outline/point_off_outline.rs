//! Rule: a named point or notch that does not lie on its outline.

use crate::check::Context;
use crate::diag::{Findings, Rule, Severity};
use crate::model::assembly::Fault;
use crate::source::{Help, Span, nearest};
use crate::words::{say, words};

use super::helped;

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
    RESPELT "point-off-outline.respelt" = "if it is the {near} line, name it `{near}` behind the name of the piece";
    HERE "point-off-outline.here" = "not on the outline";
    HELP "point-off-outline.help" = "move the centre of the circle onto the outline: switch on snapping to paths in the editor";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    helped(context, Fault::OffOutline, &RULE, HERE, |piece, span| meant(context, piece, span), findings);
}

/// What a shape that is no circle is meant to be, if its name is near to that; else to move the point.
fn meant(context: &Context<'_>, piece: &str, span: Span) -> Help {
    let model = context.model;
    let sketches = model
        .pieces
        .get(piece)
        .into_iter()
        .flat_map(|declared| model.sizes.iter().filter_map(|size| model.sketch(declared, &size.entry.id.value)));
    let mut points = sketches.flat_map(|sketch| sketch.points);
    let point = points.find(|(_, shape)| shape.span == span && !shape.round);
    match point.and_then(|(name, _)| nearest(name, ["grain", "pile"])) {
        Some(near) => say!(RESPELT, near).into(),
        None => HELP.into(),
    }
}

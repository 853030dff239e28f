//! Rule: an unfolded outline has a corner where a curve was meant to run on.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A whole outline with a corner where its halves meet.
pub const RULE: Rule = Rule {
    code: "kink-at-fold",
    family: "outline",
    severity: Severity::Note,
    summary: "an unfolded outline has a corner where a curve was meant to run on",
    explanation: "A half outline meets its fold square where the whole is to run smoothly through it. A few degrees off \
                  square make a point or a dent of twice that in the whole, which the half does not show.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\", fold = \"h-g\" } # the curve leaves h at 85 degrees",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\", fold = \"h-g\" } # the curve leaves h at 90 degrees",
    source: "common practice",
};

words! {
    MESSAGE "kink-at-fold.message" = "piece {id} has a corner of {abs} degrees at {end}";
    HERE "kink-at-fold.here" = "unfolded here";
    HELP "kink-at-fold.help" = "draw the curve so that it meets the fold square at {end}";
}

/// Turns below this are rounding, degrees.
const SMOOTH: f64 = 0.2;
/// Turns above this are corners that were meant, degrees.
const MEANT: f64 = 25.0;

/// Looks at both ends of every fold in the drawn size.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(size) = context.model.drawn_size().map(|size| size.entry.id.value.as_str()) else { return };
    for (id, piece) in &context.model.pieces {
        let Ok(outline) = context.assembly.outlines.get(id, size) else { continue };
        let stated =
            piece.outline.as_ref().and_then(|value| value.known(crate::model::Variant { size, colourway: "" }));
        let Some(fold) = stated.and_then(|source| source.fold.as_ref()) else { continue };
        let (a, b) = &fold.value;
        for end in [a, b] {
            let Some(turn) = outline.turn_at(end) else { continue };
            if (SMOOTH..MEANT).contains(&turn.abs()) {
                findings.push(
                    Finding::new(&RULE, say!(MESSAGE, id, abs = crate::words::number::number(turn.abs(), 1), end))
                        .at(fold.span, HERE)
                        .help(say!(HELP, end)),
                );
            }
        }
    }
}

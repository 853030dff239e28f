//! Rule: a mark of a drawing lies outside of its piece.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::{Outline, Point, flatten};
use crate::words::{say, words};

/// A mark that is cut off.
pub const RULE: Rule = Rule {
    code: "mark-outside-piece",
    family: "piece",
    severity: Severity::Must,
    summary: "a mark of a drawing lies outside of its piece",
    explanation: "A mark says where an eye, a label or embroidery goes. Outside the outline nothing is cut: the mark was drawn on \
                  another piece, moved with the wrong layer, or not mirrored. In every size it must lie on the piece.",
    failing: "# in the drawing, SIDE.mark.eye lies beside SIDE\n[piece.SIDE]\noutline = \"outlines/side.svg\"",
    passing: "# in the drawing, SIDE.mark.eye lies within SIDE\n[piece.SIDE]\noutline = \"outlines/side.svg\"\ngrain = \"n-s\"",
    source: "follows from the drawing",
};

words! {
    MESSAGE "mark-outside-piece.message" = "mark {mark} lies outside of piece {id} in size {sizes}";
    ONLY "mark-outside-piece.only" = "mark {mark} lies outside of piece {id}";
    HERE "mark-outside-piece.here" = "the mark";
    PIECE "mark-outside-piece.piece" = "the piece";
    HELP "mark-outside-piece.help" = "move the mark onto the piece in the drawing, or give it the name of the piece it lies on";
}

/// The outline is followed this closely, mm.
const CLOSE: f64 = 0.05;

/// Reports each mark once, with every size in which it lies outside.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let sizes: Vec<&str> = model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect();
    for (id, piece) in &model.pieces {
        let mut outside: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for size in &sizes {
            let Ok(outline) = context.assembly.outlines.get(id, size) else { continue };
            for mark in outline.marks.iter().filter(|mark| !holds(outline, mark.at)) {
                outside.entry(mark.id.as_str()).or_default().push(size);
            }
        }
        for (mark, sizes) in outside {
            let message = match model.sizes.len() {
                1 => say!(ONLY, mark, id),
                _ => say!(MESSAGE, mark, id, sizes = sizes.join(", ")),
            };
            let mut finding = Finding::new(&RULE, message);
            let sketch = sizes.first().and_then(|size| model.sketch(piece, size));
            let plain = mark.trim_end_matches('~');
            let drawn =
                sketch.and_then(|sketch| sketch.marks.iter().find(|(name, _)| *name == plain).map(|(_, one)| one.span));
            finding = drawn.into_iter().fold(finding, |finding, span| finding.at(span, HERE));
            findings.push(finding.at(piece.entry.span(), PIECE).help(HELP));
        }
    }
}

/// Whether a place lies on a piece: a ray from it crosses the outline an odd number of times.
fn holds(outline: &Outline, place: Point) -> bool {
    let points = flatten(&outline.path, CLOSE);
    let edges = points.iter().zip(points.iter().cycle().skip(1));
    let crossed = |(a, b): &(&Point, &Point)| {
        (a.y > place.y) != (b.y > place.y) && place.x < (b.x - a.x) * (place.y - a.y) / (b.y - a.y) + a.x
    };
    edges.filter(crossed).count() % 2 == 1
}

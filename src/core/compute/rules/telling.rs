//! What several rules need to find a place, a size or a piece and to tell of it.

use crate::compute::input::Ground;
use crate::compute::lines::{Lines, Refused};
use crate::diag::Finding;
use crate::geom::Outline;
use crate::model::{Model, Piece, Stage, Variant};
use crate::source::Span;
use crate::words::{Phrase, say, words};

words! {
    TARGET "telling.target" = "the target";
    IN_SIZE "telling.in-size" = " in size {size}";
    DRAWN_HERE "telling.drawn-here" = "{piece} is drawn here";
}

/// The finding as a `must` at bulk, with the place that says so.
pub fn must_at_bulk(model: &Model, finding: Finding) -> Finding {
    if Stage::of(model) == Stage::Bulk { finding.pressing(Stage::place(model)) } else { finding }
}

/// A finding that also points at what a reading was held against, so that it is shown to nobody who may not see that.
pub fn with_target(model: &Model, of: &str, finding: Finding) -> Finding {
    let point = model.measures.get(of).and_then(|point| Some(point.target.as_ref()?.span));
    let stuffing = || model.stuffings.get(of).and_then(|stuffing| Some(stuffing.mass.as_ref()?.span));
    match point.or_else(stuffing) {
        Some(span) => finding.at(span, TARGET),
        None => finding,
    }
}

/// Where the readings of a point are in a sample.
pub fn row(model: &Model, sample: &str, of: &str) -> Option<Span> {
    model.samples.samples.get(sample)?.readings.get(of).map(|readings| readings.of.span)
}

/// Size ids in their order.
pub fn sizes(model: &Model) -> impl Iterator<Item = &str> {
    model.sizes.iter().map(|size| size.entry.id.value.as_str())
}

/// The lines of a piece by size, where its sew line is known.
pub fn sewn<'a>(ground: &Ground<'a>, piece: &'a str) -> impl Iterator<Item = (&'a str, &'a Lines, &'a Outline)> {
    let ground = *ground;
    sizes(ground.model).filter_map(move |size| {
        let lines = ground.drawn.get(piece, size)?;
        Some((size, lines, lines.sew.known()?))
    })
}

/// ` in size S`, where there is more than one.
pub fn in_size(model: &Model, size: &str) -> Phrase {
    if model.sizes.len() > 1 { say!(IN_SIZE, size) } else { Phrase::none() }
}

/// The product of a size, for what does not differ between colourways.
pub fn of_size(size: &str) -> Variant<'_> {
    Variant { size, colourway: "" }
}

/// A length as it is told.
pub fn mm(length: f64) -> String {
    format!("{length:.1} mm")
}

/// A finding that also points at the outline's element, where the piece is drawn.
pub fn with_element(ground: &Ground<'_>, piece: &str, size: &str, finding: Finding) -> Finding {
    let sketch = ground.model.pieces.get(piece).and_then(|piece| ground.model.sketch(piece, size));
    match sketch {
        Some(sketch) => finding.at(sketch.outline.span, say!(DRAWN_HERE, piece)),
        None => finding,
    }
}

/// Where a notch is written or drawn: written ones come first.
pub fn notch_place(ground: &Ground<'_>, piece: &Piece, sewn: (&str, &Outline), index: usize) -> Option<Span> {
    if let Some(notch) = piece.notches.list.get(index) {
        return Some(notch.span);
    }
    let (size, sew) = sewn;
    let drawn = sew.notches.get(index - piece.notches.list.len())?;
    Some(drawn_notch(ground, piece, size, &drawn.id).unwrap_or(piece.entry.span()))
}

/// The element of a drawn notch. An image over a fold bears the name of its half with a mark behind it.
pub fn drawn_notch(ground: &Ground<'_>, piece: &Piece, size: &str, id: &str) -> Option<Span> {
    let sketch = ground.model.sketch(piece, size)?;
    let id = id.trim_end_matches('~');
    sketch.notches.iter().find(|(name, _)| *name == id).map(|(_, shape)| shape.span)
}

/// Layers that could not be offset, each once, with the sizes it fails in.
pub fn refused<'a>(ground: &Ground<'a>, vanished: bool) -> Vec<(&'a Refused, String)> {
    let all = || ground.drawn.refused.iter().filter(|one| one.vanished == vanished);
    let mut told: Vec<(&Refused, String)> = Vec::new();
    for one in all() {
        let same = |other: &&Refused| other.piece == one.piece && other.cut == one.cut;
        if !told.iter().any(|(other, _)| same(other)) {
            let sizes: Vec<&str> = all().filter(same).map(|one| one.size.as_str()).collect();
            told.push((one, sizes.join(", ")));
        }
    }
    told
}

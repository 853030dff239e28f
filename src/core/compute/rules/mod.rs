//! Rules whose evidence is a computed line or number. One file per rule, file name = code.

mod colour_beyond_limit;
mod concession_lifts_nothing;
mod critical_point_out_of_tolerance;
mod critical_point_unmeasured;
mod dart_too_deep;
mod dart_too_narrow;
mod fold_with_die;
mod impossible_cut_line;
mod kept_lay_no_longer_fits;
mod lay_longer_than_table;
mod low_efficiency;
mod minimum_order_far_above_need;
mod notch_distances_differ;
mod notch_off_edge;
mod notch_on_corner;
mod notch_too_deep;
mod opening_on_corner;
mod opening_under_trim;
mod piece_too_wide;
mod pile_face_to_face;
mod plies_do_not_divide;
mod quantity_outside_tolerance;
mod reading_slip;
mod readings_all_on_one_side;
mod size_scaled_too_far;
mod thin_limb;
mod tight_curve;
mod vanished_edge;

pub use concession_lifts_nothing::lift;

use crate::diag::{Finding, Findings, Rule};
use crate::geom::Outline;
use crate::model::{Model, Piece, Stage, Variant};
use crate::source::Span;

use super::Figures;
use super::counts::CutCount;
use super::drawn::{Lines, Refused};
use super::ground::Ground;
use super::lays::Lays;
use super::samples::SampleFigures;

/// Every rule here.
pub const RULES: &[&Rule] = &[
    &impossible_cut_line::RULE,
    &vanished_edge::RULE,
    &tight_curve::RULE,
    &dart_too_deep::RULE,
    &dart_too_narrow::RULE,
    &notch_off_edge::RULE,
    &notch_on_corner::RULE,
    &notch_too_deep::RULE,
    &piece_too_wide::RULE,
    &size_scaled_too_far::RULE,
    &thin_limb::RULE,
    &opening_on_corner::RULE,
    &opening_under_trim::RULE,
    &notch_distances_differ::RULE,
    &fold_with_die::RULE,
    &lay_longer_than_table::RULE,
    &kept_lay_no_longer_fits::RULE,
    &low_efficiency::RULE,
    &pile_face_to_face::RULE,
    &quantity_outside_tolerance::RULE,
    &minimum_order_far_above_need::RULE,
    &plies_do_not_divide::RULE,
    &critical_point_out_of_tolerance::RULE,
    &critical_point_unmeasured::RULE,
    &reading_slip::RULE,
    &readings_all_on_one_side::RULE,
    &colour_beyond_limit::RULE,
    &concession_lifts_nothing::RULE,
];

/// Runs every rule.
pub(super) fn run(ground: &Ground<'_>, findings: &mut Findings) {
    impossible_cut_line::check(ground, findings);
    vanished_edge::check(ground, findings);
    tight_curve::check(ground, findings);
    dart_too_deep::check(ground, findings);
    dart_too_narrow::check(ground, findings);
    notch_off_edge::check(ground, findings);
    notch_on_corner::check(ground, findings);
    notch_too_deep::check(ground, findings);
    size_scaled_too_far::check(ground, findings);
    thin_limb::check(ground, findings);
    opening_on_corner::check(ground, findings);
    opening_under_trim::check(ground, findings);
    notch_distances_differ::check(ground, findings);
}

/// Runs every rule about lays.
pub(super) fn laid(ground: &Ground<'_>, cuts: &[CutCount], lays: &Lays, findings: &mut Findings) {
    piece_too_wide::check(ground, cuts, findings);
    fold_with_die::check(ground, lays, findings);
    lay_longer_than_table::check(ground, lays, findings);
    kept_lay_no_longer_fits::check(ground, lays, findings);
    low_efficiency::check(ground, lays, findings);
    pile_face_to_face::check(ground, lays, findings);
}

/// Runs the rules about orders that need no plan.
pub(super) fn ordered(model: &Model, figures: &Figures, findings: &mut Findings) {
    quantity_outside_tolerance::check(model, figures, findings);
    minimum_order_far_above_need::check(model, figures, findings);
}

/// Runs the rules about planned orders.
pub(super) fn planned(model: &Model, figures: &Figures, findings: &mut Findings) {
    plies_do_not_divide::check(model, figures, findings);
}

/// Runs the rules about samples.
pub(super) fn sampled(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    critical_point_out_of_tolerance::check(model, samples, findings);
    critical_point_unmeasured::check(model, samples, findings);
    reading_slip::check(model, samples, findings);
    readings_all_on_one_side::check(model, samples, findings);
    colour_beyond_limit::check(model, samples, findings);
}

/// The finding as a `must` at bulk, with the place that says so.
fn must_at_bulk(model: &Model, finding: Finding) -> Finding {
    if Stage::of(model) == Stage::Bulk { finding.pressing(Stage::place(model)) } else { finding }
}

/// A finding that also points at what a reading was held against, so that it is shown to nobody who may not see that.
fn with_target(model: &Model, of: &str, finding: Finding) -> Finding {
    let point = model.measures.get(of).and_then(|point| Some(point.target.as_ref()?.span));
    let stuffing = || model.stuffings.get(of).and_then(|stuffing| Some(stuffing.mass.as_ref()?.span));
    match point.or_else(stuffing) {
        Some(span) => finding.at(span, "the target"),
        None => finding,
    }
}

/// Where the readings of a point stand in a sample.
fn row(model: &Model, sample: &str, of: &str) -> Option<Span> {
    model.samples.samples.get(sample)?.readings.get(of).map(|readings| readings.of.span)
}

/// Size ids in their order.
fn sizes(model: &Model) -> impl Iterator<Item = &str> {
    model.sizes.iter().map(|size| size.entry.id.value.as_str())
}

/// The lines of a piece by size, where its sew line is known.
fn sewn<'a>(ground: &Ground<'a>, piece: &'a str) -> impl Iterator<Item = (&'a str, &'a Lines, &'a Outline)> {
    let ground = *ground;
    sizes(ground.model).filter_map(move |size| {
        let lines = ground.drawn.get(piece, size)?;
        Some((size, lines, lines.sew.known()?))
    })
}

/// ` in size S`, where there is more than one.
fn in_size(model: &Model, size: &str) -> String {
    if model.sizes.len() > 1 { format!(" in size {size}") } else { String::new() }
}

/// The product of a size, for what does not differ between colourways.
fn of_size(size: &str) -> Variant<'_> {
    Variant { size, colourway: "" }
}

/// A length as it is told.
fn mm(length: f64) -> String {
    format!("{length:.1} mm")
}

/// A finding that also points at the outline's element, where the piece is drawn.
fn with_element(ground: &Ground<'_>, piece: &str, size: &str, finding: Finding) -> Finding {
    let sketch = ground.model.pieces.get(piece).and_then(|piece| ground.model.sketch(piece, size));
    match sketch {
        Some(sketch) => finding.at(sketch.outline.span, format!("{piece} is drawn here")),
        None => finding,
    }
}

/// Where a notch is written or drawn: written ones come first.
fn notch_place(ground: &Ground<'_>, piece: &Piece, sewn: (&str, &Outline), index: usize) -> Option<Span> {
    if let Some(notch) = piece.notches.list.get(index) {
        return Some(notch.span);
    }
    let (size, sew) = sewn;
    let drawn = sew.notches.get(index - piece.notches.list.len())?;
    Some(drawn_notch(ground, piece, size, &drawn.id).unwrap_or(piece.entry.span()))
}

/// The element of a drawn notch. An image over a fold bears the name of its half with a mark behind it.
fn drawn_notch(ground: &Ground<'_>, piece: &Piece, size: &str, id: &str) -> Option<Span> {
    let sketch = ground.model.sketch(piece, size)?;
    let id = id.trim_end_matches('~');
    sketch.notches.iter().find(|(name, _)| *name == id).map(|(_, shape)| shape.span)
}

/// Layers that could not be offset, each once, with the sizes it fails in.
fn refused<'a>(ground: &Ground<'a>, vanished: bool) -> Vec<(&'a Refused, String)> {
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

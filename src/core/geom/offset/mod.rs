//! From the sew line out to the cut line, and from the cut line in to the sew line.
//!
//! Each run has its own allowance. The cut region is the piece with a never-mirrored strip along every
//! straight piece of its flattened outline, a wedge where the outline bends outward, and a patch
//! at every corner; their union is exact integer work on a grid of 1/1,024 µm, and the result
//! lands on the grid of whole micrometres. Inward, the same strips are taken away.

mod band;
mod corner;
mod ear;
mod joint;
mod line;
mod overlay;
mod sew;
mod style;
mod vanish;

pub use line::{CutLine, OffsetError, WIDEST};
pub use sew::sew_line;
pub use style::{Corner, Corners, INNER, TIP, Worked};

use super::outline::Outline;

/// The cut line outside a sew line: `allowances` in mm, one for each of [`Outline::runs`] in
/// order; an outline without named points takes one. Arcs are exact within 0.01 mm.
///
/// Where allowances differ and the outline turns by less than 20°, or the lines would meet behind
/// the end of an edge, the cut line steps at the named point, square to the wider edge.
///
/// # Errors
/// Wrong number or range of allowances; a bad mitre limit; an edge too short to be folded back.
pub fn outset(outline: &Outline, allowances: &[f64], corners: impl Into<Corners>) -> Result<CutLine, OffsetError> {
    let corners = corners.into();
    check(outline, allowances, &corners)?;
    let ring = band::ring(outline, allowances, &corners);
    if let Some((at, back)) = band::unworkable(&ring) {
        let named = outline.points.iter().find(|point| outline.point(&point.id) == Some(at));
        return Err(OffsetError::Worked { id: named.map(|point| point.id.clone()).unwrap_or_default(), back });
    }
    Ok(overlay::join(&band::outline_of(&ring), &band::bands(&ring)))
}

/// The line inside a cut line, with the allowances taken off; see [`outset`]. `corners` is what
/// it does at corners that point inward; steps and folds are mitres there.
///
/// # Errors
/// As for [`outset`]; an edge of which nothing is left, named.
pub fn inset(outline: &Outline, allowances: &[f64], corners: impl Into<Corners>) -> Result<CutLine, OffsetError> {
    let corners = corners.into().inward();
    check(outline, allowances, &corners)?;
    let ring = band::ring(outline, allowances, &corners);
    let inside = overlay::cut(&band::outline_of(&ring), &band::bands(&band::turned(&ring)));
    vanish::refuse_vanished(outline, allowances, &inside)?;
    Ok(inside)
}

fn check(outline: &Outline, allowances: &[f64], corners: &Corners) -> Result<(), OffsetError> {
    let runs = outline.runs();
    let expected = runs.len().max(1);
    if allowances.len() != expected {
        return Err(OffsetError::Count { runs: expected, found: allowances.len() });
    }
    if let Some((index, value)) = allowances.iter().enumerate().find(|(_, value)| !(0.0..=WIDEST).contains(*value)) {
        let run = runs.get(index).map(super::outline::Run::ends).unwrap_or_default();
        return Err(OffsetError::Allowance { run, value: *value });
    }
    match corners.each().map(Corner::limit).find(|limit| !limit.is_finite() || *limit < 1.0) {
        Some(value) => Err(OffsetError::Limit { value }),
        None => Ok(()),
    }
}

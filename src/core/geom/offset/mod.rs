//! From the sew line out to the cut line, and from the cut line in to the sew line.
//!
//! Each run has its own allowance. The cut region is the piece with a never-mirrored strip along every
//! straight piece of its flattened outline, a wedge where the outline bends outward, and a patch
//! at every corner; their union is exact integer work on a grid of 1/1,024 µm, and the result
//! lands on the grid of whole micrometres. Inward, the same strips are taken away.

mod band;
mod corner;
mod ear;
mod overlay;
mod sew;
mod style;

pub use sew::sew_line;
pub use style::{Corner, Corners, INNER, TIP, Worked};

use super::error::Ends;
use super::grid::Polygon;
use super::outline::Outline;
use std::fmt;

/// How near curves pass the corners of a contour, which lie within 0.005 mm of the offset curve, in mm.
const FIT: f64 = 0.004;
/// Largest allowance, in mm.
pub const WIDEST: f64 = 1_000.0;

/// A line to cut along, or a line drawn inside one, on the grid.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CutLine {
    /// Closed contours: anticlockwise round fabric, clockwise round holes; the largest first.
    pub contours: Vec<Polygon>,
}

impl CutLine {
    /// Area of fabric in mm², holes left out.
    pub fn area(&self) -> f64 {
        let twice: i128 = self.contours.iter().map(Polygon::area2).sum();
        twice as f64 / (2.0 * super::grid::STEPS * super::grid::STEPS)
    }

    /// Length of all contours in mm: the path of a knife.
    pub fn perimeter(&self) -> f64 {
        self.contours.iter().map(Polygon::perimeter).sum()
    }

    /// The contours as closed paths of lines and curves within 0.01 mm of the offset curve: for drawings and plots, whose
    /// files they keep small. What is measured or packed is measured on the contours themselves.
    pub fn curves(&self) -> Vec<super::path::Path> {
        let ring = |contour: &Polygon| super::fit::fitted(&contour.to_points(), FIT);
        self.contours.iter().map(ring).collect()
    }

    /// The one contour, if there is just one.
    pub fn single(&self) -> Option<&Polygon> {
        match self.contours.as_slice() {
            [only] => Some(only),
            _ => None,
        }
    }
}

/// Why an offset cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub enum OffsetError {
    /// Not one allowance a run.
    Count {
        /// Runs of the outline; an outline without named points counts as one.
        runs: usize,
        /// Allowances given.
        found: usize,
    },
    /// An allowance that is negative, no number, or above 1 m.
    Allowance {
        /// The ends of the run.
        run: Ends,
        /// The allowance, in mm.
        value: f64,
    },
    /// A mitre limit below 1 or no number.
    Limit {
        /// The limit.
        value: f64,
    },
    /// Nothing of a run is left inside the allowances.
    Vanished {
        /// The ends of the run.
        run: Ends,
        /// Its allowance, in mm.
        allowance: f64,
    },
    /// The allowances leave more than one part, or a part with holes.
    Parts {
        /// How many contours are left.
        found: usize,
    },
    /// The corner at a point is lost: the runs that meet there no longer meet.
    Parted {
        /// The point.
        id: String,
    },
    /// The allowance cannot be cut back at a corner as far as its style asks.
    Worked {
        /// The point; empty where the corner has no name.
        id: String,
        /// How far back the allowance would end, in mm.
        back: f64,
    },
}

impl fmt::Display for OffsetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { runs, found } => {
                write!(f, "the outline has {runs} edges and {found} allowances are given")
            }
            Self::Allowance { run, value } => {
                write!(f, "the allowance of {}-{} is {value} mm; it must be from 0 to {WIDEST} mm", run.0, run.1)
            }
            Self::Limit { value } => write!(f, "a mitre limit is at least 1, and is {value}"),
            Self::Vanished { run, allowance } => write!(
                f,
                "the edge {}-{} vanishes when {allowance} mm are taken off inside it and the other edges theirs",
                run.0, run.1
            ),
            Self::Parts { found } => {
                write!(f, "the allowances leave {found} separate outlines instead of one")
            }
            Self::Worked { id, back } => write!(
                f,
                "folded back at `{id}`, the allowance would end {back:.1} mm before the corner; the edge is too short \
                 or too curved for that"
            ),
            Self::Parted { id } => write!(f, "the edges at `{id}` no longer meet inside their allowances"),
        }
    }
}

impl std::error::Error for OffsetError {}

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
    sew::refuse_vanished(outline, allowances, &inside)?;
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

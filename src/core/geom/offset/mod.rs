//! From the sew line out to the cut line, and from the cut line in to the sew line.
//!
//! Each run has its own allowance. The cut region is the piece with a one-sided strip along every
//! straight piece of its flattened outline, a wedge where the outline bends outward, and a patch
//! at every corner; their union is exact integer work on a grid of 1/1,024 µm, and the result
//! lands on the grid of whole micrometres. Inward, the same strips are taken away.

mod band;
mod corner;
mod overlay;
mod sew;

pub use sew::sew_line;

use super::error::Ends;
use super::grid::Polygon;
use super::outline::Outline;
use std::fmt;

/// Largest allowance, in mm.
pub const WIDEST: f64 = 1_000.0;

/// What the cut line does at a corner that sticks out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Corner {
    /// The edges run on until they meet; beyond `limit` allowances from the corner the tip is cut
    /// off square. A limit is at least 1.
    Mitre {
        /// Greatest distance from the corner to the tip, in allowances.
        limit: f64,
    },
    /// An arc round the corner, of the wider allowance.
    Round,
    /// Cut off square to the bisector, at the wider allowance from the corner.
    Square,
}

/// A line to cut along, or a line drawn inside one, on the grid.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CutLine {
    /// Closed contours: anticlockwise round cloth, clockwise round holes; the largest first.
    pub contours: Vec<Polygon>,
}

impl CutLine {
    /// Area of cloth in mm², holes left out.
    pub fn area(&self) -> f64 {
        let twice: i128 = self.contours.iter().map(Polygon::area2).sum();
        twice as f64 / (2.0 * super::grid::STEPS * super::grid::STEPS)
    }

    /// Length of all contours in mm: the path of a knife.
    pub fn perimeter(&self) -> f64 {
        self.contours.iter().map(Polygon::perimeter).sum()
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
/// Wrong number or range of allowances; a bad mitre limit.
pub fn outset(outline: &Outline, allowances: &[f64], corner: Corner) -> Result<CutLine, OffsetError> {
    check(outline, allowances, corner)?;
    let ring = band::ring(outline, allowances);
    Ok(overlay::join(&band::outline_of(&ring), &band::bands(&ring, corner)))
}

/// The line inside a cut line, with the allowances taken off; see [`outset`]. `corner` is what
/// it does at corners that point inward.
///
/// # Errors
/// As for [`outset`]; an edge of which nothing is left, named.
pub fn inset(outline: &Outline, allowances: &[f64], corner: Corner) -> Result<CutLine, OffsetError> {
    check(outline, allowances, corner)?;
    let ring = band::ring(outline, allowances);
    let inside = overlay::cut(&band::outline_of(&ring), &band::bands(&band::turned(&ring), corner));
    sew::refuse_vanished(outline, allowances, &inside)?;
    Ok(inside)
}

fn check(outline: &Outline, allowances: &[f64], corner: Corner) -> Result<(), OffsetError> {
    let runs = outline.runs();
    let expected = runs.len().max(1);
    if allowances.len() != expected {
        return Err(OffsetError::Count { runs: expected, found: allowances.len() });
    }
    if let Some((index, value)) = allowances.iter().enumerate().find(|(_, value)| !(0.0..=WIDEST).contains(*value)) {
        let run = runs.get(index).map(super::outline::Run::ends).unwrap_or_default();
        return Err(OffsetError::Allowance { run, value: *value });
    }
    match corner {
        Corner::Mitre { limit } if !limit.is_finite() || limit < 1.0 => Err(OffsetError::Limit { value: limit }),
        _ => Ok(()),
    }
}

//! The line that an offset makes, and why there may be none.

use super::super::error::Ends;
use super::super::grid::Polygon;

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
        twice as f64 / (2.0 * super::super::grid::STEPS * super::super::grid::STEPS)
    }

    /// Length of all contours in mm: the path of a knife.
    pub fn perimeter(&self) -> f64 {
        self.contours.iter().map(Polygon::perimeter).sum()
    }

    /// The contours as closed paths of lines and curves within 0.01 mm of the offset curve: for drawings and plots, whose
    /// files they keep small. What is measured or packed is measured on the contours themselves.
    pub fn curves(&self) -> Vec<super::super::path::Path> {
        let ring = |contour: &Polygon| super::super::fit::fitted(&contour.to_points(), FIT);
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

//! What can be wrong with a shape, with the points it is about.

use super::point::Point;

/// Two neighbouring named points: the run between them.
pub type Ends = (String, String);

/// Why no run lies between two points.
#[derive(Debug, Clone, PartialEq)]
pub enum RunError {
    /// The outline has no point of that name.
    UnknownPoint {
        /// The name asked for.
        id: String,
        /// The names there are, anticlockwise.
        known: Vec<String>,
    },
    /// Other points lie between, whichever way round.
    NotNeighbours {
        /// The first point asked for.
        from: String,
        /// The second point asked for.
        to: String,
        /// The points passed anticlockwise.
        anticlockwise: Vec<String>,
        /// The points passed clockwise.
        clockwise: Vec<String>,
    },
    /// With fewer than three points both ways round are runs.
    Ambiguous {
        /// The first point asked for.
        from: String,
        /// The second point asked for.
        to: String,
    },
    /// Both ends are the same point.
    SamePoint {
        /// The point.
        id: String,
    },
}

/// What is measured of a shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// The width of a rectangle or an ellipse.
    Width,
    /// The height of a rectangle or an ellipse.
    Height,
    /// The radius of rounded corners.
    CornerRadius,
    /// The diameter of a circle or a ball.
    Diameter,
    /// How far an outline reaches.
    Extent,
    /// Into how many pieces a ball is cut.
    Gores,
    /// By how much it is scaled along the grain.
    Along,
    /// By how much it is scaled across the grain.
    Across,
}

/// Why a shape cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub enum ShapeError {
    /// A measure is not a finite number above zero.
    NotPositive {
        /// Which measure.
        what: Measure,
        /// Its value, in mm or as a count.
        value: f64,
    },
    /// A measure is above what the program handles.
    TooLarge {
        /// Which measure.
        what: Measure,
        /// Its value, in mm or as a count.
        value: f64,
        /// The most it may be.
        limit: f64,
    },
    /// A coordinate is not a finite number.
    NotFinite,
    /// A corner radius is above half the shorter side.
    RadiusTooLarge {
        /// The radius, in mm.
        radius: f64,
        /// Half the shorter side, in mm.
        limit: f64,
    },
    /// Fewer than three points.
    TooFewPoints {
        /// How many there are.
        found: usize,
    },
    /// A gore needs a ball cut into at least two.
    TooFewGores {
        /// The count given.
        found: u32,
    },
    /// One name stands at two points.
    IdTaken {
        /// The name.
        id: String,
    },
    /// Two named points are nearer than 0.5 mm to each other.
    TooClose {
        /// The later point.
        id: String,
        /// The earlier point.
        other: String,
        /// Their distance along the outline, in mm.
        distance: f64,
    },
    /// Two edges meet where they should not.
    SelfCrossing {
        /// The ends of one edge.
        first: Ends,
        /// The ends of the other edge.
        second: Ends,
        /// Where they meet.
        at: Point,
    },
    /// The curve does not come back to its start.
    Open {
        /// Distance from the end to the start, in mm.
        gap: f64,
    },
    /// The curve encloses nothing.
    NoArea,
    /// A named point does not lie on the curve.
    OffOutline {
        /// The point.
        id: String,
        /// Its distance from the curve, in mm.
        distance: f64,
    },
    /// A place on a run lies outside it.
    OutsideRun {
        /// The new point.
        id: String,
        /// The ends of the run.
        run: Ends,
        /// Length of the run, in mm.
        length: f64,
        /// Distance asked for from the first end, in mm.
        asked: f64,
    },
    /// A fold edge is not straight within 0.05 mm.
    FoldNotStraight {
        /// The ends of the fold.
        run: Ends,
        /// How far the edge leaves the straight line, in mm.
        deviation: f64,
    },
    /// No such run.
    Run(RunError),
}

impl From<RunError> for ShapeError {
    fn from(error: RunError) -> Self {
        Self::Run(error)
    }
}

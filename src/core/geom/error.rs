//! What can be wrong with a shape, with the points it is about.

use super::point::Point;
use std::fmt;

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

impl fmt::Display for RunError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownPoint { id, known } => {
                write!(f, "the outline has no point `{id}`; its points are {}", known.join(", "))
            }
            Self::NotNeighbours { from, to, anticlockwise, clockwise } => write!(
                f,
                "`{from}` and `{to}` are not neighbours: between them lie {} one way round, {} the other way",
                anticlockwise.join(", "),
                clockwise.join(", ")
            ),
            Self::Ambiguous { from, to } => {
                write!(f, "two edges run from `{from}` to `{to}`; a third point on the outline tells them apart")
            }
            Self::SamePoint { id } => write!(f, "an edge from `{id}` to itself names no edge"),
        }
    }
}

impl std::error::Error for RunError {}

/// Why a shape cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub enum ShapeError {
    /// A measure is not a finite number above zero.
    NotPositive {
        /// Which measure.
        what: &'static str,
        /// Its value, in mm or as a count.
        value: f64,
    },
    /// A measure is above what the program handles.
    TooLarge {
        /// Which measure.
        what: &'static str,
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

impl fmt::Display for ShapeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPositive { what, value } => write!(f, "the {what} must be above 0, and is {value}"),
            Self::TooLarge { what, value, limit } => {
                write!(f, "the {what} is {value}; {limit} is the most that can be handled")
            }
            Self::NotFinite => write!(f, "a coordinate is not a finite number"),
            Self::RadiusTooLarge { radius, limit } => {
                write!(f, "a corner radius of {radius} mm does not fit: half the shorter side is {limit} mm")
            }
            Self::TooFewPoints { found } => write!(f, "an outline needs at least 3 points, and has {found}"),
            Self::TooFewGores { found } => write!(f, "a ball is made of at least 2 gores, not {found}"),
            _ => self.fmt_places(f),
        }
    }
}

impl ShapeError {
    /// The second half of the messages: those that name places on the outline.
    fn fmt_places(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::IdTaken { id } => write!(f, "the point `{id}` is already on the outline"),
            Self::TooClose { id, other, distance } => write!(
                f,
                "the points `{other}` and `{id}` are {distance:.3} mm apart; they must be at least 0.5 mm apart"
            ),
            Self::SelfCrossing { first, second, at } => write!(
                f,
                "the edges {}-{} and {}-{} meet at x {:.3} mm, y {:.3} mm; an outline must not cross or touch itself",
                first.0, first.1, second.0, second.1, at.x, at.y
            ),
            Self::Open { gap } => write!(f, "the outline is open: its end is {gap:.3} mm from its start"),
            Self::NoArea => write!(f, "the outline encloses no area"),
            Self::OffOutline { id, distance } => {
                write!(f, "the point `{id}` is {distance:.3} mm off the outline; it must lie within 0.5 mm")
            }
            Self::OutsideRun { id, run, length, asked } => write!(
                f,
                "the point `{id}` would be {asked:.3} mm along {}-{}, which is {length:.3} mm long",
                run.0, run.1
            ),
            Self::FoldNotStraight { run, deviation } => write!(
                f,
                "the fold {}-{} is not straight: it is off by {deviation:.3} mm, and 0.05 mm is allowed",
                run.0, run.1
            ),
            Self::Run(error) => write!(f, "{error}"),
            _ => Ok(()),
        }
    }
}

impl std::error::Error for ShapeError {}

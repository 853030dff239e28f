//! Why a piece has no outline in a size.

use crate::geom::ShapeError;
use crate::source::Span;
use crate::words::Phrase;

use super::shape;

/// Why a piece has no outline in a size.
#[derive(Debug, Clone, PartialEq)]
pub enum Gap {
    /// No outline is written.
    Missing,
    /// The factory makes the pattern.
    ByFactory,
    /// Not shown in this edition.
    Withheld,
    /// The value has none for this size.
    NoSize,
    /// What is written makes no shape.
    Defect {
        /// Where.
        span: Span,
        /// Why not.
        message: Phrase,
        /// What kind of defect.
        fault: Fault,
        /// Further places, with what they are.
        also: Vec<(Span, Phrase)>,
    },
    /// It is drawn in a file that could not be read, as was said when it was read.
    Unread,
}

/// What kind of defect keeps a shape from being made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// The curve does not come back to its start.
    Open,
    /// The curve crosses or touches itself.
    SelfCrossing,
    /// Fewer than three points.
    TooFewPoints,
    /// A point lies off the curve.
    OffOutline,
    /// Two points nearly in one place.
    MicroRun,
    /// One name twice.
    DuplicatePoint,
    /// A fold that is no straight line.
    FoldNotStraight,
    /// Added points that refer to each other in a circle.
    Circle,
    /// A drawing without the outline.
    NotDrawn,
    /// Anything else.
    Other,
}

impl Fault {
    /// The kind of a refused shape.
    pub fn of(error: &ShapeError) -> Fault {
        match error {
            ShapeError::Open { .. } => Fault::Open,
            ShapeError::SelfCrossing { .. } => Fault::SelfCrossing,
            ShapeError::TooFewPoints { .. } => Fault::TooFewPoints,
            ShapeError::OffOutline { .. } => Fault::OffOutline,
            ShapeError::TooClose { .. } => Fault::MicroRun,
            ShapeError::IdTaken { .. } => Fault::DuplicatePoint,
            ShapeError::FoldNotStraight { .. } => Fault::FoldNotStraight,
            _ => Fault::Other,
        }
    }
}

impl Gap {
    /// A defect of no particular kind.
    pub fn defect(span: Span, message: impl Into<Phrase>) -> Gap {
        Gap::Defect { span, message: message.into(), fault: Fault::Other, also: Vec::new() }
    }

    /// A shape that was refused.
    pub fn shape(span: Span, error: &ShapeError) -> Gap {
        Gap::Defect { span, message: shape::shape(error), fault: Fault::of(error), also: Vec::new() }
    }
}

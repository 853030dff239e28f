//! What can be wrong with a written quantity.

use std::fmt;
use std::ops::Range;

use super::{Dimension, Unit};

/// A text that is no acceptable quantity, with the place, the reason and where possible the cure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    /// What is wrong.
    pub kind: QuantityErrorKind,
    /// Byte range of the offending part in the text given.
    pub span: Range<usize>,
    /// What is wrong, as one clause for a person; no full stop.
    pub message: String,
    /// The whole text to write instead; it always reads without error.
    pub fix: Option<String>,
    /// Whether that is certainly what is meant: only digits and signs of another width, or a decimal comma, are written
    /// otherwise.
    pub certain: bool,
}

/// The kind of a [`QuantityError`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuantityErrorKind {
    /// A number without a unit.
    BareNumber,
    /// A unit that is not in the list.
    UnknownUnit {
        /// The unit that was probably meant.
        nearest: Option<Unit>,
    },
    /// A known unit of something else than was asked for.
    WrongDimension {
        /// What the unit measures.
        found: Dimension,
        /// What would be accepted here.
        expected: Vec<Dimension>,
    },
    /// No number, or one written in a form that is not accepted.
    BadNumber,
    /// What follows the unit is no tolerance, or one that has no meaning here.
    BadTolerance,
    /// More digits than are held exactly.
    TooLarge,
    /// Nothing but spaces.
    Empty,
    /// A character outside ASCII that is not `±`.
    NonAscii,
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for QuantityError {}

//! What can be wrong with a written quantity.

use std::ops::Range;

use super::{Dimension, Unit};

/// A text that is no acceptable quantity, with the place, the reason and where possible the cure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    /// What is wrong.
    pub kind: QuantityErrorKind,
    /// Byte range of the offending part in the text given.
    pub span: Range<usize>,
    /// What exactly is wrong; `words` has the sentence.
    pub fault: Fault,
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

/// What exactly is wrong with a written quantity, with what a sentence about it needs. Texts are as written, control
/// characters escaped and cut where they are long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing is written where a quantity of this dimension, or of any, is wanted.
    Empty(Option<Dimension>),
    /// The text is too long.
    Long {
        /// Bytes it may have.
        most: usize,
        /// Bytes it has.
        found: usize,
    },
    /// A character that quantities are not written with.
    Foreign(String),
    /// No number where one is wanted.
    NoNumber(String),
    /// A number with too many digits.
    Digits,
    /// A number whose comma may part thousands or decimals.
    Ambiguous(String),
    /// A number written in a form that is not accepted.
    Number(String),
    /// Pieces are counted whole.
    Fraction,
    /// A number without a unit.
    NoUnit(String),
    /// A unit that is not in the list.
    UnknownUnit {
        /// As written.
        written: String,
        /// The unit that was probably meant.
        meant: Option<Unit>,
    },
    /// A unit of something else than was asked for.
    Measures {
        /// The unit.
        unit: Unit,
        /// What would be accepted.
        wanted: Vec<Dimension>,
    },
    /// A tolerance that is written in no accepted form.
    Tolerance,
    /// Something behind the unit that is no tolerance.
    Behind(String),
    /// `max` without its two amounts.
    Max,
    /// A tolerance in one direction only.
    OneWay,
    /// A tolerance without a number.
    NoMargin,
    /// A tolerance without a unit.
    BareMargin,
    /// A unit of a tolerance that measures something else than the target.
    OtherMargin {
        /// The unit.
        unit: Unit,
        /// What the target measures.
        target: Dimension,
    },
    /// A negative tolerance.
    Negative,
    /// A tolerance that measures something else than its target.
    OtherDimension,
    /// A share of a temperature.
    ShareOfTemperature,
    /// More digits than are held exactly.
    Inexact,
}

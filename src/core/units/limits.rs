//! Lower and upper limit of a quantity, and their rounding to what can be read.

use super::{Rational, Unit};

/// Exact limits in the unit in which the dimension is held; a reading on a limit is inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Limits {
    /// The least accepted value.
    pub lower: Rational,
    /// The greatest accepted value.
    pub upper: Rational,
}

impl Limits {
    /// True where the reading lies between the limits or on one of them.
    pub fn contains(&self, reading: Rational) -> bool {
        self.lower <= reading && reading <= self.upper
    }

    /// The limits in a unit of their dimension, for printing; `None` where the numbers do not fit.
    pub fn in_unit(&self, unit: Unit) -> Option<Self> {
        let factor = unit.si_factor();
        Some(Self { lower: self.lower.checked_div(factor)?, upper: self.upper.checked_div(factor)? })
    }

    /// The limits moved inward to multiples of `step` (same unit): lower up, upper down, so that no
    /// reading is passed that the exact limits refuse.
    ///
    /// # Errors
    /// [`Crossed`] where no multiple of the step lies inside, where the step is not above zero,
    /// and where the numbers do not fit.
    pub fn inward(&self, step: Rational) -> Result<Self, Crossed> {
        let failed = |cause| Crossed { lower: self.lower, upper: self.upper, step, cause };
        if !step.is_positive() {
            return Err(failed(Cause::UnusableStep));
        }
        let (Some(lower), Some(upper)) = (self.lower.ceil_to(step), self.upper.floor_to(step)) else {
            return Err(failed(Cause::TooLarge));
        };
        if lower > upper {
            return Err(Crossed { lower, upper, step, cause: Cause::Crossed });
        }
        Ok(Self { lower, upper })
    }
}

/// Why there are no limits at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Crossed {
    /// The lower limit: rounded where the cause is [`Cause::Crossed`], else as written.
    pub lower: Rational,
    /// The upper limit, likewise.
    pub upper: Rational,
    /// The step.
    pub step: Rational,
    /// What went wrong.
    pub cause: Cause,
}

/// The cause of a [`Crossed`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cause {
    /// Rounded inward, the lower limit stands above the upper: nothing that can be read is inside.
    Crossed,
    /// The step measures something else, or is not above zero.
    UnusableStep,
    /// The quantity has no tolerance, so it has no limits.
    NoTolerance,
    /// The rounded limits need more digits than are held exactly.
    TooLarge,
}

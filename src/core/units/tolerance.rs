//! How far a quantity may lie from its target.

use std::fmt;

use super::{Dimension, Rational, Unit};

/// One amount of a tolerance. A percentage is a share of the target, except where the target is
/// itself a percentage: there it counts in percentage points (`60 % ±3 %` is 57 % to 63 %).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Amount {
    /// The number as written; not negative.
    pub value: Rational,
    /// The unit as written; of the target's dimension, or [`Unit::Percent`].
    pub unit: Unit,
}

impl Amount {
    /// True where the amount is a share of a target of this dimension.
    pub fn is_share(&self, target: Dimension) -> bool {
        self.unit == Unit::Percent && target != Dimension::Percent
    }

    /// The amount in the unit in which `dimension` is held, for a target of `nominal` in that unit;
    /// `None` on overflow.
    pub fn resolved(&self, nominal: Rational, dimension: Dimension) -> Option<Rational> {
        let own = self.value.checked_mul(self.unit.si_factor())?;
        if self.is_share(dimension) { own.checked_mul(nominal.abs()) } else { Some(own) }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.value, self.unit)
    }
}

/// The tolerance written behind a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tolerance {
    /// The same both ways: `±5 mm`.
    PlusMinus(Amount),
    /// The greater of two, both ways: `±max(5 mm, 3 %)`.
    Max(Amount, Amount),
    /// Different up and down: `+5/-3 mm`.
    Split {
        /// How far above the target.
        plus: Amount,
        /// How far below the target.
        minus: Amount,
    },
}

impl Tolerance {
    /// The amounts in the order written.
    pub fn amounts(&self) -> Vec<Amount> {
        match *self {
            Self::PlusMinus(amount) => vec![amount],
            Self::Max(first, second) => vec![first, second],
            Self::Split { plus, minus } => vec![plus, minus],
        }
    }

    /// How far above and below a target of `nominal`, in the unit in which `dimension` is held;
    /// `None` on overflow.
    pub fn resolved(&self, nominal: Rational, dimension: Dimension) -> Option<(Rational, Rational)> {
        let own = |amount: &Amount| amount.resolved(nominal, dimension);
        Some(match self {
            Self::PlusMinus(amount) => (own(amount)?, own(amount)?),
            Self::Max(first, second) => {
                let greater = own(first)?.max(own(second)?);
                (greater, greater)
            }
            Self::Split { plus, minus } => (own(plus)?, own(minus)?),
        })
    }
}

impl fmt::Display for Tolerance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::PlusMinus(amount) => write!(f, "±{amount}"),
            Self::Max(first, second) => write!(f, "±max({first}, {second})"),
            Self::Split { plus, minus } if plus.unit == minus.unit => write!(f, "+{}/-{minus}", plus.value),
            Self::Split { plus, minus } => write!(f, "+{plus}/-{minus}"),
        }
    }
}

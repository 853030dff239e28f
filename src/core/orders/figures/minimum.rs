//! The minimum order of a fabric as a length.

use crate::orders::plan::rounded::{down, taken};
use crate::units::{Dimension, Quantity, Rational};

/// The minimum order of a fabric in whole millimetres, µm: one in kilograms by full width and mass, one in pieces by the roll.
/// None where none is stated, or what it is counted by is not.
pub(crate) fn minimum(known: &dyn Fn(&str) -> Option<Quantity>, roll: Option<i64>) -> Option<i64> {
    let minimum = known("minimum-order")?;
    let micro = match minimum.dimension() {
        Dimension::Length => micro(minimum.si())?,
        Dimension::Mass => micro(minimum.si().checked_div(known("width")?.si())?.checked_div(known("mass")?.si())?)?,
        Dimension::Count => minimum.si().ceil_to(Rational::ONE)?.checked_mul(Rational::whole(roll?))?,
        _ => return None,
    };
    Some(taken(i64::try_from(micro.ceil_to(Rational::ONE)?.numerator()).ok()?))
}

/// The length of a roll in whole millimetres, µm; none where none is stated.
pub(crate) fn roll(known: &dyn Fn(&str) -> Option<Quantity>) -> Option<i64> {
    let roll = known("roll-length").filter(|roll| roll.dimension() == Dimension::Length)?;
    let micro = i64::try_from(micro(roll.si())?.round_to(Rational::ONE)?.numerator()).ok()?;
    Some(down(micro)).filter(|roll| *roll > 0)
}

fn micro(metres: Rational) -> Option<Rational> {
    metres.checked_mul(Rational::whole(1_000_000))
}

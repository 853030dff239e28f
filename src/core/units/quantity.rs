//! A number with its unit and, where written, its tolerance.

use std::fmt;

use super::error::{Fault, QuantityError, QuantityErrorKind};
use super::limits::{Cause, Crossed, Limits};
use super::{Dimension, Rational, Tolerance, Unit};

/// A quantity as written. Made by [`Quantity::parse`] or [`Quantity::new`], which make sure that
/// everything computed from it fits; read the fields, do not assign to them.
///
/// Two quantities are equal when number, unit and tolerance are: the spelling does not count, and
/// `25 cm` is not `250 mm`.
#[derive(Clone, Debug)]
pub struct Quantity {
    /// The number as written.
    pub value: Rational,
    /// The unit as written.
    pub unit: Unit,
    /// The tolerance as written.
    pub tolerance: Option<Tolerance>,
    /// The text as written, spaces trimmed and made single.
    pub text: String,
    si: Rational,
    limits: Option<Limits>,
}

impl Quantity {
    /// A computed quantity. Its text is [`Quantity::written`], which is exact where the value is a
    /// finite decimal.
    ///
    /// # Errors
    /// [`QuantityErrorKind::BadTolerance`] for a tolerance that is negative, measures something
    /// else, or is a share of a temperature; [`QuantityErrorKind::TooLarge`] where the numbers or
    /// their conversion into another unit of the dimension do not fit.
    pub fn new(value: Rational, unit: Unit, tolerance: Option<Tolerance>) -> Result<Self, QuantityError> {
        let text = written(value, unit, tolerance);
        let failed = |kind, fault| Err(QuantityError { kind, span: 0..text.len(), fault, fix: None, certain: false });
        let amounts = tolerance.map(|t| t.amounts()).unwrap_or_default();
        if amounts.iter().any(|amount| amount.value.is_negative()) {
            return failed(QuantityErrorKind::BadTolerance, Fault::Negative);
        }
        let fits = |u: Unit| u == Unit::Percent || u.dimension() == unit.dimension();
        if !amounts.iter().all(|amount| fits(amount.unit)) {
            return failed(QuantityErrorKind::BadTolerance, Fault::OtherDimension);
        }
        if unit == Unit::C && amounts.iter().any(|amount| amount.unit == Unit::Percent) {
            return failed(QuantityErrorKind::BadTolerance, Fault::ShareOfTemperature);
        }
        match resolved(value, unit, tolerance) {
            Some((si, limits)) => Ok(Self { value, unit, tolerance, text, si, limits }),
            None => failed(QuantityErrorKind::TooLarge, Fault::Inexact),
        }
    }

    /// What the quantity measures.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// The exact value in the unit in which its dimension is held (see [`Dimension`]).
    pub fn si(&self) -> Rational {
        self.si
    }

    /// [`Quantity::si`] as a floating-point number, for geometry only.
    pub fn si_f64(&self) -> f64 {
        self.si.to_f64()
    }

    /// The exact value in another unit; `None` where that unit measures something else.
    pub fn in_unit(&self, unit: Unit) -> Option<Rational> {
        if unit.dimension() != self.dimension() {
            return None;
        }
        self.si.checked_div(unit.si_factor())
    }

    /// Exact limits, in the unit in which the dimension is held; `None` without a tolerance.
    pub fn limits(&self) -> Option<Limits> {
        self.limits
    }

    /// The limits rounded inward to the step that can be read: lower up, upper down.
    ///
    /// # Errors
    /// [`Crossed`] with both numbers where no readable value lies inside (60.5 mm ±0.4 mm at a step
    /// of 1 mm), and where there is no tolerance or the step cannot be used.
    pub fn limits_at(&self, step: &Self) -> Result<Limits, Crossed> {
        let failed = |limits: Limits, cause| Crossed { lower: limits.lower, upper: limits.upper, step: step.si, cause };
        let Some(limits) = self.limits else {
            return Err(failed(Limits { lower: self.si, upper: self.si }, Cause::NoTolerance));
        };
        if step.dimension() != self.dimension() {
            return Err(failed(limits, Cause::UnusableStep));
        }
        limits.inward(step.si)
    }

    /// The canonical spelling: `250 mm ±5 mm`, `320 g/m2 ±5 %`, `250 mm +5/-3 mm`.
    pub fn written(&self) -> String {
        written(self.value, self.unit, self.tolerance)
    }
}

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        (self.value, self.unit, self.tolerance) == (other.value, other.unit, other.tolerance)
    }
}

impl Eq for Quantity {}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.written())
    }
}

fn written(value: Rational, unit: Unit, tolerance: Option<Tolerance>) -> String {
    match tolerance {
        Some(tolerance) => format!("{value} {unit} {tolerance}"),
        None => format!("{value} {unit}"),
    }
}

/// Value and limits as held; `None` where they, or the value in any other unit of the dimension,
/// do not fit.
fn resolved(value: Rational, unit: Unit, tolerance: Option<Tolerance>) -> Option<(Rational, Option<Limits>)> {
    let si = value.checked_mul(unit.si_factor())?;
    for other in unit.dimension().units() {
        si.checked_div(other.si_factor())?;
    }
    let Some(tolerance) = tolerance else { return Some((si, None)) };
    let (plus, minus) = tolerance.resolved(si, unit.dimension())?;
    let limits = Limits { lower: si.checked_sub(minus)?, upper: si.checked_add(plus)? };
    Some((si, Some(limits)))
}

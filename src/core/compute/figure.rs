//! A number that may not be known, with its reasons, and how it is rounded and written.

use std::collections::BTreeSet;

use serde::ser::{Serialize, SerializeMap, Serializer};

use crate::model::{Given, Stated, Value, Variant};
use crate::units::Rational;
use crate::words::number::Decimal;
use crate::words::{Phrase, say, words};

words! {
    NOT_STATED "figure.not-stated" = "{what} is not stated";
    BY_FACTORY "figure.by-factory" = "{what} is the factory's to say";
    NOT_COMPUTED "figure.not-computed" = "it cannot be computed from what is stated";
}

/// Steps of the decimal grid that printed numbers land on: a millionth of the unit.
const STEPS: f64 = 1e6;

/// A computed number. Sums are made of unrounded numbers; what is read or written is rounded once, to a millionth of
/// its unit, halves away from nought.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Number {
    value: f64,
    /// The same number exactly, where it follows from stated values alone, such as a limit.
    exact: Option<Rational>,
}

impl Number {
    /// A number in the unit of its field.
    pub fn new(value: f64) -> Self {
        Number { value, exact: None }
    }

    /// A number that is known exactly, and printed so.
    pub fn exact(value: Rational) -> Self {
        Number { value: value.to_f64(), exact: Some(value) }
    }

    /// The number as every reader sees it, rounded.
    pub fn get(self) -> f64 {
        let rounded = (self.value * STEPS).round() / STEPS;
        // Beyond 2^53 steps a double has no such digits to round, and nought has no sign.
        if rounded.is_finite() { rounded + 0.0 } else { self.value }
    }

    /// The number exactly; where it is not known so, as every reader sees it, on the grid of figures. Nothing for one that is
    /// too large to be held.
    pub fn rational(self) -> Option<Rational> {
        let steps = (self.value * STEPS).round();
        let read = || (steps.abs() < 1e30).then(|| Rational::new(steps as i128, STEPS as i128)).flatten();
        self.exact.or_else(read)
    }

    /// The sum, exact where both are.
    fn plus(self, other: Self) -> Self {
        let exact = self.exact.zip(other.exact).and_then(|(a, b)| a.checked_add(b));
        Number { value: self.value + other.value, exact }
    }

    /// So many times the number, as exact as it is.
    pub(crate) fn multiplied(self, count: u64) -> Self {
        let exact = self.exact.and_then(|exact| exact.checked_mul(Rational::new(count.into(), 1)?));
        Number { value: self.value * count as f64, exact }
    }

    /// The unrounded number, for further computation only.
    pub(crate) fn raw(self) -> f64 {
        self.value
    }
}

/// Printed from the exact number where there is one.
impl Decimal for Number {
    fn digits(self, places: u32) -> Option<String> {
        match self.exact {
            Some(exact) => exact.digits(places),
            None => self.get().digits(places),
        }
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.get())
    }
}

/// A figure that may not be known. What is not known is never written as nought.
///
/// In `figures.json` a known figure is its plain value, an unknown one `{"not-known-yet": ["why", ..]}`, and one that
/// this edition does not show `{"withheld": true}`.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure<T> {
    /// The figure.
    Known(T),
    /// Something it needs is not known yet.
    NotYet {
        /// What is missing, one short clause each.
        why: BTreeSet<Phrase>,
    },
    /// It needs something that this edition does not show, or would give it away.
    Withheld,
}

impl<T> Figure<T> {
    /// A figure that is not known for one reason.
    pub fn not_yet(why: impl Into<Phrase>) -> Self {
        Figure::NotYet { why: BTreeSet::from([why.into()]) }
    }

    /// The value, if it is known.
    pub fn known(&self) -> Option<&T> {
        match self {
            Figure::Known(value) => Some(value),
            Figure::NotYet { .. } | Figure::Withheld => None,
        }
    }

    /// The reasons why it is not known, one after the other.
    pub fn why(&self) -> Option<Phrase> {
        match self {
            Figure::NotYet { why } => Some(Phrase::row(why, "; ")),
            Figure::Known(_) | Figure::Withheld => None,
        }
    }

    /// The same figure by reference.
    pub fn as_ref(&self) -> Figure<&T> {
        match self {
            Figure::Known(value) => Figure::Known(value),
            Figure::NotYet { why } => Figure::NotYet { why: why.clone() },
            Figure::Withheld => Figure::Withheld,
        }
    }

    /// A figure made from this one alone.
    pub fn map<U>(self, make: impl FnOnce(T) -> U) -> Figure<U> {
        self.then(|value| Figure::Known(make(value)))
    }

    /// A figure made from this one, which may fail to be known for reasons of its own.
    pub fn then<U>(self, make: impl FnOnce(T) -> Figure<U>) -> Figure<U> {
        match self {
            Figure::Known(value) => make(value),
            Figure::NotYet { why } => Figure::NotYet { why },
            Figure::Withheld => Figure::Withheld,
        }
    }

    /// A figure made from two. If either is withheld so is the result, lest it be solved for; all reasons are kept.
    pub fn with<U, V>(self, other: Figure<U>, make: impl FnOnce(T, U) -> V) -> Figure<V> {
        match (self, other) {
            (Figure::Withheld, _) | (_, Figure::Withheld) => Figure::Withheld,
            (Figure::Known(a), Figure::Known(b)) => Figure::Known(make(a, b)),
            (Figure::NotYet { mut why }, Figure::NotYet { why: more }) => {
                why.extend(more);
                Figure::NotYet { why }
            }
            (Figure::NotYet { why }, _) | (_, Figure::NotYet { why }) => Figure::NotYet { why },
        }
    }

    /// The value of a statement, `what` in the user's words for the reason.
    pub fn stated(stated: Option<&Stated<T>>, what: impl Into<Phrase>) -> Self
    where
        T: Clone,
    {
        match stated.map(|stated| &stated.given) {
            None => Figure::not_yet(say!(NOT_STATED, what)),
            Some(Given::Known(value)) => Figure::Known(value.clone()),
            Some(Given::ByFactory) => Figure::not_yet(say!(BY_FACTORY, what)),
            Some(Given::Withheld(_)) => Figure::Withheld,
        }
    }

    /// The value for one product.
    pub fn of(value: Option<&Value<T>>, variant: Variant<'_>, what: impl Into<Phrase>) -> Self
    where
        T: Clone,
    {
        Self::stated(value.and_then(|value| value.of(variant)), what)
    }
}

impl Figure<Number> {
    /// A known number; one that is infinite or none is not known.
    pub fn number(value: f64) -> Self {
        match value.is_finite() {
            true => Figure::Known(Number::new(value)),
            false => Figure::not_yet(NOT_COMPUTED),
        }
    }

    /// The sum, unrounded and exact where every part is; not known or withheld if any part is.
    pub fn sum(parts: impl IntoIterator<Item = Figure<Number>>) -> Self {
        parts.into_iter().fold(Figure::Known(Number::exact(Rational::ZERO)), |sum, part| sum.with(part, Number::plus))
    }

    /// Multiplied by a plain factor.
    pub fn times(self, factor: f64) -> Self {
        self.then(|number| Figure::number(number.raw() * factor))
    }

    /// The product of two figures.
    pub fn by(self, other: Self) -> Self {
        self.with(other, |a, b| a.raw() * b.raw()).then(Figure::number)
    }

    /// The rounded value, if it is known.
    pub fn get(&self) -> Option<f64> {
        self.known().map(|number| number.get())
    }
}

impl Figure<u64> {
    /// The sum; not known or withheld if any part is.
    pub fn total(parts: impl IntoIterator<Item = Figure<u64>>) -> Self {
        parts.into_iter().fold(Figure::Known(0), |sum, part| sum.with(part, |a, b| a.saturating_add(b)))
    }
}

impl<T: Serialize> Serialize for Figure<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Figure::Known(value) => value.serialize(serializer),
            Figure::NotYet { why } => {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry("not-known-yet", &why.iter().map(Phrase::english).collect::<Vec<_>>())?;
                map.end()
            }
            Figure::Withheld => {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry("withheld", &true)?;
                map.end()
            }
        }
    }
}

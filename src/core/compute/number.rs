//! Quantities as plain numbers: millimetres, square millimetres, grams.

use crate::model::{Article, Variant};
use crate::units::{Dimension, Quantity, Rational};
use crate::words::say;

use super::reason::PROPERTY_OF;
use super::{Figure, Number};

/// A property of an article for one product, as written.
pub(crate) fn property(article: &Article, key: &str, variant: Variant<'_>) -> Figure<Quantity> {
    Figure::of(article.quantity(key), variant, say!(PROPERTY_OF, key, title = article.entry.title()))
}

/// From the unit a dimension is held in to millimetres and grams: kg/m² become g/mm², kg/m are g/mm.
pub(crate) fn scale(dimension: Dimension) -> f64 {
    match dimension {
        Dimension::Length | Dimension::Mass => 1e3,
        Dimension::Area => 1e6,
        Dimension::MassPerArea | Dimension::Density => 1e-3,
        _ => 1.0,
    }
}

/// A quantity in millimetres, square millimetres, grams, stitches per millimetre; others as they are held.
pub(crate) fn small(quantity: &Quantity) -> f64 {
    quantity.si_f64() * scale(quantity.dimension())
}

/// A value of a dimension in small units, exactly as it is held.
pub(super) fn exact(si: Rational, dimension: Dimension) -> Figure<Number> {
    match factor(dimension).and_then(|factor| si.checked_mul(factor)) {
        Some(value) => Figure::Known(Number::exact(value)),
        None => Figure::number(si.to_f64() * scale(dimension)),
    }
}

/// [`scale`] exactly.
fn factor(dimension: Dimension) -> Option<Rational> {
    match dimension {
        Dimension::Length | Dimension::Mass => Some(Rational::whole(1_000)),
        Dimension::Area => Some(Rational::whole(1_000_000)),
        Dimension::MassPerArea | Dimension::Density => Rational::new(1, 1_000),
        _ => Some(Rational::ONE),
    }
}

/// [`small`] of a figure.
pub(crate) fn number(quantity: Figure<Quantity>) -> Figure<Number> {
    quantity.then(|quantity| Figure::number(small(&quantity)))
}

//! Figures of points of measure, and their line in a table of tolerances.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::{PointOfMeasure, Variant};
use crate::units::{Cause, Quantity, Rational, Unit};
use crate::words::{Phrase, say};

use super::input::Ground;
use super::reason::{DIGITS, DIGITS_OF, LIMITS_CROSS, NO_TOLERANCE, STATE_OF, STEP_OF, TARGET_OF, UNUSABLE_STEP};
use super::{Figure, Number};

/// One point of measure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct MeasureLine {
    /// The state it is measured in, as written: cut, sewn, stuffed, finished or packed.
    pub state: Figure<String>,
    /// Bulk is refused for it.
    pub critical: bool,
    /// For reference only.
    pub reference: bool,
    /// Limits by size; where a target differs by colourway, by `size/colourway`.
    pub sizes: BTreeMap<String, MeasureSize>,
}

/// One point of measure in one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct MeasureSize {
    /// Target with tolerance as written.
    pub text: Figure<String>,
    /// Symbol of the unit of every number here: that of the step, or of the target where no step is stated.
    pub unit: Figure<String>,
    /// Decimals that show the step, or the target where no step is stated.
    pub places: u32,
    /// Target.
    pub target: Figure<Number>,
    /// Allowed above the target.
    pub plus: Figure<Number>,
    /// Allowed below the target.
    pub minus: Figure<Number>,
    /// The step that can be read.
    pub read_to: Figure<Number>,
    /// Least reading that passes: the exact limit rounded up to the step.
    pub lower: Figure<Number>,
    /// Greatest reading that passes: the exact limit rounded down to the step.
    pub upper: Figure<Number>,
}

/// Points of measure by id.
pub(super) fn measures(ground: &Ground<'_>) -> BTreeMap<String, MeasureLine> {
    let line = |(id, measure): (&String, &PointOfMeasure)| (id.clone(), measure_line(ground, measure));
    ground.model.measures.iter().map(line).collect()
}

fn measure_line(ground: &Ground<'_>, measure: &PointOfMeasure) -> MeasureLine {
    let title = measure.entry.title();
    let colourways = &ground.model.colourways;
    let by_colourway = [&measure.target, &measure.read_to]
        .into_iter()
        .flatten()
        .any(|value| value.by.keys().any(|code| colourways.contains_key(code)));
    let mut sizes = BTreeMap::new();
    for variant in ground.model.variants() {
        let key = match by_colourway {
            true => format!("{}/{}", variant.size, variant.colourway),
            false => variant.size.to_string(),
        };
        sizes.entry(key).or_insert_with(|| measure_size(measure, variant));
    }
    let flag = |flag: &Option<crate::source::Spanned<bool>>| flag.as_ref().is_some_and(|flag| flag.value);
    MeasureLine {
        state: Figure::stated(measure.state.as_ref(), say!(STATE_OF, title)),
        critical: flag(&measure.critical),
        reference: flag(&measure.reference),
        sizes,
    }
}

fn measure_size(measure: &PointOfMeasure, variant: Variant<'_>) -> MeasureSize {
    let title = measure.entry.title();
    let target = Figure::of(measure.target.as_ref(), variant, say!(TARGET_OF, title));
    let step = Figure::of(measure.read_to.as_ref(), variant, say!(STEP_OF, title));
    table_line(&target, &step, title)
}

/// One line of the tolerance table: limits rounded inward to the step that can be read.
pub(super) fn table_line(target: &Figure<Quantity>, step: &Figure<Quantity>, title: &str) -> MeasureSize {
    let unit = match (step.known(), target.known()) {
        (Some(step), Some(target)) if step.dimension() == target.dimension() => Figure::Known(step.unit),
        _ => target.as_ref().map(|target| target.unit),
    };
    let shown = |si: Rational| {
        let unit = unit.clone();
        unit.then(|unit| in_unit(si, unit))
    };
    let limits = target.as_ref().with(step.as_ref(), |target, step| (target, step)).then(|(target, step)| {
        target.limits_at(step).map_or_else(|crossed| Figure::not_yet(reason(crossed.cause, title)), Figure::Known)
    });
    let margin = |above: bool| {
        target.as_ref().then(|target| {
            let limits = target.limits();
            let margin = limits.and_then(|limits| match above {
                true => limits.upper.checked_sub(target.si()),
                false => target.si().checked_sub(limits.lower),
            });
            margin.map_or_else(|| Figure::not_yet(reason(Cause::NoTolerance, title)), &shown)
        })
    };
    MeasureSize {
        text: target.as_ref().map(|target| target.text.clone()),
        places: places(step.known().or(target.known())),
        target: target.as_ref().then(|target| shown(target.si())),
        plus: margin(true),
        minus: margin(false),
        read_to: step.as_ref().then(|step| shown(step.si())),
        lower: limits.clone().then(|limits| shown(limits.lower)),
        upper: limits.then(|limits| shown(limits.upper)),
        unit: unit.map(|unit| unit.symbol().to_string()),
    }
}

fn in_unit(si: Rational, unit: Unit) -> Figure<Number> {
    match si.checked_div(unit.si_factor()) {
        Some(value) => Figure::Known(Number::exact(value)),
        None => Figure::not_yet(DIGITS),
    }
}

fn reason(cause: Cause, title: &str) -> Phrase {
    match cause {
        Cause::NoTolerance => say!(NO_TOLERANCE, what = title),
        Cause::Crossed => say!(LIMITS_CROSS, title),
        Cause::UnusableStep => say!(UNUSABLE_STEP, title),
        Cause::TooLarge => say!(DIGITS_OF, title),
    }
}

/// Decimals needed to write a number exactly, up to six.
fn places(quantity: Option<&Quantity>) -> u32 {
    let value = quantity.map_or(Rational::ONE, |quantity| quantity.value);
    let exact = |places: &u32| {
        let unit = Rational::new(1, 10_i128.pow(*places));
        unit.and_then(|unit| value.checked_div(unit)).is_some_and(Rational::is_whole)
    };
    (0..6).find(exact).unwrap_or(6)
}

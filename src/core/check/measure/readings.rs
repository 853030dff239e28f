//! What is read to a step: points of measure, and masses of filling.

use crate::model::{Model, Stated, Value, kind};
use crate::units::Quantity;
use crate::words::Phrase;

/// A target with the step that it is read to.
pub struct Reading<'a> {
    /// Point of measure or stuffing, by its name.
    pub what: Phrase,
    /// The target of one product.
    pub target: &'a Stated<Quantity>,
    /// The step for the same product.
    pub step: &'a Stated<Quantity>,
}

/// Every pair of a target and its step that is known, each once.
pub fn readings(model: &Model) -> Vec<Reading<'_>> {
    let points =
        model.measures.iter().map(|(id, one)| (kind::named("point-of-measure", id), &one.target, &one.read_to));
    let masses = model.stuffings.iter().map(|(id, one)| (kind::named("stuffing", id), &one.mass, &one.read_to));
    let mut all: Vec<Reading<'_>> = Vec::new();
    for (what, target, step) in points.chain(masses) {
        let (Some(target), Some(step)) = (target, step) else { continue };
        for (target, step) in pairs(model, target, step) {
            all.push(Reading { what: what.clone(), target, step });
        }
    }
    all
}

fn pairs<'a>(
    model: &'a Model,
    target: &'a Value<Quantity>,
    step: &'a Value<Quantity>,
) -> Vec<(&'a Stated<Quantity>, &'a Stated<Quantity>)> {
    let mut all: Vec<(&Stated<Quantity>, &Stated<Quantity>)> = Vec::new();
    for variant in model.variants() {
        let Some((target, step)) = target.of(variant).zip(step.of(variant)) else { continue };
        let known = target.known().is_some() && step.known().is_some();
        if known && all.iter().all(|(one, other)| (one.span, other.span) != (target.span, step.span)) {
            all.push((target, step));
        }
    }
    all
}

//! What is read to a step: points of measure, and masses of filling.

use crate::model::{Model, Stated, Value, kind};
use crate::units::Quantity;
use crate::words::Phrase;

/// A target with the step that it is read to.
pub struct Reading<'a> {
    /// Point of measure or stuffing, by its name.
    pub what: Phrase,
    /// The target of one product, where there is one.
    pub target: Option<&'a Stated<Quantity>>,
    /// The step for the same product.
    pub step: &'a Stated<Quantity>,
}

impl<'a> Reading<'a> {
    /// The target, where it is written, and its value with that of the step, where both are known.
    pub fn known(&self) -> Option<(&'a Stated<Quantity>, &'a Quantity, &'a Quantity)> {
        let target = self.target?;
        Some((target, target.known()?, self.step.known()?))
    }
}

/// Every step that is known, with its target: each pair once.
pub fn readings(model: &Model) -> Vec<Reading<'_>> {
    let points =
        model.measures.iter().map(|(id, one)| (kind::named("point-of-measure", id), &one.target, &one.read_to));
    let masses = model.stuffings.iter().map(|(id, one)| (kind::named("stuffing", id), &one.mass, &one.read_to));
    let mut all: Vec<Reading<'_>> = Vec::new();
    for (what, target, step) in points.chain(masses) {
        let Some(step) = step else { continue };
        for (target, step) in pairs(model, target.as_ref(), step) {
            all.push(Reading { what: what.clone(), target, step });
        }
    }
    all
}

fn pairs<'a>(
    model: &'a Model,
    target: Option<&'a Value<Quantity>>,
    step: &'a Value<Quantity>,
) -> Vec<(Option<&'a Stated<Quantity>>, &'a Stated<Quantity>)> {
    let mut all: Vec<(Option<&Stated<Quantity>>, &Stated<Quantity>)> = Vec::new();
    let spans =
        |(target, step): &(Option<&Stated<Quantity>>, &Stated<Quantity>)| (target.map(|one| one.span), step.span);
    for variant in model.variants() {
        let Some(step) = step.of(variant).filter(|step| step.known().is_some()) else { continue };
        let target = target.and_then(|target| target.of(variant)).filter(|target| target.known().is_some());
        if all.iter().all(|one| spans(one) != spans(&(target, step))) {
            all.push((target, step));
        }
    }
    all
}

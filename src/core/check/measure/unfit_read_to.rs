//! Rule: the step of a measurement is zero, or measures something else than the target.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::units::Dimension;
use crate::words::{say, words};

use super::readings::{Reading, readings};

/// A step that cannot be used.
pub const RULE: Rule = Rule {
    code: "unfit-read-to",
    family: "measure",
    severity: Severity::Must,
    summary: "the step of a measurement is zero, or measures something else than the target",
    explanation: "Limits are rounded to multiples of the step. A length cannot be read in grams, nor to a step of \
                  zero.",
    failing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nread-to = \"1 g\"",
    passing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nread-to = \"1 mm\"",
    source: "ISO 80000-1",
};

words! {
    NOT_POSITIVE "unfit-read-to.not-positive" = "{what} cannot be read to a step of {step}";
    HERE "unfit-read-to.here" = "not above zero";
    SMALLEST "unfit-read-to.smallest" = "write the smallest step your ruler or scale shows: \"{example}\"";
    OTHER_UNIT "unfit-read-to.other-unit" = "the step of {what} is {is}, and its target {has}";
    SAME_UNIT "unfit-read-to.same-unit" = "write the step in the unit of the target";
}

/// Reports each step once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for reading in readings(context.model) {
        let Some(finding) = unusable(&reading).or_else(|| unlike(&reading)) else { continue };
        if told.insert(reading.step.span) {
            findings.push(finding);
        }
    }
}

/// A step that is not above zero.
fn unusable(reading: &Reading<'_>) -> Option<Finding> {
    let step = reading.step.known().filter(|step| !step.si().is_positive())?;
    let target = reading.target.and_then(|target| target.known());
    let example = match target.unwrap_or(step).dimension() {
        Dimension::Mass => "1 g",
        Dimension::Count => "1 pc",
        _ => "1 mm",
    };
    let finding = Finding::new(&RULE, say!(NOT_POSITIVE, what = &reading.what, step)).at(reading.step.span, HERE);
    Some(finding.help(say!(SMALLEST, example)))
}

/// A step in another unit than its target.
fn unlike(reading: &Reading<'_>) -> Option<Finding> {
    let (place, target, step) = reading.known()?;
    let (is, has) = (step.dimension(), target.dimension());
    let finding = Finding::new(&RULE, say!(OTHER_UNIT, what = &reading.what, is, has));
    (is != has).then(|| finding.at(reading.step.span, is).at(place.span, has).help(SAME_UNIT))
}

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
    for Reading { what, target: place, step: stated } in readings(context.model) {
        let Some((target, step)) = place.known().zip(stated.known()) else { continue };
        let usable = step.si().is_positive();
        if (usable && target.dimension() == step.dimension()) || !told.insert(stated.span) {
            continue;
        }
        if !usable {
            let example = match target.dimension() {
                Dimension::Mass => "1 g",
                Dimension::Count => "1 pc",
                _ => "1 mm",
            };
            let finding = Finding::new(&RULE, say!(NOT_POSITIVE, what, step)).at(stated.span, HERE);
            findings.push(finding.help(say!(SMALLEST, example)));
            continue;
        }
        let (is, has) = (step.dimension(), target.dimension());
        let finding = Finding::new(&RULE, say!(OTHER_UNIT, what, is, has)).at(stated.span, is).at(place.span, has);
        findings.push(finding.help(SAME_UNIT));
    }
}

//! Rule: the step of a measurement is zero, or measures something else than the target.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Value;
use crate::words::{say, words};

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
    NOT_POSITIVE "unfit-read-to.not-positive" = "point of measure {id} cannot be read to a step of {step}";
    HERE "unfit-read-to.here" = "not above zero";
    SMALLEST "unfit-read-to.smallest" = "write the smallest step your ruler or scale shows: \"1 mm\"";
    OTHER_UNIT "unfit-read-to.other-unit" = "the step of point of measure {id} is {is}, and its target {has}";
    SAME_UNIT "unfit-read-to.same-unit" = "write the step in the unit of the target";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        let Some((stated, step)) = point.read_to.as_ref().and_then(|stated| Some((stated, stated.known()?))) else {
            continue;
        };
        if !step.si().is_positive() {
            findings.push(Finding::new(&RULE, say!(NOT_POSITIVE, id, step)).at(stated.span, HERE).help(SMALLEST));
            continue;
        }
        let targets = point.target.iter().flat_map(Value::all);
        let other = targets
            .filter_map(|target| Some((target, target.known()?)))
            .find(|(_, target)| target.dimension() != step.dimension());
        if let Some((place, target)) = other {
            let (is, has) = (step.dimension(), target.dimension());
            findings.push(
                Finding::new(&RULE, say!(OTHER_UNIT, id, is, has))
                    .at(stated.span, is)
                    .at(place.span, has)
                    .help(SAME_UNIT),
            );
        }
    }
}

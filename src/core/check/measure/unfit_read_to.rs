//! Rule: the step of a measurement is zero, or measures something else than the target.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Value;

/// A step that cannot be used.
pub const RULE: Rule = Rule {
    code: "unfit-read-to",
    family: "measure",
    severity: Severity::Must,
    summary: "the step of a measurement is nought, or measures something else than the target",
    explanation: "Limits are rounded to multiples of the step. A length cannot be read in grams, nor to a step of \
                  nought.",
    failing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nread-to = \"1 g\"",
    passing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nread-to = \"1 mm\"",
    source: "ISO 80000-1",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        let Some((stated, step)) = point.read_to.as_ref().and_then(|stated| Some((stated, stated.known()?))) else {
            continue;
        };
        if !step.si().is_positive() {
            findings.push(
                Finding::new(&RULE, format!("point of measure {id} cannot be read to a step of {step}"))
                    .at(stated.span, "not above nought")
                    .help("write the smallest step your ruler or scale shows: \"1 mm\""),
            );
            continue;
        }
        let targets = point.target.iter().flat_map(Value::all);
        let other = targets
            .filter_map(|target| Some((target, target.known()?)))
            .find(|(_, target)| target.dimension() != step.dimension());
        if let Some((place, target)) = other {
            let (is, has) = (step.dimension().name(), target.dimension().name());
            findings.push(
                Finding::new(&RULE, format!("the step of point of measure {id} is {is}, and its target {has}"))
                    .at(stated.span, is)
                    .at(place.span, has)
                    .help("write the step in the unit of the target"),
            );
        }
    }
}

//! Rule: no reading can lie within the limits of a measurement.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::units::{Cause, Quantity};
use crate::words::{say, words};

use super::readings::readings;

/// Limits between which nothing can be read.
pub const RULE: Rule = Rule {
    code: "limits-cross",
    family: "measure",
    severity: Severity::Must,
    summary: "no reading can lie within the limits of a measurement",
    explanation: "Limits are rounded inward to the step that can be read: the lower one up, the upper one down. Where the \
                  tolerance is narrow and the target lies between two steps, the lower limit ends above the upper one, \
                  and every product would be refused.",
    failing: "[point-of-measure.H1]\ntarget = \"60.5 mm ±0.4 mm\"\nread-to = \"1 mm\"",
    passing: "[point-of-measure.H1]\ntarget = \"60.5 mm ±0.5 mm\"\nread-to = \"1 mm\"",
    source: "follows from rounding limits inward",
};

words! {
    MESSAGE "limits-cross.message" = "{what}: no reading in steps of {step} lies within {target}";
    NOTHING_READ "limits-cross.nothing-read" = "nothing can be read in between";
    STEP "limits-cross.step" = "the step";
    HELP "limits-cross.help" = "widen the tolerance to at least one step, or read to a finer step";
}

/// Reports targets whose limits cross at the step.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for reading in readings(context.model) {
        let Some((place, target, step)) = reading.known() else { continue };
        if !crossed(target, step) {
            continue;
        }
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, what = reading.what, step, target))
                .at(place.span, NOTHING_READ)
                .at(reading.step.span, STEP)
                .help(HELP),
        );
    }
}

fn crossed(target: &Quantity, step: &Quantity) -> bool {
    target.limits_at(step).is_err_and(|error| error.cause == Cause::Crossed)
}

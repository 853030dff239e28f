//! Rule: a tolerance narrower than the step that can be read.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::units::Quantity;
use crate::words::{say, words};

use super::readings::readings;

/// A tolerance below what can be read.
pub const RULE: Rule = Rule {
    code: "tolerance-finer-than-reading",
    family: "measure",
    severity: Severity::Should,
    summary: "a tolerance narrower than the step that can be read",
    explanation: "If a reading is taken to 1 mm, a tolerance of 0.4 mm cannot be seen: only the target itself passes. \
                  Either the tolerance is a slip, or the measurement needs a finer instrument.",
    failing: "[point-of-measure.H1]\ntarget = \"60 mm ±0.4 mm\"\nread-to = \"1 mm\"",
    passing: "[point-of-measure.H1]\ntarget = \"60 mm ±1 mm\"\nread-to = \"1 mm\"",
    source: "common practice",
};

words! {
    MESSAGE "tolerance-finer-than-reading.message" = "the tolerance of {what} is finer than the step it is read to";
    SEEN "tolerance-finer-than-reading.seen" = "cannot be seen";
    STEP "tolerance-finer-than-reading.step" = "the step";
    HELP "tolerance-finer-than-reading.help" = "widen the tolerance to at least {step}, or read to a finer step";
}

/// Reports targets that may not deviate by one step in either direction, unless their limits cross.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for reading in readings(context.model) {
        let Some((place, target, step)) = reading.known() else { continue };
        if !finer(target, step) {
            continue;
        }
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, what = reading.what))
                .at(place.span, SEEN)
                .at(reading.step.span, STEP)
                .help(say!(HELP, step)),
        );
    }
}

/// Whether both deviations are below one step, and at least one reading passes.
fn finer(target: &Quantity, step: &Quantity) -> bool {
    let Some(limits) = target.limits().filter(|_| target.limits_at(step).is_ok()) else { return false };
    let up = limits.upper.checked_sub(target.si());
    let down = target.si().checked_sub(limits.lower);
    up.zip(down).is_some_and(|(up, down)| up < step.si() && down < step.si())
}

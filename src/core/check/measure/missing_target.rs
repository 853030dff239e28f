//! Rule: a point of measure says where to measure and not what is wanted.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A point of measure without a target.
pub const RULE: Rule = Rule {
    code: "missing-target",
    family: "measure",
    severity: Severity::Must,
    summary: "a point of measure says where to measure and not what is wanted",
    explanation: "The inspector reads a figure and has nothing to hold it against. If the figure is only known after the \
                  first sample, say so: `target = \"by factory\"`.",
    failing: "[point-of-measure.H1]\nstate = \"stuffed\"",
    passing: "[point-of-measure.H1]\nstate = \"stuffed\"\ntarget = \"250 mm ±5 mm\"",
    source: "common practice",
};

words! {
    MESSAGE "missing-target.message" = "point of measure {id} has no target";
    HERE "missing-target.here" = "what should it be?";
    HELP "missing-target.help" = "add target = \"250 mm ±5 mm\", or what it is; \"by factory\" leaves it to the factory";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        if point.target.is_some() || context.model.was_refused("point-of-measure", id, "target") {
            continue;
        }
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(point.entry.span(), HERE).help(HELP));
    }
}

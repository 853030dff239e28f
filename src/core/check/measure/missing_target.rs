//! Rule: a point of measure says where to measure and not what is wanted.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};

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

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        if point.target.is_some() || context.model.was_refused("point-of-measure", id, "target") {
            continue;
        }
        findings.push(
            Finding::new(&RULE, format!("point of measure {id} has no target"))
                .at(point.entry.span(), "what should it be?")
                .help("add target = \"250 mm ±5 mm\", or what it is; \"by factory\" leaves it to the factory"),
        );
    }
}

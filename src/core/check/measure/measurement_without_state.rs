//! Rule: a point of measure does not say in what state it is measured.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};

/// A measurement of which nobody knows when it is taken.
pub const RULE: Rule = Rule {
    code: "measurement-without-state",
    family: "measure",
    severity: Severity::Must,
    summary: "a point of measure does not say in what state it is measured",
    explanation: "A body measures one thing as a cut piece, another sewn flat, and another filled. Measured in the wrong \
                  state, good products are refused and bad ones pass.",
    failing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"",
    passing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nstate = \"stuffed\"",
    source: "common practice",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        if point.state.is_some() || context.model.was_refused("point-of-measure", id, "state") {
            continue;
        }
        findings.push(
            Finding::new(&RULE, format!("point of measure {id} does not say in what state it is measured"))
                .at(point.entry.span(), "cut, sewn or filled?")
                .help(Help::with(
                    "add state = \"stuffed\", or what it is: cut, sewn flat, closed, packed",
                    Edit::line(point.entry.span(), "state = \"stuffed\""),
                )),
        );
    }
}

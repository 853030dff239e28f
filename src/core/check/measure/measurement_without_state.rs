//! Rule: a point of measure does not say in what state it is measured.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};
use crate::words::{say, words};

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

words! {
    MESSAGE "measurement-without-state.message" = "point of measure {id} does not say in what state it is measured";
    HERE "measurement-without-state.here" = "cut, sewn or filled?";
    HELP "measurement-without-state.help" = "add state = \"stuffed\", or what it is: cut, sewn flat, closed, packed";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        if point.state.is_some() || context.model.was_refused("point-of-measure", id, "state") {
            continue;
        }
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, id))
                .at(point.entry.span(), HERE)
                .help(Help::with(HELP, Edit::line(point.entry.span(), "state = \"stuffed\""))),
        );
    }
}

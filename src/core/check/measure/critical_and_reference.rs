//! Rule: a point of measure is critical and for reference only at once.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};

/// A point that refuses bulk and never blocks.
pub const RULE: Rule = Rule {
    code: "critical-and-reference",
    family: "measure",
    severity: Severity::Must,
    summary: "a point of measure is critical and for reference only at once",
    explanation: "For a critical point bulk is refused; a reference point never blocks anything. One point cannot be \
                  both, and the inspector would have to guess.",
    failing: "[point-of-measure.H1]\ncritical = true\nreference = true",
    passing: "[point-of-measure.H1]\ncritical = true",
    source: "common practice",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        let (Some(critical), Some(reference)) = (&point.critical, &point.reference) else { continue };
        if critical.value && reference.value {
            findings.push(
                Finding::new(&RULE, format!("point of measure {id} is critical and for reference only at once"))
                    .at(reference.span, "never blocks")
                    .at(critical.span, "bulk is refused for it")
                    .help("take one of the two out"),
            );
        }
    }
}

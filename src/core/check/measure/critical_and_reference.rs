//! Rule: a point of measure is critical and for reference only at once.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

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

words! {
    MESSAGE "critical-and-reference.message" = "point of measure {id} is critical and for reference only at once";
    NEVER_BLOCKS "critical-and-reference.never-blocks" = "never blocks";
    BULK_REFUSED "critical-and-reference.bulk-refused" = "bulk is refused for it";
    HELP "critical-and-reference.help" = "take one of the two out";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        let (Some(critical), Some(reference)) = (&point.critical, &point.reference) else { continue };
        if critical.value && reference.value {
            findings.push(
                Finding::new(&RULE, say!(MESSAGE, id))
                    .at(reference.span, NEVER_BLOCKS)
                    .at(critical.span, BULK_REFUSED)
                    .help(HELP),
            );
        }
    }
}

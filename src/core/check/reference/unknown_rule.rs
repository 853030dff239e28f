//! Rule: a severity is set for a rule that does not exist.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};

use crate::source::nearest;
use crate::words::{say, words};

/// A severity for a rule that does not exist.
pub const RULE: Rule = Rule {
    code: "unknown-rule",
    family: "reference",
    severity: Severity::Must,
    summary: "a severity is set for a rule that does not exist",
    explanation: "Under [severity] a rule can be made stricter or laxer by its code. With a misspelt code nothing \
                  changes, and the author believes that it does.",
    failing: "[severity]\nmissing-tolerence = \"must\"",
    passing: "[severity]\nmissing-tolerance = \"must\"",
    source: "common practice",
};

words! {
    WRITE_RESPELT "unknown-rule.write-respelt" = "write `{near}`";
    CODES "unknown-rule.codes" = "each finding shows its code in square brackets";
    MESSAGE "unknown-rule.message" = "no rule is called `{code}`";
    HERE "unknown-rule.here" = "no such code";
}

/// Reports codes under `[severity]` that no rule has.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (code, place) in context.levels {
        if context.codes.contains(&code.as_str()) {
            continue;
        }
        let help = match nearest(code, context.codes.iter().copied()) {
            Some(near) => {
                let edit = Edit::respell(*place, code, near, context.codes.iter().copied());
                Help::with(say!(WRITE_RESPELT, near), edit)
            }
            None => CODES.into(),
        };
        findings.push(Finding::new(&RULE, say!(MESSAGE, code)).at(*place, HERE).help(help));
    }
}

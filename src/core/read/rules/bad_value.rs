//! Rule: a value of the wrong sort for its key.

use crate::diag::{Finding, Rule, Severity};
use crate::source::{Help, Span};
use crate::words::Phrase;

/// A value of the wrong sort.
pub const RULE: Rule = Rule {
    code: "bad-value",
    family: "files",
    severity: Severity::Must,
    summary: "a value of the wrong sort for its key",
    explanation: "Each key takes one sort of value: a text, a quantity with its unit, a list, a table, or one of a few \
                  words. Nothing is guessed from another sort.",
    failing: "[opening.zip]\nclose = \"zip\"",
    passing: "[opening.zip]\nclose = { by = \"zip\" }",
    source: "common practice",
};

/// A value that cannot be used, with the reason.
pub fn bad_value(message: impl Into<Phrase>, span: Span, help: impl Into<Help>) -> Finding {
    Finding::new(&RULE, message).at(span, "this value").help(help)
}

/// A value of another sort than its key takes.
pub fn wrong_kind(key: &str, wanted: &str, found: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("`{key}` takes {wanted}")).at(span, format!("this is {found}"))
}

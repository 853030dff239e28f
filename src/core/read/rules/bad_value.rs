//! Rule: a value of the wrong sort for its key.

use crate::diag::{Finding, Rule, Severity};
use crate::source::{Help, Span};
use crate::words::{Phrase, say, words};

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

words! {
    VALUE "bad-value.value" = "this value";
    MESSAGE "bad-value.message" = "`{key}` takes {wanted}";
    THIS_IS "bad-value.this-is" = "this is {found}";
}

/// A value that cannot be used, with the reason.
pub fn bad_value(message: impl Into<Phrase>, span: Span, help: impl Into<Help>) -> Finding {
    Finding::new(&RULE, message).at(span, VALUE).help(help)
}

/// A value of another sort than its key takes.
pub fn wrong_kind(key: &str, wanted: impl Into<Phrase>, found: impl Into<Phrase>, span: Span) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, key, wanted)).at(span, say!(THIS_IS, found))
}

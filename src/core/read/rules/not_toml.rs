//! Rule: a file is not well-formed TOML.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

/// Text that is not TOML.
pub const RULE: Rule = Rule {
    code: "not-toml",
    family: "files",
    severity: Severity::Must,
    summary: "a file is not well-formed TOML",
    explanation: "What cannot be parsed cannot be checked. The rest of the file is still read as far as possible, but \
                  its keys may have landed in the wrong table, so unknown keys are not reported in it until this is \
                  put right.",
    failing: "[piece.TOP]\npart = \"cushion",
    passing: "[piece.TOP]\npart = \"cushion\"",
    source: "TOML 1.0.0, toml.io",
};

/// The parser's message at the user's text. Two tables with one name are a duplicate id, not a slip of syntax.
pub fn syntax(message: &str, span: Span) -> Finding {
    if message.contains("duplicate key") {
        return Finding::new(&super::DUPLICATE_ID, "the same key stands twice in this file")
            .at(span, "the second one")
            .help("keep one of the two, or give one another id");
    }
    Finding::new(&RULE, format!("this is not TOML: {message}")).at(span, "here")
}

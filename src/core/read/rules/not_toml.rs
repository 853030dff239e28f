//! Rule: a file is not well-formed TOML.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

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

words! {
    SAME_KEY "not-toml.same-key" = "the same key is twice in this file";
    SECOND "not-toml.second" = "the second one";
    HELP "not-toml.help" = "keep one of the two, or give one another id";
    TOML "not-toml.toml" = "this is not TOML: {message}";
    HERE "not-toml.here" = "here";
}

/// The parser's message at the user's text. Two tables with one name are a duplicate id, not a slip of syntax.
pub fn syntax(message: &str, span: Span) -> Finding {
    if message.contains("duplicate key") {
        return Finding::new(&super::DUPLICATE_ID, SAME_KEY).at(span, SECOND).help(HELP);
    }
    Finding::new(&RULE, say!(TOML, message)).at(span, HERE)
}

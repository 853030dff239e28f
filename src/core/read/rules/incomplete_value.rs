//! Rule: a value given by size or colourway that leaves one out.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

/// A value by size or colourway with a gap.
pub const RULE: Rule = Rule {
    code: "incomplete-value",
    family: "files",
    severity: Severity::Must,
    summary: "a value given by size or colourway that leaves one out",
    explanation: "Where a value differs by size, the size that is left out would be made to somebody's guess. Give every \
                  code or an `else`.",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[stuffing.inner]\nmass = { S = \"900 g\" }",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[stuffing.inner]\nmass = { S = \"900 g\", else = \"1600 g\" }",
    source: "common practice",
};

words! {
    MESSAGE "incomplete-value.message" = "`{key}` has no value for {missing}";
    HERE "incomplete-value.here" = "values by size or colourway";
    HELP "incomplete-value.help" = "add {lines}, or else = \"..\"";
}

/// Codes without a value.
pub fn incomplete_value(key: &str, missing: &[&str], span: Span) -> Finding {
    let lines: Vec<String> = missing.iter().map(|code| format!("{code} = \"..\"")).collect();
    Finding::new(&RULE, say!(MESSAGE, key, missing = missing.join(", ")))
        .at(span, HERE)
        .help(say!(HELP, lines = lines.join(", ")))
}

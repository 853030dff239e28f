use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

/// A size or colourway that does not exist.
pub const RULE: Rule = Rule {
    code: "unknown-code",
    family: "files",
    severity: Severity::Must,
    summary: "a value for a size or colourway the style does not have",
    explanation: "A value can differ by size or by colourway: `{ S = \"..\", L = \"..\" }`. Each code must be one that \
                  the style lists.",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[stuffing.inner]\nmass = { S = \"900 g\", XL = \"1600 g\" }",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[stuffing.inner]\nmass = { S = \"900 g\", L = \"1600 g\" }",
    source: "common practice",
};

/// A code nothing declares.
pub fn unknown_code(code: &str, known: &[&str], span: Span) -> Finding {
    Finding::new(&RULE, format!("`{code}` is neither a size nor a colourway of this style"))
        .at(span, "not declared")
        .help(format!("known codes: {}, or `else` for all others", known.join(", ")))
}

//! Rule: a value for a size or colourway the style does not have.

use crate::diag::{Finding, Rule, Severity};
use crate::source::{Edit, Help, Span};
use crate::words::{say, words};

use crate::source::nearest;

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

words! {
    MESSAGE "unknown-code.message" = "`{code}` is neither a size nor a colourway of this style";
    HERE "unknown-code.here" = "not declared";
    HELP "unknown-code.help" = "known codes: {known}, or `else` for all others";
}

/// A code nothing declares, beside those that are written already.
pub fn unknown_code(code: &str, known: &[&str], written: &[&str], span: Span) -> Finding {
    let bare = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
    let near = nearest(code, known.iter().copied()).filter(|near| near.chars().all(bare) && !written.contains(near));
    let edit = near.map(|near| Edit::respell(span, code, near, known.iter().copied()));
    Finding::new(&RULE, say!(MESSAGE, code)).at(span, HERE).help(Help::with(say!(HELP, known = known.join(", ")), edit))
}

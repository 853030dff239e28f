//! Rule: a key or table that nothing reads.

use crate::diag::{Finding, Rule, Severity};
use crate::source::nearest;
use crate::source::{Edit, Help, Span};
use crate::words::{Phrase, say, words};

/// A key nothing reads.
pub const RULE: Rule = Rule {
    code: "unknown-key",
    family: "files",
    severity: Severity::Must,
    summary: "a key or table that nothing reads",
    explanation: "A misspelt key is worse than a missing one: its author believes that the factory has been told. So \
                  every key must be one that is known, and the nearest known one is proposed.",
    failing: "[fabric.canvas]\nmas = \"320 g/m2 ±5 %\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2 ±5 %\"",
    source: "common practice",
};

words! {
    KEY "unknown-key.key" = "{what} has no key `{key}`";
    HERE "unknown-key.here" = "nothing reads this";
    KNOWN_HERE "unknown-key.known-here" = "known here: {known}";
    TABLE "unknown-key.table" = "there is no table `{key}`";
    KNOWN_TABLES "unknown-key.known-tables" = "known tables: {known}";
    WRITE_RESPELT "unknown-key.write-respelt" = "write `{near}`";
}

/// An unknown key of a table.
pub fn unknown_key(key: &str, what: &Phrase, known: &[&str], span: Span) -> Finding {
    let finding = Finding::new(&RULE, say!(KEY, what, key)).at(span, HERE);
    match nearest(key, known.iter().copied()) {
        Some(near) => finding.help(respelt(key, near, known, span)),
        None => finding.help(say!(KNOWN_HERE, known = known.join(", "))),
    }
}

/// An unknown top-level table.
pub fn unknown_table(key: &str, known: &[&str], span: Span) -> Finding {
    let finding = Finding::new(&RULE, say!(TABLE, key)).at(span, HERE);
    match nearest(key, known.iter().copied()) {
        Some(near) => finding.help(respelt(key, near, known, span)),
        None => finding.help(say!(KNOWN_TABLES, known = known.join(", "))),
    }
}

/// The key as it is probably meant.
fn respelt(key: &str, near: &str, known: &[&str], span: Span) -> Help {
    Help::with(say!(WRITE_RESPELT, near), Edit::respell(span, key, near, known.iter().copied()))
}

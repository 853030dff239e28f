//! Rule: two things of one kind have the same id.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, say, words};

/// One id for two things.
pub const RULE: Rule = Rule {
    code: "duplicate-id",
    family: "files",
    severity: Severity::Must,
    summary: "two things of one kind have the same id",
    explanation: "Everything hangs on ids: comments, approvals, what changed between two revisions. If two things share \
                  one, nobody can say which is meant.",
    failing: "# in trims.toml\n[trim.zip]\n# in packing.toml\n[trim.zip]",
    passing: "# in trims.toml\n[trim.zip]\n# in packing.toml\n[trim.zip-bag]",
    source: "common practice",
};

words! {
    MESSAGE "duplicate-id.message" = "{what} is declared twice";
    DECLARED_AGAIN "duplicate-id.declared-again" = "declared again here";
    FIRST_DECLARED "duplicate-id.first-declared" = "first declared here";
    HELP "duplicate-id.help" = "give one of them another id, or join the two";
}

/// Two declarations of one id.
pub fn duplicate_id(what: impl Into<Phrase>, first: Span, second: Span) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, what = what.into()))
        .at(second, DECLARED_AGAIN)
        .at(first, FIRST_DECLARED)
        .help(HELP)
}

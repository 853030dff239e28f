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
    SHARED "duplicate-id.shared" = "seam, opening, edge finish, topstitch, attachment and step share their ids, because `order` names them by these alone";
    OTHER "duplicate-id.other" = "give one of them another id, here and in `order`: \"{id}-2\"";
    HELP "duplicate-id.help" = "give one of them another id, or join the two";
}

/// Two declarations of one id.
pub fn duplicate_id(what: impl Into<Phrase>, first: Span, second: Span) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, what = what.into()))
        .at(second, DECLARED_AGAIN)
        .at(first, FIRST_DECLARED)
        .help(HELP)
}

/// Two steps of the work of one id, which the order of work could not tell apart.
pub fn shared_id(what: impl Into<Phrase>, id: &str, first: Span, second: Span) -> Finding {
    let (first, second) = (first.min(second), first.max(second));
    Finding::new(&RULE, say!(MESSAGE, what = what.into()))
        .at(second, DECLARED_AGAIN)
        .at(first, FIRST_DECLARED)
        .help(SHARED)
        .help(say!(OTHER, id))
}

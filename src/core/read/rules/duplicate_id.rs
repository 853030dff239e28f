//! Rule: two things of one kind have the same id.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

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

/// Two declarations of one id.
pub fn duplicate_id(what: &str, first: Span, second: Span) -> Finding {
    Finding::new(&RULE, format!("{what} is declared twice"))
        .at(second, "declared again here")
        .at(first, "first declared here")
        .help("give one of them another id, or join the two")
}

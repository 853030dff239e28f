//! Rule: a lay kept in backtack.lock cannot be read.

use crate::diag::{Finding, Rule, Severity};
use crate::words::{Phrase, say, words};

/// A kept lay that cannot be read.
pub const RULE: Rule = Rule {
    code: "broken-lock",
    family: "cutting",
    severity: Severity::Should,
    summary: "a lay kept in backtack.lock cannot be read",
    explanation: "backtack.lock keeps the lays that yardages come from, so that they do not move by themselves. What was \
                  edited by hand, merged wrongly or written by another version is not taken, and nothing is written \
                  over such a file: the lays in it may be wanted back.",
    failing: "# backtack.lock\nformat = 1\n[[lay]]\nwhat = \"Shell, L × 6\"\nlength = \"about a metre\"",
    passing: "# backtack.lock, as `backtack build` wrote it",
    source: "common practice",
};

words! {
    MESSAGE "broken-lock.message" = "backtack.lock cannot be read: {what}";
    HELP "broken-lock.help" = "take the file back from before it was changed, or delete it: `backtack build` then finds every lay again";
}

/// An entry, or the whole file.
pub fn broken_lock(what: impl Into<Phrase>) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, what)).help(HELP)
}

//! A text of the starting files that was never changed.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

/// What a starting file writes behind an example of what only its owner knows.
pub const PLACEHOLDER: &str = "(change me)";

/// A placeholder that is still there.
pub const RULE: Rule = Rule {
    code: "placeholder-left",
    family: "files",
    severity: Severity::Should,
    summary: "a text that was to be changed is still as `new` wrote it",
    explanation: "`new` writes (change me) where only you know what belongs there: your company, your factory, your name, \
                  the swatches of your colours. A prototype may be built with it. For every later stage and for a seal this is a \
                  `must`, whatever [severity] says: what is printed and sealed would name nobody.",
    failing: "[party.us]\nname = \"Your company (change me)\"\nrole = \"owner\"",
    passing: "[party.us]\nname = \"Example Works\"\nrole = \"owner\"",
    source: "common practice",
};

words! {
    ONE "placeholder-left.one" = "1 text still says (change me)";
    SEVERAL "placeholder-left.several" = "{count} texts still say (change me)";
    HERE "placeholder-left.here" = "what is it?";
    ALSO "placeholder-left.also" = "and here";
    HELP "placeholder-left.help" = "write your own words in place of each; nothing is sealed while one is left";
}

/// Whether a text is still the one of a starting file, or part of it.
pub fn is_placeholder(text: &str) -> bool {
    text.to_lowercase().contains(PLACEHOLDER)
}

/// All such texts, in the order of files and lines.
pub fn placeholder_left(places: &[Span]) -> Option<Finding> {
    let (first, others) = places.split_first()?;
    let message = if others.is_empty() { say!(ONE) } else { say!(SEVERAL, count = places.len()) };
    let finding = Finding::new(&RULE, message).at(*first, HERE);
    Some(others.iter().fold(finding, |finding, place| finding.at(*place, ALSO)).help(HELP))
}

//! Rule: what was said of samples stands in one file with a part of the specification.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

/// A sample, comment, approval or concession in a file of the specification.
pub const RULE: Rule = Rule {
    code: "sample-in-style-file",
    family: "files",
    severity: Severity::Must,
    summary: "what was said of samples stands in one file with a part of the specification",
    explanation: "A style is sealed once; samples come, are measured and commented on, and none of it makes a new revision. \
                  So a file that holds a sample, a comment, an approval or a concession, or lies in a folder samples, is no part \
                  of the files the factory gets; it gets sheets of them. What else stands in such a file would be missing \
                  there.",
    failing: "# style.toml\n[style]\nid = \"HF-118\"\n[sample.first]\npieces = 3",
    passing: "# samples/first.toml\n[sample.first]\npieces = 3",
    source: "common practice",
};

words! {
    MESSAGE "sample-in-style-file.message" = "[{table}] is in a file of samples, which is kept apart from the style";
    MISSING_FACTORYS "sample-in-style-file.missing-factorys" = "would be missing in the factory's edition";
    SAMPLES "sample-in-style-file.samples" = "of samples";
    HELP "sample-in-style-file.help" = "move one of the two into a file of its own, as samples/first.toml";
}

/// A table of the specification in a file of samples.
pub fn sample_in_style_file(table: &str, place: Span, said: Option<Span>) -> Finding {
    let finding = Finding::new(&RULE, say!(MESSAGE, table)).at(place, MISSING_FACTORYS);
    let finding = said.into_iter().fold(finding, |finding, said| finding.at(said, SAMPLES));
    finding.help(HELP)
}

//! Rule: a file the specification names is missing or outside the folder.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

/// A path that is not there or leads out.
pub const RULE: Rule = Rule {
    code: "bad-path",
    family: "files",
    severity: Severity::Must,
    summary: "a file the specification names is missing or outside the folder",
    explanation: "Files are named relative to the style folder, with forward slashes, and must lie inside it: the sealed \
                  package holds them all, and must open on any machine.",
    failing: "[view.front]\npicture = \"../photos/front.png\"",
    passing: "[view.front]\npicture = \"pictures/front.png\"",
    source: "common practice",
};

/// A path that leads out or is absolute.
pub fn bad_path(path: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("`{path}` leads out of the folder"))
        .at(span, "not inside the folder")
        .help("copy the file into the folder and name it from there, with `/` between folders")
}

/// A file that is not there.
pub fn missing_file(path: &str, span: Span) -> Finding {
    Finding::new(&RULE, format!("there is no file `{path}`")).at(span, "not found")
}

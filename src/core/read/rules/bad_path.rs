//! Rule: a file the specification names is missing or outside the folder.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

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

words! {
    LEADS_OUT "bad-path.leads-out" = "`{path}` leads out of the folder";
    INSIDE_FOLDER "bad-path.inside-folder" = "not inside the folder";
    HELP "bad-path.help" = "copy the file into the folder and name it from there, with `/` between folders";
    FILE "bad-path.file" = "there is no file `{path}`";
    FOUND "bad-path.found" = "not found";
}

/// A path that leads out or is absolute.
pub fn bad_path(path: &str, span: Span) -> Finding {
    Finding::new(&RULE, say!(LEADS_OUT, path)).at(span, INSIDE_FOLDER).help(HELP)
}

/// A file that is not there.
pub fn missing_file(path: &str, span: Span) -> Finding {
    Finding::new(&RULE, say!(FILE, path)).at(span, FOUND)
}

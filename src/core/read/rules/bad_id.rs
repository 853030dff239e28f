//! Rule: an id with characters that cannot be used.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

/// An id that cannot be written elsewhere.
pub const RULE: Rule = Rule {
    code: "bad-id",
    family: "files",
    severity: Severity::Must,
    summary: "an id with characters that cannot be used",
    explanation: "Ids are written in edges (`SIDE.l:n-c`), in file names, on labels and in mails between two \
                  languages, so they are plain ASCII: a letter, then letters, digits and `_`. A hyphen may stand only in ids that never \
                  occur in an edge (materials, seams, steps and the like), since an edge has hyphens between its points. Text \
                  for people stands in `name`. A piece or an order whose id cannot be used is not taken at all, since its \
                  id would name a file.",
    failing: "[piece.\"Größe 1\"]",
    passing: "[piece.TOP1]\nname = \"Größe 1\"",
    source: "common practice",
};

/// A bad id; `hyphen` says whether hyphens are allowed in this kind.
pub fn bad_id(id: &str, kind: &str, hyphen: bool, span: Span) -> Finding {
    let allowed = if hyphen { "letters, digits, `_` and `-`" } else { "letters, digits and `_`" };
    let fixed: String = id
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() || c == '_' || (hyphen && c == '-') { c } else { '_' })
        .skip_while(|c| !c.is_ascii_alphabetic())
        .collect();
    let article = if kind.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    let finding = Finding::new(&RULE, format!("`{id}` cannot be the id of {article} {kind}"))
        .at(span, format!("a letter first, then {allowed}"));
    if fixed.is_empty() { finding } else { finding.help(format!("write `{fixed}` and put the text into `name`")) }
}

//! Rule: an id with characters that cannot be used.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, say, words};

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

words! {
    OF_A "bad-id.of-a" = "`{id}` cannot be the id of a {kind}";
    OF_AN "bad-id.of-an" = "`{id}` cannot be the id of an {kind}";
    HYPHENS "bad-id.hyphens" = "a letter first, then letters, digits, `_` and `-`";
    NO_HYPHENS "bad-id.no-hyphens" = "a letter first, then letters, digits and `_`";
    HELP "bad-id.help" = "write `{fixed}` and put the text into `name`";
}

/// A bad id; `hyphen` says whether hyphens are allowed in this kind.
pub fn bad_id(id: &str, kind: impl Into<Phrase>, hyphen: bool, span: Span) -> Finding {
    let allowed = if hyphen { HYPHENS } else { NO_HYPHENS };
    let fixed: String = id
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() || c == '_' || (hyphen && c == '-') { c } else { '_' })
        .skip_while(|c| !c.is_ascii_alphabetic())
        .collect();
    let kind = kind.into();
    let word = if kind.english().starts_with(['a', 'e', 'i', 'o', 'u']) { OF_AN } else { OF_A };
    let finding = Finding::new(&RULE, say!(word, id, kind)).at(span, allowed);
    if fixed.is_empty() { finding } else { finding.help(say!(HELP, fixed)) }
}

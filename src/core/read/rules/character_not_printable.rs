//! A character that the built-in type does not have.

use crate::diag::{Finding, Rule, Severity};
use crate::glyphs::PLACEHOLDER;
use crate::source::Span;
use crate::words::{Phrase, say, words};

/// A character that no page can show.
pub const RULE: Rule = Rule {
    code: "character-not-printable",
    family: "files",
    severity: Severity::Should,
    summary: "a text with a character that the built-in type cannot show",
    explanation: "The sheets are set in built-in type, so that they look the same everywhere. It holds Latin letters with \
                  all accents in use, Greek, Cyrillic, simplified Chinese, figures, arrows and the signs of measuring. In \
                  place of any other character a sheet shows a box, and the factory has to guess the letter.",
    failing: "[part.body]\nname = \"Body 🧵\"",
    passing: "[part.body]\nname = \"Body, sewn\"",
    source: "common practice",
};

words! {
    ONE "character-not-printable.one" = "`{key}` of {of} holds a character no sheet can show: {named}";
    SEVERAL "character-not-printable.several" = "`{key}` of {of} holds characters no sheet can show: {named}";
    HERE "character-not-printable.here" = "a sheet shows {placeholder} here";
    HELP "character-not-printable.help" = "write it in words, in Latin, Greek, Cyrillic or simplified Chinese letters";
}

/// A value with such characters; `of` names its table and id, `span` is the first of them.
pub fn character_not_printable(key: &str, of: &Phrase, characters: &[char], span: Span) -> Finding {
    let named: Vec<String> = characters.iter().map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
    let word = if named.len() == 1 { ONE } else { SEVERAL };
    Finding::new(&RULE, say!(word, key, of, named = named.join(", ")))
        .at(span, say!(HERE, placeholder = PLACEHOLDER.to_string()))
        .help(HELP)
}

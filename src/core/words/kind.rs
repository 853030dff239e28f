//! What the named things of a specification are called, one of them and several.

use super::number::{Decimal, number};
use super::{Phrase, Word, say};

/// The name of a kind of thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kind {
    /// The table of the file that declares it.
    pub table: &'static str,
    /// One of them.
    pub one: Word,
    /// Several of them.
    pub many: Word,
}

/// One kind a line: its table, one of it, several of it.
macro_rules! kinds {
    ($($table:literal = $one:literal, $many:literal;)*) => {
        /// Every kind, in order of its table's name.
        pub const KINDS: &[Kind] = &[$(Kind {
            table: $table,
            one: Word { key: concat!("kind.", $table), en: $one },
            many: Word { key: concat!("kinds.", $table), en: $many },
        }),*];
    };
}
kinds! {
    "approval" = "approval", "approvals";
    "attach" = "attachment", "attachments";
    "colour" = "colour", "colours";
    "colourway" = "colourway", "colourways";
    "comment" = "comment", "comments";
    "concession" = "concession", "concessions";
    "edge-finish" = "edge finish", "edge finishes";
    "fabric" = "fabric", "fabrics";
    "filling" = "filling", "fillings";
    "opening" = "opening", "openings";
    "order" = "order", "orders";
    "part" = "part", "parts";
    "party" = "party", "parties";
    "piece" = "piece", "pieces";
    "point-of-measure" = "point of measure", "points of measure";
    "revision" = "revision", "revisions";
    "role" = "role", "roles";
    "sample" = "sample", "samples";
    "seam" = "seam", "seams";
    "size" = "size", "sizes";
    "step" = "step", "steps";
    "stitch" = "stitch", "stitches";
    "stuffing" = "stuffing", "stuffings";
    "style" = "style", "styles";
    "thread" = "thread", "threads";
    "topstitch" = "topstitch", "topstitches";
    "trim" = "trim", "trims";
    "view" = "view", "views";
}

crate::words! {
    NAMED "kind.named" = "{kind} {id}";
}

/// What one thing of a table is called; the table's own name where it declares no kind.
pub fn word(table: &str) -> Phrase {
    of(table).map_or_else(|| Phrase::from(table), |kind| kind.one.into())
}

/// A thing by its kind and id: `seam belly`.
pub fn named(table: &str, id: &str) -> Phrase {
    say!(NAMED, kind = word(table), id)
}

/// The kind that a table of the file declares.
pub fn of(table: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.table == table)
}

impl Kind {
    /// The name with `a` or `an`.
    pub fn with_article(&self) -> String {
        let vowel = self.one.en.starts_with(['a', 'e', 'i', 'o', 'u']);
        format!("{} {}", if vowel { "an" } else { "a" }, self.one.en)
    }
}

/// A count with the form of the word that goes with it; both forms have `{count}`.
pub fn counted(count: impl Decimal + PartialEq<usize>, one: Word, many: Word) -> Phrase {
    let word = if count == 1 { one } else { many };
    say!(word, count = number(count, 0))
}

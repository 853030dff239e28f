//! Fixed wording by language, and the one way numbers and dates are written. A leaf: of ours it sees only `units`.
//!
//! Every fixed word that a sheet, a drawing, a workbook or a finding prints stands here once. A further language is one
//! more field of [`Word`]. Chinese is given where the trade's own term is sure, and `None` otherwise, so that a sheet
//! shows English alone rather than a dictionary's guess.

mod date;
pub mod foot;
pub mod head;
pub mod kind;
pub mod label;
pub mod number;
pub mod sheet;
mod word;

pub use date::Date;
pub(crate) use word::words;
pub use word::{Language, Phrase, Word};

/// Every list of words, for templates and tests.
pub const LISTS: &[&[Word]] = &[sheet::ALL, head::ALL, label::ALL, foot::ALL];

/// The word with this key.
pub fn find(key: &str) -> Option<&'static Word> {
    LISTS.iter().copied().flatten().find(|word| word.key == key)
}

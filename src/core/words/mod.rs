//! Fixed wording, and the one way numbers are written. A leaf: of ours it sees only `units`.
//!
//! Every fixed word that a sheet, a drawing or a finding prints is a [`Word`]: a key with its English, declared once, here
//! or beside the rule or rows that print it. Other languages are one file each (`zh-Hans.toml`), by key. Text stays a
//! [`Phrase`], a word with its arguments, until it is printed in the [`Languages`] of the package.

mod count;
pub mod foot;
pub mod head;
pub mod label;
mod language;
pub mod number;
mod phrase;
mod printed;
pub mod quantity;
pub mod sheet;

pub use count::counted;
pub use language::{LANGUAGES, Language, Languages};
pub use phrase::{English, Phrase, Word, english, names, say, words};
pub use printed::printed;

/// The words that templates print by their keys.
pub const LISTS: &[&[Word]] = &[sheet::ALL, head::ALL, label::ALL, foot::ALL];

/// The word of a template with this key.
pub fn find(key: &str) -> Option<&'static Word> {
    LISTS.iter().copied().flatten().find(|word| word.key == key)
}

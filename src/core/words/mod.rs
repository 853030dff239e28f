//! Fixed wording, and the one way numbers and dates are written. A leaf: of ours it sees only `units`.
//!
//! Every fixed word that a sheet, a drawing or a finding prints is a [`Word`]: a key with its English, declared once, here
//! or beside the rule or rows that print it. Other languages are one file each (`zh-Hans.toml`), by key. Text stays a
//! [`Phrase`], a word with its arguments, until it is printed in the [`Languages`] of the package.

mod date;
pub mod foot;
pub mod head;
pub mod kind;
pub mod label;
mod language;
pub mod number;
mod phrase;
mod printed;
pub mod sheet;

pub use date::Date;
pub use language::{LANGUAGES, Language, Languages};
pub use phrase::{Phrase, Word, names};
pub use printed::printed;

/// The words that templates print by their keys.
pub const LISTS: &[&[Word]] = &[sheet::ALL, head::ALL, label::ALL, foot::ALL];

/// The word of a template with this key.
pub fn find(key: &str) -> Option<&'static Word> {
    LISTS.iter().copied().flatten().find(|word| word.key == key)
}

/// Declares words as constants and collects them in `ALL`: `NAME "key" = "English with {argument}";`.
#[macro_export]
macro_rules! words {
    ($($name:ident $key:literal = $en:literal;)*) => {
        $(
            #[doc = concat!("“", $en, "”")]
            pub const $name: $crate::words::Word = $crate::words::Word { key: $key, en: $en };
        )*
        /// Every word of this list.
        pub const ALL: &[$crate::words::Word] = &[$($name),*];
    };
}
pub use words;

/// A word with its arguments by name: `say!(MISSING, piece = id, edges = Phrase::list(edges))`; a name alone stands for a
/// variable of that name.
#[macro_export]
macro_rules! say {
    ($word:expr $(, $name:ident $(= $value:expr)?)* $(,)?) => {
        $word.with(vec![$((stringify!($name), Into::<$crate::words::Phrase>::into($crate::say!(@value $name $(= $value)?)))),*])
    };
    (@value $name:ident = $value:expr) => { $value };
    (@value $name:ident) => { $name };
}
pub use say;

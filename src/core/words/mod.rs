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

pub use date::Date;

/// What language a package is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// English with Simplified Chinese beside it.
    EnglishChinese,
}

/// A fixed word or sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word {
    /// Name for templates: lower case, with hyphens.
    pub key: &'static str,
    /// English.
    pub en: &'static str,
    /// Simplified Chinese as toy factories say it, where sure.
    pub zh: Option<&'static str>,
}

/// A sentence with figures in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phrase {
    /// English.
    pub en: String,
    /// Simplified Chinese, where sure.
    pub zh: Option<String>,
}

impl Word {
    /// The second line under the English, if the language has one.
    pub fn second(&self, language: Language) -> Option<&'static str> {
        match language {
            Language::English => None,
            Language::EnglishChinese => self.zh,
        }
    }
}

impl Phrase {
    /// The second line under the English, if the language has one.
    pub fn second(&self, language: Language) -> Option<&str> {
        match language {
            Language::English => None,
            Language::EnglishChinese => self.zh.as_deref(),
        }
    }
}

/// Every list of words, for templates and tests.
pub const LISTS: &[&[Word]] = &[sheet::ALL, head::ALL, label::ALL, foot::ALL];

/// The word with this key.
pub fn find(key: &str) -> Option<&'static Word> {
    LISTS.iter().copied().flatten().find(|word| word.key == key)
}

/// Declares words as constants and collects them in `ALL`: `NAME "key" = "English", "Chinese";`.
macro_rules! words {
    ($($name:ident $key:literal = $en:literal $(, $zh:literal)?;)*) => {
        $(
            #[doc = concat!("“", $en, "”")]
            pub const $name: $crate::words::Word =
                $crate::words::Word { key: $key, en: $en, zh: $crate::words::chinese(&[$($zh)?]) };
        )*
        /// Every word of this list.
        pub const ALL: &[$crate::words::Word] = &[$($name),*];
    };
}
pub(crate) use words;

/// The optional second argument of [`words!`].
const fn chinese(given: &[&'static str]) -> Option<&'static str> {
    match given {
        [zh, ..] => Some(zh),
        [] => None,
    }
}

//! Fixed words and sentences, in the languages they are known in.

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

/// Declares words as constants and collects them in `ALL`: `NAME "key" = "English", "Chinese";`.
macro_rules! words {
    ($($name:ident $key:literal = $en:literal $(, $zh:literal)?;)*) => {
        $(
            #[doc = concat!("“", $en, "”")]
            pub const $name: $crate::words::word::Word =
                $crate::words::word::Word { key: $key, en: $en, zh: $crate::words::word::chinese(&[$($zh)?]) };
        )*
        /// Every word of this list.
        pub const ALL: &[$crate::words::word::Word] = &[$($name),*];
    };
}
pub(crate) use words;

/// The optional second argument of [`words!`].
pub const fn chinese(given: &[&'static str]) -> Option<&'static str> {
    match given {
        [zh, ..] => Some(zh),
        [] => None,
    }
}

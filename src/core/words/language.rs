//! The languages a package can be written in, and the file of fixed wording each of them has beside English.

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A language of a package. English is written with the words themselves; any other is one file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Simplified Chinese.
    SimplifiedChinese,
}

/// Every language, by its tag (BCP 47).
pub const LANGUAGES: &[Language] = &[Language::English, Language::SimplifiedChinese];

impl Language {
    /// The tag people write and readers of the PDF hear: `en`, `zh-Hans`.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::SimplifiedChinese => "zh-Hans",
        }
    }

    /// The code of the language alone, without its script: `en`, `zh`.
    pub fn code(self) -> &'static str {
        self.tag().split('-').next().unwrap_or_default()
    }

    /// The language with this tag.
    pub fn of(tag: &str) -> Option<Language> {
        LANGUAGES.iter().copied().find(|language| language.tag() == tag)
    }

    /// The text of a key in this language, if its file has it; English has none, since it stands with the word.
    pub fn text(self, key: &str) -> Option<&'static str> {
        self.texts().get(key).map(String::as_str)
    }

    /// Every text of its file, by key.
    pub fn texts(self) -> &'static BTreeMap<String, String> {
        static CHINESE: OnceLock<BTreeMap<String, String>> = OnceLock::new();
        static NONE: BTreeMap<String, String> = BTreeMap::new();
        match self {
            Language::English => &NONE,
            // A file that is no TOML would leave the package in English; a test reads it.
            Language::SimplifiedChinese => {
                CHINESE.get_or_init(|| toml::from_str(include_str!("zh-Hans.toml")).unwrap_or_default())
            }
        }
    }
}

/// The language or the two languages of a package, in the order in which they are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Languages {
    /// The first line.
    pub first: Language,
    /// The line below it, where it says something else.
    pub second: Option<Language>,
}

impl Languages {
    /// One language alone.
    pub fn only(first: Language) -> Self {
        Languages { first, second: None }
    }

    /// Their codes, in order, for the title block: `en, zh`.
    pub fn codes(self) -> String {
        let all: Vec<&str> = [Some(self.first), self.second].into_iter().flatten().map(Language::code).collect();
        all.join(", ")
    }

    /// Two of them.
    pub fn both(first: Language, second: Language) -> Self {
        Languages { first, second: Some(second).filter(|second| *second != first) }
    }
}

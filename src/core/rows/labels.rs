//! The fixed wording that the templates print, taken from `words` by its keys.

use std::collections::BTreeMap;

use crate::words::{LISTS, Languages, Phrase, names};
use serde::Serialize;

/// One piece of fixed wording.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// In the first language.
    pub text: String,
    /// Below it, in the second language; `None` in a package of one language, and where no term is sure.
    pub second: Option<String>,
}

/// Every fixed word by its key.
#[must_use]
pub fn labels(languages: Languages) -> BTreeMap<&'static str, Label> {
    let words = LISTS.iter().flat_map(|list| list.iter());
    // A word with arguments is printed from the rows, which have them.
    let plain = words.filter(|word| names(word.en).is_empty());
    let label = |word| {
        let phrase = Phrase::from(word);
        Label { text: phrase.in_language(languages.first), second: phrase.second(languages) }
    };
    plain.map(|word| (word.key, label(word))).collect()
}

//! The fixed wording that the templates print, taken from `words` by its keys.

use std::collections::BTreeMap;

use backtack_core::words::{LISTS, Language};
use serde::Serialize;

/// One piece of fixed wording.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// In the first language.
    pub text: &'static str,
    /// Below it, in the second language; `None` in a package of one language, and where no term is sure.
    pub second: Option<&'static str>,
}

/// Every fixed word by its key.
#[must_use]
pub fn labels(language: Language) -> BTreeMap<&'static str, Label> {
    let words = LISTS.iter().flat_map(|list| list.iter());
    words.map(|word| (word.key, Label { text: word.en, second: word.second(language) })).collect()
}

//! What every named thing has.

use std::collections::BTreeMap;

use crate::source::{Span, Spanned};

/// Things of one kind by the id their author chose.
pub type Table<T> = BTreeMap<String, T>;

/// What every named thing has.
#[derive(Debug, Clone)]
pub struct Entry {
    /// The id, at the key that declares it.
    pub id: Spanned<String>,
    /// Text for people; the id where there is none.
    pub name: Option<Spanned<String>>,
    /// The id this thing had in an earlier revision.
    pub was: Option<Spanned<String>>,
}

impl Entry {
    /// The name for people: the written name, or the id.
    pub fn title(&self) -> &str {
        self.name.as_ref().map_or(&self.id.value, |name| &name.value)
    }

    /// Where the thing is declared.
    pub fn span(&self) -> Span {
        self.id.span
    }
}

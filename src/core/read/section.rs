//! One table while it is read: its fields, its known keys, and its name in findings.

use crate::source::Span;
use crate::words::Phrase;

use super::keys::Key;
use super::tree::{Fields, Node};

/// One table being read: its fields, the keys it may have, and what it is called in findings.
#[derive(Debug, Clone, Copy)]
pub struct Section<'a> {
    /// What stands in it.
    pub fields: &'a Fields,
    /// What may stand in it.
    pub keys: &'a [Key],
    /// `piece SIDE`, `the style`.
    pub what: &'a Phrase,
    /// Where it is declared.
    pub span: Span,
}

impl<'a> Section<'a> {
    /// The value of a key, if it is written.
    pub fn node(&self, key: &str) -> Option<&'a Node> {
        self.fields.get(key).map(|(_, node)| node)
    }

    /// Where a key is written.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        self.fields.get(key).map(|(span, _)| *span)
    }

    /// The declared key with this name.
    pub fn key(&self, name: &str) -> Option<&'a Key> {
        self.keys.iter().find(|key| key.name == name)
    }
}

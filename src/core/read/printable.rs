//! Finds the texts with a character that no sheet can show, in every table and key.

use crate::glyphs;
use crate::source::{Sources, Span};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::texts::texts;
use super::tree::Node;
use crate::grammar::keys;

impl Reader {
    /// Reports each text of what is declared that has such characters.
    pub(super) fn printable(&mut self, declared: &Declarations) {
        for (kind, things) in declared {
            for thing in things {
                let Some(of) = keys::kind(kind).map(|kind| kind.title(&thing.id.value)) else { continue };
                for (key, text, node) in texts(&thing.fields) {
                    let missing = glyphs::missing(text);
                    let Some(first) = missing.first() else { continue };
                    let span = place(&self.sources, node, *first);
                    self.findings.push(rules::character_not_printable(&key, &of, &missing, span));
                }
            }
        }
    }
}

/// Where a character of a value is written; the whole value if it is written as an escape.
fn place(sources: &Sources, node: &Node, character: char) -> Span {
    let at = sources.text(node.span).find(character);
    at.map_or(node.span, |at| node.span.part(at, at + character.len_utf8()))
}

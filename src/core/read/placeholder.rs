//! Finds the texts that still hold what a starting file writes in place of what only its owner knows.

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::texts::texts;
use super::tree::Node;
use crate::source::{Sources, Span};

impl Reader {
    /// Reports all such texts of what is declared in one finding.
    pub(super) fn placeholders(&mut self, declared: &Declarations) {
        let things = declared.values().flatten();
        let found = things.flat_map(|thing| texts(&thing.fields)).filter(|(_, text, _)| rules::is_placeholder(text));
        let mut places: Vec<Span> = found.map(|(_, _, node)| place(&self.sources, node)).collect();
        places.sort_by_key(|span| (span.file, span.start));
        self.findings.extend(rules::placeholder_left(&places));
    }
}

/// Where the placeholder of a value is written; the whole value if it is written otherwise.
fn place(sources: &Sources, node: &Node) -> Span {
    let at = sources.text(node.span).find(rules::PLACEHOLDER);
    at.map_or(node.span, |at| node.span.part(at, at + rules::PLACEHOLDER.len()))
}

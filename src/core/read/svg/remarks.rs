//! What is said about a drawing, gathered by kind so that a thousand texts are one finding.

use roxmltree::Node;

use crate::diag::Finding;
use crate::read::rules;
use crate::source::{FileId, Span};
use crate::words::{Phrase, Word, say, words};

words! {
    UNREADABLE "read.svg.unreadable" = "`{attribute}` cannot be read: {error}";
    DRAW_SHAPE "read.svg.draw-shape" = "draw the shape as it is cut, with plain paths, groups and transformations";
    DRAW_VIEW "read.svg.draw-view" = "draw the view with plain shapes, fills, strokes, gradients and patterns, or as a PNG";
    MORE "read.svg.more" = "{rest} more such places are in the drawing";
}

/// Places shown of one kind.
const SHOWN: usize = 4;
/// Longest part of an element that is underlined, bytes.
const LONGEST: usize = 200;

/// One remark: what, and where.
pub type Remark = (Phrase, Span);

/// Everything said about one drawing.
#[derive(Debug)]
pub struct Remarks {
    file: FileId,
    view: bool,
    refused: Vec<(Word, Span)>,
    strange: Vec<Remark>,
    broken: Vec<Remark>,
}

impl Remarks {
    /// Nothing yet.
    pub fn new(file: FileId, view: bool) -> Self {
        Remarks { file, view, refused: Vec::new(), strange: Vec::new(), broken: Vec::new() }
    }

    /// What a drawing of outlines must not hold.
    pub fn refused(&mut self, node: Node<'_, '_>, what: Word) {
        let place = self.place(node);
        self.refused.push((what, place));
    }

    /// What is passed over though it may change how the drawing looks.
    pub fn strange(&mut self, node: Node<'_, '_>, what: Phrase) {
        let place = self.place(node);
        self.strange.push((what, place));
    }

    /// What cannot be read.
    pub fn broken(&mut self, node: Node<'_, '_>, what: Phrase) {
        let place = self.place(node);
        self.broken.push((what, place));
    }

    /// Whether something cannot be read.
    pub fn are_broken(&self) -> bool {
        !self.broken.is_empty()
    }

    /// The place of an element: its start tag, or as much of the tag as stands on its first line.
    pub fn place(&self, node: Node<'_, '_>) -> Span {
        let range = node.range();
        let text = node.document().input_text().get(range.clone()).unwrap_or_default();
        let attributes = node.attributes().next_back().map_or(0, |last| last.range().end - range.start);
        let close = text.get(attributes..).and_then(|rest| rest.find('>')).map_or(text.len(), |at| attributes + at + 1);
        let line = text.find('\n').unwrap_or(text.len());
        let end = text.floor_char_boundary(close.min(line).min(LONGEST));
        Span { file: self.file, start: range.start, end: range.start + end }
    }

    /// The remarks as findings.
    pub fn findings(self, path: &str) -> Vec<Finding> {
        let mut all = Vec::new();
        for (what, places) in by_kind(self.broken) {
            all.push(more(rules::broken_drawing(path, what), &places));
        }
        for (what, places) in by_kind(self.refused) {
            all.push(more(rules::refused_content(path, what), &places));
        }
        let cure = if self.view { DRAW_VIEW } else { DRAW_SHAPE };
        for (what, places) in by_kind(self.strange) {
            all.push(more(rules::content_ignored(path, what).help(cure), &places));
        }
        all
    }
}

/// Remarks of one kind together, in the order of their first places.
fn by_kind<T: Clone + Ord>(remarks: Vec<(T, Span)>) -> Vec<(T, Vec<Span>)> {
    let mut kinds: Vec<(T, Vec<Span>)> = Vec::new();
    let mut known: std::collections::BTreeMap<T, usize> = std::collections::BTreeMap::new();
    for (what, place) in remarks {
        let at = *known.entry(what.clone()).or_insert_with(|| {
            kinds.push((what, Vec::new()));
            kinds.len() - 1
        });
        if let Some((_, places)) = kinds.get_mut(at) {
            places.push(place);
        }
    }
    kinds
}

/// The first places of a finding, and how many more there are.
fn more(finding: Finding, places: &[Span]) -> Finding {
    let shown = places.iter().take(SHOWN).fold(finding, |finding, place| finding.at(*place, ""));
    match places.len().saturating_sub(SHOWN) {
        0 => shown,
        rest => shown.help(say!(MORE, rest)),
    }
}

//! What is said about a drawing, gathered by kind so that a thousand texts are one finding.

use roxmltree::Node;

use crate::diag::Finding;
use crate::read::rules;
use crate::source::{FileId, Span};

/// Places shown of one kind.
const SHOWN: usize = 4;
/// Longest part of an element that is underlined, bytes.
const LONGEST: usize = 200;

/// One remark: what, and where.
pub type Remark = (String, Span);

/// Everything said about one drawing.
#[derive(Debug)]
pub struct Remarks {
    file: FileId,
    view: bool,
    refused: Vec<Remark>,
    strange: Vec<Remark>,
    broken: Vec<Remark>,
}

impl Remarks {
    /// Nothing yet.
    pub fn new(file: FileId, view: bool) -> Self {
        Remarks { file, view, refused: Vec::new(), strange: Vec::new(), broken: Vec::new() }
    }

    /// What a drawing of outlines must not hold.
    pub fn refused(&mut self, node: Node<'_, '_>, what: &str) {
        let place = self.place(node);
        self.refused.push((what.to_string(), place));
    }

    /// What is passed over though it may change how the drawing looks.
    pub fn strange(&mut self, node: Node<'_, '_>, what: String) {
        let place = self.place(node);
        self.strange.push((what, place));
    }

    /// What cannot be read.
    pub fn broken(&mut self, node: Node<'_, '_>, what: String) {
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
        let mut each = |remarks: Vec<Remark>, finding: fn(&str, &str, &[Span]) -> Finding| {
            for (what, places) in by_kind(remarks) {
                all.push(finding(path, &what, &places));
            }
        };
        each(self.broken, |path, what, places| more(rules::broken_drawing(path, what), places));
        each(self.refused, |path, what, places| more(rules::refused_content(path, what), places));
        each(self.strange, if self.view { unseen } else { unread });
        all
    }
}

fn unread(path: &str, what: &str, places: &[Span]) -> Finding {
    let cure = "draw the shape as it is cut, with plain paths, groups and transformations";
    more(rules::content_ignored(path, what).help(cure), places)
}

fn unseen(path: &str, what: &str, places: &[Span]) -> Finding {
    let cure = "draw the view with plain shapes, fills, strokes, gradients and patterns, or as a PNG";
    more(rules::content_ignored(path, what).help(cure), places)
}

/// Remarks of one kind together, in the order of their first places.
fn by_kind(remarks: Vec<Remark>) -> Vec<(String, Vec<Span>)> {
    let mut kinds: Vec<(String, Vec<Span>)> = Vec::new();
    let mut known: std::collections::BTreeMap<String, usize> = std::collections::BTreeMap::new();
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
        rest => shown.help(format!("{rest} more such places are in the drawing")),
    }
}

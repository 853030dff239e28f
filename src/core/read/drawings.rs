//! Finds the drawings that outlines name, and reads each once.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::model::{Drawing, GAUGE, Model, ShapeSource, Sketch, Stated, Value};
use crate::source::{Span, Spanned};
use crate::words::{say, words};

use super::reader::Reader;
use super::{rules, svg};

words! {
    NAME_SHAPE "read.drawings.name-shape" = "the name `{name}` of a shape";
    HERE "read.drawings.here" = "named here";
    NAMES "read.drawings.names" = "points are circles named PIECE.a; other names are PIECE.grain, PIECE.pile, PIECE.line.id, PIECE.mark.id and PIECE.notch.id";
}

/// The drawings that outlines name: where first, and which outlines of theirs.
fn named(model: &Model) -> BTreeMap<String, (Span, BTreeSet<String>)> {
    let mut named: BTreeMap<String, (Span, BTreeSet<String>)> = BTreeMap::new();
    for piece in model.pieces.values() {
        for source in piece.outline.iter().flat_map(Value::all).filter_map(Stated::known) {
            if let ShapeSource::Svg(svg) = &source.shape {
                let entry = named.entry(svg.path.value.clone());
                entry.or_insert_with(|| (svg.path.span, BTreeSet::new())).1.insert(svg.name(piece).to_string());
            }
        }
    }
    named
}

impl Reader {
    /// The drawings that outlines name, each read once.
    pub fn drawings(&mut self, model: &mut Model) {
        for (path, (span, names)) in named(model) {
            if let Some(text) = self.drawn(&path, span) {
                let file = self.sources.add(self.disk.name(&path).unwrap_or_default(), text.clone());
                let (drawing, findings) = svg::drawing(&path, &text, file);
                findings.into_iter().for_each(|finding| self.findings.push(finding));
                if let Some(drawing) = drawing {
                    self.strange(&path, &drawing, &names);
                    model.drawings.insert(path, drawing);
                }
            }
        }
    }

    /// Says which shapes have names that belong to a piece and mean nothing.
    fn strange(&mut self, path: &str, drawing: &Drawing, names: &BTreeSet<String>) {
        let sketches: Vec<_> = names.iter().filter_map(|name| drawing.sketch(name).ok()).collect();
        // What one piece does not know can be another's.
        let gauge = drawing.named(GAUGE).ok();
        let mut meant: BTreeSet<Span> =
            sketches.iter().flat_map(Sketch::meant).chain(gauge).map(|shape| shape.span).collect();
        for (name, shape) in sketches.into_iter().flat_map(|sketch| sketch.strange) {
            if meant.insert(shape.span) {
                let what = say!(NAME_SHAPE, name);
                self.findings.push(rules::content_ignored(path, what).at(shape.span, "").help(NAMES));
            }
        }
    }

    /// The text of a drawing; what is in the way of it is said.
    fn drawn(&mut self, path: &str, span: Span) -> Option<String> {
        let bytes = self.fetched(path, span)?;
        match std::str::from_utf8(&bytes) {
            Ok(text) => Some(text.strip_prefix('\u{feff}').unwrap_or(text).to_string()),
            Err(error) => {
                self.findings.push(rules::not_text(path, error.valid_up_to()).at(span, HERE));
                None
            }
        }
    }

    /// The bytes of a file that is named at `span`; what is in the way of it is said.
    pub fn fetched(&mut self, path: &str, span: Span) -> Option<Arc<[u8]>> {
        match self.disk.fetch(path) {
            Ok(true) => {}
            Ok(false) => self.findings.push(rules::missing_file(path, span)),
            Err(()) => self.findings.push(rules::bad_path(path, span)),
        }
        for finding in std::mem::take(&mut self.disk.findings) {
            self.findings.push(finding.at(span, HERE));
        }
        self.disk.name(path).and_then(|name| self.disk.files.get(&name).cloned())
    }

    /// A view from an SVG file; what is in the way of it is said.
    pub fn drawn_view(&mut self, path: &Spanned<String>) -> Option<svg::View> {
        let text = self.drawn(&path.value, path.span)?;
        let file = self.sources.add(self.disk.name(&path.value).unwrap_or_default(), text.clone());
        let (view, findings) = svg::view(&path.value, &text, file);
        findings.into_iter().for_each(|finding| self.findings.push(finding));
        view
    }
}

use std::collections::BTreeMap;

use crate::model::{Model, ShapeSource};
use crate::source::Span;

use super::reader::Reader;
use super::{rules, svg};

impl Reader {
    /// The drawings that outlines name, each read once.
    pub fn drawings(&mut self, model: &mut Model) {
        let mut named: BTreeMap<String, Span> = BTreeMap::new();
        for outline in model.pieces.values().filter_map(|piece| piece.outline.as_ref()) {
            for source in outline.all().filter_map(|stated| stated.known()) {
                if let ShapeSource::Svg(svg) = &source.shape {
                    named.entry(svg.path.value.clone()).or_insert(svg.path.span);
                }
            }
        }
        for (path, span) in named {
            if let Some(text) = self.drawn(&path, span) {
                let file = self.sources.add(self.disk.name(&path).unwrap_or_default(), text.clone());
                let (drawing, findings) = svg::drawing(&path, &text, file);
                findings.into_iter().for_each(|finding| self.findings.push(finding));
                model.drawings.extend(drawing.map(|drawing| (path, drawing)));
            }
        }
    }

    /// The text of a drawing; what is in the way of it is said.
    fn drawn(&mut self, path: &str, span: Span) -> Option<String> {
        match self.disk.fetch(path) {
            Ok(true) => {}
            Ok(false) => self.findings.push(rules::missing_file(path, span)),
            Err(()) => self.findings.push(rules::bad_path(path, span)),
        }
        for finding in std::mem::take(&mut self.disk.findings) {
            self.findings.push(finding.at(span, "named here"));
        }
        let bytes = self.disk.name(path).and_then(|name| self.disk.files.get(&name).cloned())?;
        match std::str::from_utf8(&bytes) {
            Ok(text) => Some(text.strip_prefix('\u{feff}').unwrap_or(text).to_string()),
            Err(error) => {
                self.findings.push(rules::not_text(path, error.valid_up_to()).at(span, "named here"));
                None
            }
        }
    }
}

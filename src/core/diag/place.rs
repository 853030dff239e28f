//! Places as people count them: lines and columns.

use super::{Findings, Label};
use crate::source::{Columns, SourceFile, Sources, Span};

/// The findings of one folder, with what a printer needs to name places in it.
#[derive(Debug, Clone, Copy)]
pub struct Folder<'a> {
    /// The folder as the user named it; shown where a finding has no place.
    pub name: &'a str,
    /// What to put before the paths of the sources so that they open from where the user stands; may be empty.
    pub root: &'a str,
    /// What was found.
    pub findings: &'a Findings,
    /// The text it was found in.
    pub sources: &'a Sources,
}

/// A place as people count: lines and columns from 1, columns in characters, ends one past the last character.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place<'a> {
    pub(super) file: &'a SourceFile,
    pub(super) line: usize,
    pub(super) column: usize,
    pub(super) end_line: usize,
    pub(super) end_column: usize,
    /// Bytes of the whole text, moved onto character boundaries.
    pub(super) start: usize,
    pub(super) end: usize,
}

/// The line starts of every file of one folder, so that no finding reads a file from its top again.
pub(super) struct Lines<'a> {
    folder: Folder<'a>,
    starts: Vec<Vec<usize>>,
}

impl<'a> Lines<'a> {
    pub(super) fn new(folder: Folder<'a>) -> Self {
        let starts = folder.sources.iter().map(|(_, file)| starts(&file.text)).collect();
        Lines { folder, starts }
    }

    /// Where a span lies, or nothing if its file is unknown.
    pub(super) fn place(&self, span: Span) -> Option<Place<'a>> {
        let file = self.folder.sources.file(span.file)?;
        let starts = self.starts.get(span.file.0)?;
        let start = file.text.floor_char_boundary(span.start);
        let end = file.text.ceil_char_boundary(span.end.max(start));
        let (line, column) = position(&file.text, starts, start);
        let (end_line, end_column) = position(&file.text, starts, end);
        Some(Place { file, line, column, end_line, end_column, start, end })
    }

    /// The bytes of line `number` (from 1) without its line end.
    pub(super) fn line(&self, span: Span, number: usize) -> std::ops::Range<usize> {
        let text = self.folder.sources.file(span.file).map_or("", |file| file.text.as_str());
        let starts = self.starts.get(span.file.0).map_or(&[][..], Vec::as_slice);
        let start = starts.get(number - 1).copied().unwrap_or(text.len());
        let end = starts.get(number).map_or(text.len(), |next| next - 1);
        let ends_crlf = end < text.len() && end > start && text.as_bytes().get(end - 1) == Some(&b'\r');
        start..if ends_crlf { end - 1 } else { end }
    }

    /// The path of a file as the user can open it.
    pub(super) fn path(&self, file: &SourceFile) -> String {
        join(self.folder.root, &file.path)
    }

    /// The places of a finding that can be shown, each with its label.
    pub(super) fn places<'b>(&self, labels: &'b [Label]) -> Vec<(Place<'a>, &'b Label)> {
        labels.iter().filter_map(|label| Some((self.place(label.span)?, label))).collect()
    }
}

fn join(root: &str, path: &str) -> String {
    match root {
        "" | "." => path.to_owned(),
        _ => format!("{}/{path}", root.trim_end_matches('/')),
    }
}

fn starts(text: &str) -> Vec<usize> {
    std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect()
}

/// Line and column of a byte, both from 1.
fn position(text: &str, starts: &[usize], at: usize) -> (usize, usize) {
    let line = starts.partition_point(|start| *start <= at);
    let start = starts.get(line.saturating_sub(1)).copied().unwrap_or(0);
    (line, text.get(start..at).map_or(0, |before| Columns::Characters.count(before)) + 1)
}

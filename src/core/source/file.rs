//! Loaded text files, and lines and columns in them.

use super::span::{FileId, Span};

/// What a column counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Columns {
    /// Bytes of UTF-8.
    Bytes,
    /// Characters: Unicode code points.
    Characters,
    /// Code units of UTF-16, as many editors count.
    Utf16,
}

impl Columns {
    /// How many of them a text has.
    pub fn count(self, text: &str) -> usize {
        match self {
            Columns::Bytes => text.len(),
            Columns::Characters => text.chars().count(),
            Columns::Utf16 => text.encode_utf16().count(),
        }
    }
}

/// One loaded text file.
#[derive(Debug, Clone)]
pub struct SourceFile {
    /// Path below the root, with forward slashes on every system.
    pub path: String,
    /// The whole text.
    pub text: String,
}

/// The set of loaded files, in the order of their paths.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    files: Vec<SourceFile>,
}

impl Sources {
    /// Adds a file and returns its id.
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<String>) -> FileId {
        self.files.push(SourceFile { path: path.into(), text: text.into() });
        FileId(self.files.len() - 1)
    }

    /// All files with their ids.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        self.files.iter().enumerate().map(|(n, file)| (FileId(n), file))
    }

    /// The file a span lies in.
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(id.0)
    }

    /// The text a span covers, empty if it lies outside its file.
    pub fn text(&self, span: Span) -> &str {
        self.file(span.file).and_then(|file| file.text.get(span.start..span.end)).unwrap_or("")
    }

    /// Line and column of a span's first byte, both from 1; columns count characters.
    pub fn line_column(&self, span: Span) -> (usize, usize) {
        self.line_column_in(span, Columns::Characters)
    }

    /// The same with columns in another unit. Lines end with a line feed; a place within a character is that of its first
    /// byte.
    pub fn line_column_in(&self, span: Span, columns: Columns) -> (usize, usize) {
        let text = self.file(span.file).map_or("", |file| file.text.as_str());
        let before = &text[..text.floor_char_boundary(span.start)];
        let line = before.matches('\n').count() + 1;
        let start = before.rfind('\n').map_or(0, |at| at + 1);
        (line, columns.count(&before[start..]) + 1)
    }
}

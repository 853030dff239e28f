//! A place in a loaded file, and a value with its place.

/// A half-open byte range in one loaded file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file the range lies in.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// From the start of this span to the end of another one in the same file.
    pub fn to(self, end: Span) -> Span {
        Span { end: end.end, ..self }
    }

    /// The part of this span from `start` to `end`, counted from its first byte and kept inside it.
    pub fn part(self, start: usize, end: usize) -> Span {
        let last = self.end - self.start;
        Span { file: self.file, start: self.start + start.min(last), end: self.start + end.min(last) }
    }
}

/// A value and the place it was written at.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spanned<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Joins a value and its place.
    pub fn new(value: T, span: Span) -> Self {
        Spanned { value, span }
    }
}

/// Which loaded file a place lies in; an index into [`Sources`](super::Sources).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub usize);

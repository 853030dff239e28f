//! The text being read: looking at parts of it, and refusing one.

use std::ops::Range;

use super::Dimension;
use super::error::{Fault, QuantityErrorKind as Kind};

/// A refusal whose cure has not been tried yet.
pub(super) struct Problem {
    pub(super) kind: Kind,
    pub(super) span: Range<usize>,
    pub(super) fault: Fault,
    /// The whole text with this one mistake put right.
    pub(super) cure: Option<String>,
}

pub(super) type Parsed<T> = Result<T, Problem>;

/// One text and what it should measure; places are byte offsets.
pub(super) struct Parser<'a> {
    pub(super) text: &'a str,
    pub(super) expected: &'a [Dimension],
}

impl Parser<'_> {
    pub(super) fn bad_tolerance(&self, span: Range<usize>, fault: Fault) -> Problem {
        self.problem(Kind::BadTolerance, span, fault)
    }

    pub(super) fn problem(&self, kind: Kind, span: Range<usize>, fault: Fault) -> Problem {
        Problem { kind, span, fault, cure: None }
    }

    pub(super) fn starts(&self, at: usize, prefix: &str) -> bool {
        self.text.get(at..).is_some_and(|rest| rest.starts_with(prefix))
    }

    pub(super) fn past_spaces(&self, at: usize) -> usize {
        let rest = self.text.get(at..).unwrap_or_default();
        self.text.len() - rest.trim_ascii_start().len()
    }

    pub(super) fn slice(&self, span: &Range<usize>) -> &str {
        self.text.get(span.clone()).unwrap_or_default()
    }

    pub(super) fn trimmed(&self, span: Range<usize>) -> Range<usize> {
        let inner = self.slice(&span);
        let start = span.start + (inner.len() - inner.trim_ascii_start().len());
        start..(start + inner.trim_ascii().len())
    }

    pub(super) fn replaced(&self, span: &Range<usize>, with: &str) -> String {
        let (before, after) = (self.slice(&(0..span.start)), self.slice(&(span.end..self.text.len())));
        format!("{before}{with}{after}")
    }

    /// Part of the text for a sentence: control characters escaped, long text cut.
    pub(super) fn shown(&self, span: &Range<usize>) -> String {
        let part = self.slice(span);
        let head: String = part.chars().take(24).collect();
        let dots = if head.len() < part.len() { "..." } else { "" };
        format!("{}{dots}", head.escape_debug().to_string().replace("\\\"", "\"").replace("\\'", "'"))
    }
}

//! Help with a finding, and the edit that it is where it is one.

use super::{Sources, Span};
use crate::words::Phrase;

/// What to write instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Help {
    /// In words, ready to copy.
    pub text: Phrase,
    /// The same as a change of the text, where it is one.
    pub edit: Option<Edit>,
}

/// A change of one place of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced; empty for an insertion.
    pub span: Span,
    /// What stands there afterwards.
    pub text: String,
    /// Whether what is meant is certain, so that nobody need be asked.
    pub safe: bool,
    at: At,
}

/// Which part of its place an edit is about. The text is only at hand once a specification is read.
#[derive(Debug, Clone, PartialEq, Eq)]
enum At {
    /// All of it.
    Whole,
    /// The one occurrence of this word.
    Word(String),
    /// The line it is on, which holds nothing else.
    Line,
    /// A new line below the head of the table it is the id of.
    Below,
}

impl<T: Into<Phrase>> From<T> for Help {
    fn from(text: T) -> Self {
        Help { text: text.into(), edit: None }
    }
}

impl Help {
    /// Words and the edit they stand for.
    pub fn with(text: impl Into<Phrase>, edit: impl Into<Option<Edit>>) -> Self {
        Help { text: text.into(), edit: edit.into() }
    }
}

impl Edit {
    /// Replaces the whole of a place, once somebody agrees.
    pub fn replace(span: Span, text: impl Into<String>) -> Edit {
        Edit { span, text: text.into(), safe: false, at: At::Whole }
    }

    /// Replaces a misspelt word by a known one. It is certain which is meant if no other known word is near.
    pub fn respell<'a>(span: Span, word: &str, near: &str, known: impl IntoIterator<Item = &'a str>) -> Edit {
        let safe = certain(word, near, known);
        Edit { span, text: near.to_string(), safe, at: At::Word(word.to_string()) }
    }

    /// Takes out the line of a place, once somebody agrees.
    pub fn take_out(span: Span) -> Edit {
        Edit { span, text: String::new(), safe: false, at: At::Line }
    }

    /// Inserts a line into the table whose id stands at a place, once somebody agrees.
    pub fn line(id: Span, text: impl Into<String>) -> Edit {
        Edit { span: id, text: text.into(), safe: false, at: At::Below }
    }

    /// The same, certain.
    #[must_use]
    pub fn safe(self) -> Edit {
        self.safe_if(true)
    }

    /// The same, certain if so.
    #[must_use]
    pub fn safe_if(mut self, safe: bool) -> Edit {
        self.safe = safe;
        self
    }

    /// The same with the exact bytes it replaces; none where the text is written otherwise than the edit expects.
    pub fn placed(&self, sources: &Sources) -> Option<Edit> {
        let file = sources.file(self.span.file)?;
        let written = file.text.get(self.span.start..self.span.end)?;
        let at = |start: usize, end: usize, text: String| {
            Some(Edit { span: Span { start, end, ..self.span }, text, safe: self.safe, at: At::Whole })
        };
        match &self.at {
            At::Whole => Some(self.clone()),
            At::Word(word) => {
                let [(found, _)] = written.match_indices(word.as_str()).collect::<Vec<_>>()[..] else { return None };
                let start = self.span.start + found;
                at(start, start + word.len(), self.text.clone())
            }
            At::Line => {
                let (start, end) = line(&file.text, self.span);
                let (key, value) = file.text[start..end].split_once('=')?;
                let alone = key.trim().chars().all(is_bare) && value.trim() == written.trim();
                let next = file.text.get(end..).and_then(|rest| rest.find('\n')).map_or(end, |more| end + more + 1);
                if alone { at(start, next, String::new()) } else { None }
            }
            At::Below => {
                let (start, end) = line(&file.text, self.span);
                let head = file.text[start..end].split('#').next().unwrap_or_default().trim();
                let table = head.starts_with('[') && head.ends_with(']') && !head.starts_with("[[");
                let turn = if file.text[start..].contains("\r\n") { "\r\n" } else { "\n" };
                if table { at(end, end, format!("{turn}{}", self.text.replace('\n', turn))) } else { None }
            }
        }
    }
}

/// A text as a value between quotes: escapes of JSON are those of TOML but for U+007F, which JSON leaves as it is.
pub fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string().replace('\u{7f}', "\\u007f")
}

/// Whether a misspelt word can only be meant for `near`: they differ by one letter added, left out, changed or moved, and no
/// other known word is about as near. Short words and numbers are never certain.
pub fn certain<'a>(word: &str, near: &str, known: impl IntoIterator<Item = &'a str>) -> bool {
    let far = |a: &str, b: &str| strsim::damerau_levenshtein(&a.to_lowercase(), &b.to_lowercase());
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let long = word.chars().count().min(near.chars().count()) >= 4;
    long && far(word, near) <= 1
        && digits(word) == digits(near)
        && known.into_iter().all(|other| other == near || far(word, other) > 2)
}

/// Whether a key can be written without quotes with this letter in it.
fn is_bare(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.' | ' ')
}

/// First byte of the line of a place, and one past its last without the line end.
fn line(text: &str, span: Span) -> (usize, usize) {
    let start = text[..span.start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[span.end..].find('\n').map_or(text.len(), |at| span.end + at);
    (start, if text[start..end].ends_with('\r') { end - 1 } else { end })
}

//! Parsed values with their places, free of the text they came from.

use std::collections::{BTreeMap, BTreeSet};

use crate::source::{FileId, Span};
use crate::words::{Word, words};

/// One parsed value with its place, owned, so that nothing borrows the text.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stands, quotes included.
    pub span: Span,
    /// What it is.
    pub kind: Kind,
}

impl Node {
    /// The text as it is written, if it is one.
    pub fn text(&self) -> Option<&str> {
        match &self.kind {
            Kind::Text(text) => Some(text),
            _ => None,
        }
    }

    /// What a list holds; anything else is a list of one.
    pub fn one_or_more(&self) -> &[Node] {
        match &self.kind {
            Kind::List(list) => list,
            _ => std::slice::from_ref(self),
        }
    }
}

/// The kinds of value a file can hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A string after escapes.
    Text(String),
    /// A whole number as written.
    Integer(String),
    /// A decimal number as written.
    Float(String),
    /// `true` or `false`.
    Flag(bool),
    /// A date or time, as written.
    Date(String),
    /// A list.
    List(Vec<Node>),
    /// A table.
    Table(Fields),
}

words! {
    A_TEXT "read.tree.text" = "a text";
    A_BARE_NUMBER "read.tree.bare-number" = "a bare number";
    A_FLAG "read.tree.flag" = "true or false";
    A_DATE "read.tree.date" = "a date";
    A_LIST "read.tree.list" = "a list";
    A_TABLE "read.tree.table" = "a table";
}

impl Kind {
    /// The word for people.
    pub fn word(&self) -> Word {
        match self {
            Kind::Text(_) => A_TEXT,
            Kind::Integer(_) | Kind::Float(_) => A_BARE_NUMBER,
            Kind::Flag(_) => A_FLAG,
            Kind::Date(_) => A_DATE,
            Kind::List(_) => A_LIST,
            Kind::Table(_) => A_TABLE,
        }
    }
}

/// Keys of a table in the order of their names, each with its place.
pub type Fields = BTreeMap<String, (Span, Node)>;

/// Turns a parsed table into fields.
pub fn fields(table: &toml::de::DeTable<'_>, file: FileId) -> Fields {
    table
        .iter()
        .map(|(key, value)| {
            let place = span(file, key.span());
            (key.get_ref().to_string(), (place, node(value, file)))
        })
        .collect()
}

fn span(file: FileId, range: std::ops::Range<usize>) -> Span {
    Span { file, start: range.start, end: range.end }
}

fn node(value: &toml::Spanned<toml::de::DeValue<'_>>, file: FileId) -> Node {
    use toml::de::DeValue;
    let kind = match value.get_ref() {
        DeValue::String(text) => Kind::Text(text.to_string()),
        DeValue::Integer(number) => Kind::Integer(number.to_string()),
        DeValue::Float(number) => Kind::Float(number.to_string()),
        DeValue::Boolean(flag) => Kind::Flag(*flag),
        DeValue::Datetime(date) => Kind::Date(date.to_string()),
        DeValue::Array(list) => Kind::List(list.iter().map(|one| node(one, file)).collect()),
        DeValue::Table(table) => Kind::Table(fields(table, file)),
    };
    Node { span: span(file, value.span()), kind }
}

/// The parsed files, and those with a syntax error, whose keys may have landed in the wrong table.
#[derive(Default)]
pub struct Trees {
    /// Top-level fields by file.
    pub files: Vec<(FileId, Fields)>,
    /// Files in which unknown keys are not reported.
    pub broken: BTreeSet<FileId>,
}

use std::collections::BTreeSet;

use super::reader::Reader;
use super::rules;
use super::tree::{Fields, fields};
use crate::source::{FileId, Span};

/// The parsed files, and those with a syntax error, whose keys may have landed in the wrong table.
pub struct Trees {
    /// Top-level fields by file.
    pub files: Vec<(FileId, Fields)>,
    /// Files in which unknown keys are not reported.
    pub broken: BTreeSet<FileId>,
}

/// Parses every text file, taking in as much of a broken one as can be read.
pub fn parse(reader: &mut Reader) -> Trees {
    parse_from(reader, 0)
}

/// Parses the text files from the `first` one on.
pub fn parse_from(reader: &mut Reader, first: usize) -> Trees {
    let mut trees = Trees { files: Vec::new(), broken: BTreeSet::new() };
    let texts: Vec<(FileId, String)> =
        reader.sources.iter().skip(first).map(|(id, file)| (id, file.text.clone())).collect();
    for (id, text) in texts {
        let (table, errors) = toml::de::DeTable::parse_recoverable(&text);
        for error in &errors {
            let range = error.span().unwrap_or(0..0);
            let span = Span { file: id, start: range.start, end: range.end };
            reader.findings.push(rules::syntax(error.message(), span));
            trees.broken.insert(id);
        }
        trees.files.push((id, fields(table.get_ref(), id)));
    }
    trees
}

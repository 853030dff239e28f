//! Folder -> (Model, findings). The only file input, and it never stops at the first problem.

mod articles;
mod bare;
mod chains;
mod cutting;
#[expect(clippy::disallowed_methods, reason = "the only file input")]
mod disk;
mod drawings;
mod edges;
mod edition;
mod facts;
pub mod keys;
mod ledgers;
mod lock;
mod measures;
mod orders;
mod outlines;
mod parse;
mod pictures;
mod pieces;
mod reader;
pub mod rules;
mod samples;
pub mod schema;
mod seams;
mod section;
mod style;
mod svg;
mod tree;
mod values;
mod views;
mod work;

pub use disk::{Limits, ROOT, Unreadable, bytes as file_bytes, is_folder, is_there, revisions, text as text_file};
pub use edition::{factory_edition, order_edition, shown, withholds};
pub use facts::statements;
pub use values::{is_order, is_private, is_sample};

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use crate::diag::{Findings, Levels};
use crate::model::Model;
use crate::source::{FileId, Sources, Span};

/// Tables of what was said and measured of samples.
pub(crate) const SAMPLING: &[&str] = &["sample", "comment", "approval", "concession"];

/// Everything one reading of a folder gives.
#[derive(Debug, Default)]
pub struct Loaded {
    /// The specification.
    pub model: Model,
    /// The text files it was read from.
    pub sources: Sources,
    /// What was found while reading.
    pub findings: Findings,
    /// Every file that was read, by its path below the root: what a seal and the attachment hold.
    pub closure: Vec<(String, Arc<[u8]>)>,
    /// Path of the style folder below the root; empty if it is the root.
    pub style: String,
    /// Places of values in files of the factory's edition that only the own edition shows.
    pub own: Vec<Span>,
    /// Files with a syntax error, which are read only in part.
    pub broken: BTreeSet<FileId>,
    /// Files that hold an order, which is no part of the specification.
    pub ordering: BTreeSet<FileId>,
    /// Files that hold what was said and measured of samples, which is no part of it either.
    pub sampling: BTreeSet<FileId>,
    /// Severities the specification sets.
    pub levels: Levels,
    /// Where each severity is written, to say which code no rule has.
    pub level_places: BTreeMap<String, Span>,
}

impl Loaded {
    /// The path below the root of a file of the style folder.
    pub(crate) fn path(&self, file: &str) -> String {
        if self.style.is_empty() { file.to_string() } else { format!("{}/{file}", self.style) }
    }

    /// The same specification with other lays kept beside it.
    #[must_use]
    pub fn with_lock(mut self, lock: crate::lay::Lock) -> Self {
        let name = self.path(crate::lay::lock::FILE);
        self.closure.retain(|(path, _)| *path != name);
        self.closure.push((name, lock.text().into_bytes().into()));
        self.closure.sort_by(|(a, _), (b, _)| a.cmp(b));
        self.model.lock = lock;
        self
    }
}

/// Reads the style in `folder`.
///
/// # Errors
/// Only if the folder itself cannot be read at all; everything else is a finding.
pub fn folder(folder: &Path) -> Result<Loaded, Unreadable> {
    let disk = disk::load(folder, &Limits::default())?;
    Ok(lower(disk))
}

/// Reads a style from texts in memory, by path: for tests and for what was sealed.
pub fn texts(files: &[(&str, &str)]) -> Loaded {
    lower(disk::memory(files.iter().map(|(path, text)| (*path, text.as_bytes()))))
}

/// Reads a style from files in memory, pictures among them, by path.
pub fn files(files: &[(&str, &[u8])]) -> Loaded {
    closure("", files.iter().copied())
}

/// Reads a style from everything it was once read from: its closure, and the path of its folder below the root.
pub fn closure<'a>(style: &str, files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Loaded {
    let mut disk = disk::memory(files);
    disk.style = style.to_string();
    lower(disk)
}

fn lower(disk: disk::Disk) -> Loaded {
    let mut reader = reader::Reader::new(disk);
    let trees = parse::parse(&mut reader);
    let model = reader.model(trees);
    reader.finish(model)
}

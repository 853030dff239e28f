//! Everything that one reading of a folder gives.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;

use crate::diag::{Findings, Levels};
use crate::model::Model;
use crate::source::{FileId, Sources, Span, Tally};

use super::declared::Declarations;

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
    /// Everything the files declare, for the facts a comparison is made of.
    pub(crate) declared: Declarations,
    /// What is done with it is counted here.
    pub tally: Tally,
    /// Why the kept lays cannot be read, or not all of them; nothing may be written over them then.
    pub broken_lock: Option<String>,
    /// The root folder on the disk; none where everything was read from memory.
    pub root: Option<PathBuf>,
}

impl Loaded {
    /// The path below the root of a file of the style folder.
    pub(crate) fn path(&self, file: &str) -> String {
        if self.style.is_empty() { file.to_string() } else { format!("{}/{file}", self.style) }
    }

    /// The files on the disk that were read, but for the kept lays, which this program writes itself.
    pub fn source_files(&self) -> impl Iterator<Item = PathBuf> {
        let kept = self.path(crate::lay::lock::FILE);
        let read = self.closure.iter().filter(move |(path, _)| *path != kept);
        read.filter_map(|(path, _)| Some(self.root.as_ref()?.join(path)))
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

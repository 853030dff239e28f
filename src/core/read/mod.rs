//! Folder -> (Model, findings). The only file input, and it never stops at the first problem.

mod articles;
pub(crate) mod chains;
pub(crate) mod declared;
#[expect(clippy::disallowed_methods, reason = "the only file input")]
mod disk;
mod drawings;
mod edges;
mod folders;
mod libraries;
mod loaded;
mod markets;
mod measures;
mod outlines;
mod parse;
mod pictures;
pub(crate) mod pieces;
mod placeholder;
mod printable;
pub(crate) mod reader;
pub mod rules;
mod seams;
pub(crate) mod section;
mod style;
mod svg;
mod texts;
pub(crate) mod tree;
pub(crate) mod values;
mod views;
mod work;

pub(crate) use declared::Declarations;
pub use disk::{Limits, ROOT, Unreadable, bytes as file_bytes, is_folder, is_there, revisions, text as text_file};
pub use folders::{is_order, is_private, is_sample};
pub use loaded::Loaded;
pub(crate) use reader::Reader;
pub(crate) use section::Section;

use std::collections::BTreeMap;
use std::path::Path;

use crate::source::{Tally, Work};

/// Texts that are not saved yet, by their paths below the root: they go before the files of the disk.
pub type Unsaved = BTreeMap<String, String>;

/// Reads the style in `folder` with unsaved texts over it.
///
/// # Errors
/// Only if the folder itself cannot be read at all; everything else is a finding.
pub fn folder(folder: &Path, unsaved: &Unsaved, tally: &Tally) -> Result<Loaded, Unreadable> {
    let disk = disk::load(folder, unsaved, &Limits::default())?;
    Ok(lower(disk, tally))
}

/// Reads a style from texts in memory, by path.
pub fn texts(files: &[(&str, &str)]) -> Loaded {
    closure("", files.iter().map(|(path, text)| (*path, text.as_bytes())), &Tally::default())
}

/// Reads a style from files in memory, pictures among them, by path.
pub fn files(files: &[(&str, &[u8])]) -> Loaded {
    closure("", files.iter().copied(), &Tally::default())
}

/// Reads a style from everything it was once read from: its closure, and the path of its folder below the root.
pub fn closure<'a>(style: &str, files: impl IntoIterator<Item = (&'a str, &'a [u8])>, tally: &Tally) -> Loaded {
    let mut disk = disk::memory(files);
    disk.style = style.to_string();
    lower(disk, tally)
}

fn lower(disk: disk::Disk, tally: &Tally) -> Loaded {
    tally.add(Work::Read);
    let mut reader = reader::Reader::new(disk, tally);
    let declared = reader.declarations();
    let model = reader.model(&declared);
    reader.finish(model, declared)
}

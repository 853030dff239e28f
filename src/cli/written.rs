//! The list of drawings that builds wrote into a folder, with their digests: what a later build may take away.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use backtack_core::read::{file_bytes, is_there};
use backtack_core::revision::{Digest, sha256};

use super::Failure;
use super::name;
use super::output::{Item, Output};
use super::source::failed;

/// Name of the list, beside the drawings.
pub const FILE: &str = ".written";
/// Most bytes of a list or a drawing that is read again.
const LARGEST: u64 = 64 << 20;
/// The first line of the list.
const HEAD: &str =
    "# Written by `backtack build`. What is gone from the style is removed here, unless it was changed.\n";

/// Files by name, each with the digest of its bytes as they were written.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Written(BTreeMap<String, Digest>);

impl Written {
    /// The list of these files.
    pub fn of<'a>(files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Self {
        Written(files.into_iter().map(|(name, bytes)| (name.to_string(), sha256(bytes))).collect())
    }

    /// The list that is kept in a folder; an empty one where there is none. A line that is none of ours stands for no
    /// file: what it was about stays.
    ///
    /// # Errors
    /// If it is there and cannot be read.
    pub fn read(folder: &Path) -> Result<Self, Failure> {
        let path = folder.join(FILE);
        if !is_there(&path) {
            return Ok(Written::default());
        }
        let bytes = file_bytes(&path, LARGEST).map_err(|why| failed(&path, &why))?;
        Ok(Written(String::from_utf8_lossy(&bytes).lines().filter_map(line).collect()))
    }

    /// The text of the list.
    pub fn text(&self) -> String {
        let lines = self.0.iter().map(|(name, digest)| format!("{}  {name}\n", digest.hex()));
        std::iter::once(HEAD.to_string()).chain(lines).collect()
    }

    /// Whether it names no file.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The names.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }

    /// Those files that `now` does not have and that are still in the folder as they were written.
    #[must_use]
    pub fn gone(&self, now: &Written, folder: &Path) -> Self {
        let same = |name: &str, digest: &Digest| {
            file_bytes(&folder.join(name), LARGEST).is_ok_and(|bytes| sha256(&bytes) == *digest)
        };
        let gone = self.0.iter().filter(|(name, digest)| !now.0.contains_key(*name) && same(name, digest));
        Written(gone.map(|(name, digest)| (name.clone(), *digest)).collect())
    }

    /// Both lists in one.
    #[must_use]
    pub fn with(&self, other: &Written) -> Self {
        Written(self.0.iter().chain(&other.0).map(|(name, digest)| (name.clone(), *digest)).collect())
    }
}

/// A folder of drawings brought up to date: new ones written, those of things that are gone removed.
#[derive(Debug)]
pub struct Update {
    folder: PathBuf,
    now: Written,
    gone: Written,
    /// The drawings and the list of them.
    pub items: Vec<Item>,
}

impl Update {
    /// What a folder needs to hold these drawings and no others of ours.
    ///
    /// # Errors
    /// If its list cannot be read, or a name leads out of it.
    pub fn of(folder: &Path, drawings: &[(String, String)]) -> Result<Self, Failure> {
        let named = |(name, svg): &(String, String)| Item::named(folder, name, svg.as_str());
        let mut items: Vec<Item> = drawings.iter().map(named).collect::<Result<_, _>>()?;
        let before = Written::read(folder)?;
        let now = Written::of(drawings.iter().map(|(name, svg)| (name.as_str(), svg.as_bytes())));
        let gone = before.gone(&now, folder);
        if !(before.is_empty() && now.is_empty()) {
            items.push(list(folder, &now.with(&gone)));
        }
        Ok(Update { folder: folder.to_path_buf(), now, gone, items })
    }

    /// Removes what is gone. Only once the new files are in place: a drawing of what is gone must not lie among those that hold.
    ///
    /// # Errors
    /// If the system refuses a step.
    pub fn finish(&self, output: &Output) -> Result<(), Failure> {
        if self.gone.is_empty() {
            return Ok(());
        }
        output.remove(&self.folder, self.gone.names())?;
        output.write(&[list(&self.folder, &self.now)])
    }
}

/// The list of a folder as a file.
fn list(folder: &Path, files: &Written) -> Item {
    Item { path: folder.join(FILE), bytes: files.text().into_bytes() }
}

/// A digest and the plain name of a file; a list from a stranger may hold anything.
fn line(text: &str) -> Option<(String, Digest)> {
    let (digest, name) = text.split_once("  ")?;
    Some((name::checked(name).ok()?.to_string(), Digest::parse(digest)?))
}

//! The only file output. A file is whole or not there: bytes go to a temporary file in the same folder, onto the disk,
//! and then take the name of the old file in one step.

use std::cell::Cell;
use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::{Failure, name};

/// A file to write: where, and what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// The file.
    pub path: PathBuf,
    /// All its bytes.
    pub bytes: Vec<u8>,
}

impl Item {
    /// A file of a folder whose name is made from a specification.
    ///
    /// # Errors
    /// If the name is not one plain component: nothing a specification says leads out of the folder.
    pub fn named(folder: &Path, name: &str, bytes: impl Into<Vec<u8>>) -> Result<Self, Failure> {
        Ok(Item { path: folder.join(name::checked(name)?), bytes: bytes.into() })
    }
}

/// Writes files. Counts what it asks of the system, so that a test can make any of these steps fail.
#[derive(Debug, Default)]
pub struct Output {
    steps: Cell<usize>,
    fails: Option<usize>,
    sources: BTreeSet<PathBuf>,
}

impl Output {
    /// Writes for good.
    #[must_use]
    pub fn new() -> Self {
        Output::default()
    }

    /// Fails at step `number` (from 1) as a full disk would.
    #[must_use]
    pub fn failing(number: usize) -> Self {
        Output { fails: Some(number), ..Output::default() }
    }

    /// Never writes over these files, which a specification was read from, nor removes them.
    #[must_use]
    pub fn sparing(mut self, sources: impl IntoIterator<Item = PathBuf>) -> Self {
        self.sources.extend(sources.into_iter().filter_map(|path| path.canonicalize().ok()));
        self
    }

    /// A source that lies in a folder, if any does.
    pub fn source_in(&self, folder: &Path) -> Option<&Path> {
        let folder = folder.canonicalize().ok()?;
        self.sources.iter().find(|source| source.parent() == Some(&folder)).map(PathBuf::as_path)
    }

    /// How many steps were asked of the system so far.
    #[must_use]
    pub fn steps(&self) -> usize {
        self.steps.get()
    }

    /// Whether something is where a new folder is to be made: a file, or a folder that is not empty.
    ///
    /// # Errors
    /// If the folder cannot be looked into.
    pub fn occupied(&self, folder: &Path) -> Result<bool, Failure> {
        match fs::read_dir(folder) {
            Ok(mut entries) => Ok(entries.next().is_some()),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
            Err(error) => Err(Failure::of("use", folder, &error)),
        }
    }

    /// Whether something has this name: a file, a folder, or a link that leads nowhere.
    #[must_use]
    pub fn taken(&self, path: &Path) -> bool {
        fs::symlink_metadata(path).is_ok()
    }

    /// Writes all files or, if anything fails before the last is on the disk, none: what was there before stays.
    /// Folders that are missing are made.
    ///
    /// # Errors
    /// If the system refuses a step; the message names the file.
    pub fn write(&self, items: &[Item]) -> Result<(), Failure> {
        let mut staged = Staged::default();
        items.iter().try_for_each(|item| self.spared(&item.path))?;
        for item in items {
            let temporary = self.stage(item).map_err(|error| Failure::of("write", &item.path, &error))?;
            staged.files.push((temporary, item.path.clone()));
        }
        while let Some((temporary, path)) = staged.files.first() {
            self.step()
                .and_then(|()| fs::rename(temporary, path))
                .map_err(|error| Failure::of("write", path, &error))?;
            staged.files.remove(0);
        }
        for folder in items.iter().filter_map(|item| item.path.parent()) {
            settle(folder);
        }
        Ok(())
    }

    /// Writes files that must not be there yet, in this order, after files that take the place of old ones. If anything
    /// fails, the new ones are gone again. A file that is there already with the same bytes, left by a run that broke
    /// off, will do for all but the last.
    ///
    /// # Errors
    /// If the system refuses a step, or something of a name is there already; the message names the file.
    pub fn create(&self, new: &[Item], replaced: &[Item]) -> Result<(), Failure> {
        let mut staged = Staged::default();
        for item in new {
            let temporary = self.stage(item).map_err(|error| Failure::of("write", &item.path, &error))?;
            staged.files.push((temporary, item.path.clone()));
        }
        self.write(replaced)?;
        let mut made: Vec<&Path> = Vec::new();
        for (at, ((temporary, path), item)) in staged.files.iter().zip(new).enumerate() {
            let there = at + 1 < new.len() && fs::read(path).is_ok_and(|bytes| bytes == item.bytes);
            let named = if there { Ok(()) } else { self.step().and_then(|()| named(temporary, item)) };
            if let Err(error) = named {
                // If the last file is there by now, whoever wrote it counts on the others.
                if error.kind() != ErrorKind::AlreadyExists || at + 1 < new.len() {
                    self.withdraw(&made);
                }
                return Err(Failure::of("write", path, &error));
            }
            if !there {
                made.push(path);
            }
        }
        new.iter().filter_map(|item| item.path.parent()).for_each(settle);
        Ok(())
    }

    /// Removes files that were just made.
    pub fn withdraw(&self, files: &[&Path]) {
        for file in files {
            let _ = fs::remove_file(file);
        }
    }

    /// Removes files of a folder by their names, sources apart.
    ///
    /// # Errors
    /// If a name is not one plain component, or the system refuses.
    pub fn remove<'a>(&self, folder: &Path, names: impl IntoIterator<Item = &'a str>) -> Result<(), Failure> {
        for name in names {
            let path = folder.join(name::checked(name)?);
            if !self.is_source(&path) {
                self.step()
                    .and_then(|()| fs::remove_file(&path))
                    .map_err(|error| Failure::of("remove", &path, &error))?;
            }
        }
        Ok(())
    }

    /// Refuses to write over a source.
    fn spared(&self, path: &Path) -> Result<(), Failure> {
        if self.is_source(path) {
            return Err(Failure::new(format!("cannot write {}: the style is read from this file", path.display())));
        }
        Ok(())
    }

    fn is_source(&self, path: &Path) -> bool {
        path.canonicalize().is_ok_and(|path| self.sources.contains(&path))
    }

    /// Puts an item's bytes on the disk beside where they belong.
    fn stage(&self, item: &Item) -> io::Result<PathBuf> {
        let folder = item.path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        self.step()?;
        fs::create_dir_all(folder)?;
        if item.path.is_dir() {
            return Err(ErrorKind::AlreadyExists.into());
        }
        self.step()?;
        let (path, mut file) = temporary(folder, &item.path)?;
        let written = self
            .step()
            .and_then(|()| file.write_all(&item.bytes))
            .and_then(|()| self.step())
            .and_then(|()| file.sync_all());
        match written {
            Ok(()) => Ok(path),
            Err(error) => {
                let _ = fs::remove_file(&path);
                Err(error)
            }
        }
    }

    fn step(&self) -> io::Result<()> {
        self.steps.set(self.steps.get() + 1);
        if self.fails == Some(self.steps.get()) { Err(ErrorKind::StorageFull.into()) } else { Ok(()) }
    }
}

/// Temporary files that have not yet taken their names; removed if they never do.
#[derive(Debug, Default)]
struct Staged {
    files: Vec<(PathBuf, PathBuf)>,
}

impl Drop for Staged {
    fn drop(&mut self) {
        for (temporary, _) in &self.files {
            let _ = fs::remove_file(temporary);
        }
    }
}

/// A new hidden file in `folder`, its name taken from `path` and from this process.
fn temporary(folder: &Path, path: &Path) -> io::Result<(PathBuf, File)> {
    let name = path.file_name().ok_or(ErrorKind::InvalidFilename)?.to_string_lossy().into_owned();
    let mut number = 0;
    loop {
        let path = folder.join(format!(".{name}.{}.{number}.part", std::process::id()));
        match OpenOptions::new().write(true).create_new(true).open(&path) {
            Ok(file) => return Ok((path, file)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists && number < 100 => number += 1,
            Err(error) => return Err(error),
        }
    }
}

/// Gives a staged file its name, which nothing may have yet. Where the file system knows no second names for a file, it
/// is written under that name at once.
fn named(temporary: &Path, item: &Item) -> io::Result<()> {
    match fs::hard_link(temporary, &item.path) {
        Err(error) if error.kind() != ErrorKind::AlreadyExists => {
            let mut file = OpenOptions::new().write(true).create_new(true).open(&item.path)?;
            let written = file.write_all(&item.bytes).and_then(|()| file.sync_all());
            written.inspect_err(|_| drop(fs::remove_file(&item.path)))
        }
        done => done,
    }
}

/// Puts the new names of a folder on the disk where the system can; a rename that is lost by a power cut leaves the
/// old file, which is whole too.
fn settle(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

//! The only file input: reads a folder into memory, within limits, and says what cannot be read.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::diag::Finding;
use crate::source::Sources;

use crate::words::{Phrase, words};

use super::rules;

words! {
    NO_FOLDER "read.disk.no-folder" = "there is no such folder";
    NO_FOLDER_BUT_FILE "read.disk.no-folder-but-file" = "it is a file, not a folder";
    LINKED_FOLDER "read.disk.linked-folder" = "it is a link to a folder, and links to folders are not followed";
    ODD_NAME "read.disk.odd-name" = "its name has a line break, a colon or a backslash, which no package takes: name it otherwise";
    NO_FILE "read.disk.no-file" = "it is no file, or a link that leads nowhere";
    DENIED "read.disk.denied" = "permission denied";
}

/// How much is read at most. Each limit is a finding with its number.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Bytes of one file.
    pub file: u64,
    /// Bytes of all files of a folder.
    pub folder: u64,
    /// Pieces.
    pub pieces: usize,
    /// Pixels of one picture.
    pub pixels: u64,
}

impl Default for Limits {
    fn default() -> Self {
        Limits { file: 8 << 20, folder: 256 << 20, pieces: 2_000, pixels: 40_000_000 }
    }
}

/// The folder could not be read at all.
#[derive(Debug)]
pub struct Unreadable {
    /// The folder as the caller named it.
    pub folder: PathBuf,
    /// Why, in a few words.
    pub reason: String,
}

impl std::fmt::Display for Unreadable {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "cannot read {}: {}", self.folder.display(), self.reason)
    }
}

impl std::error::Error for Unreadable {}

/// Files in memory, before anything is understood.
#[derive(Debug, Default)]
pub struct Disk {
    /// Text files.
    pub sources: Sources,
    /// All files by path below the root.
    pub files: BTreeMap<String, Arc<[u8]>>,
    /// Path of the style folder below the root; empty if it is the root.
    pub style: String,
    /// What could not be read.
    pub findings: Vec<Finding>,
    /// Where further files (libraries, pictures) may be read from; `None` in memory.
    pub root: Option<PathBuf>,
    /// What goes before the files below the root, by path.
    unsaved: BTreeMap<String, String>,
    total: u64,
    limits: Limits,
}

/// Folders below each other that are looked into.
const DEEPEST: usize = 32;

/// The file whose presence marks the root of several styles and their shared libraries.
pub const ROOT: &str = "backtack-root.toml";

/// A style from files in memory.
pub fn memory<'a>(files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Disk {
    let mut disk = Disk { limits: Limits::default(), ..Disk::default() };
    let sorted: BTreeMap<&str, &[u8]> = files.into_iter().collect();
    for (path, bytes) in sorted {
        disk.take(path, bytes.to_vec());
    }
    disk
}

/// Reads the files of a style folder: every `*.toml` below it except what is skipped. Unsaved texts go before its files,
/// new ones among them.
///
/// # Errors
/// If the folder does not exist, is no folder, or cannot be listed.
pub fn load(folder: &Path, unsaved: &BTreeMap<String, String>, limits: &Limits) -> Result<Disk, Unreadable> {
    let fail = |reason: Phrase| Unreadable { folder: folder.to_path_buf(), reason: reason.english() };
    let style = folder.canonicalize().map_err(|error| fail(plain(&error)))?;
    if !style.is_dir() {
        return Err(fail(NO_FOLDER_BUT_FILE.into()));
    }
    fs::read_dir(&style).map_err(|error| fail(plain(&error)))?;
    let root = style.ancestors().find(|dir| dir.join(ROOT).is_file()).unwrap_or(&style).to_path_buf();
    let below = slashes(style.strip_prefix(&root).unwrap_or(Path::new("")));
    let unsaved = unsaved.clone();
    let mut disk = Disk { style: below, root: Some(root), unsaved, limits: *limits, ..Disk::default() };
    for path in disk.specification_files(&style) {
        disk.read_named(&path);
    }
    Ok(disk)
}

/// Whether a path the user names is a folder.
pub fn is_folder(path: &Path) -> bool {
    path.is_dir()
}

/// Whether something stands at a path the user names.
pub fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Reads one file of text that the user names, up to a size in bytes.
///
/// # Errors
/// In a few words, why it cannot be read.
pub fn text(path: &Path, largest: u64) -> Result<String, String> {
    String::from_utf8(bytes(path, largest)?).map_err(|_| "it is no text".into())
}

/// Reads one file that the user names, up to a size in bytes.
///
/// # Errors
/// In a few words, why it cannot be read.
pub fn bytes(path: &Path, largest: u64) -> Result<Vec<u8>, String> {
    let reason = |error: &std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".into(),
        std::io::ErrorKind::IsADirectory => "it is a folder, not a file".into(),
        _ => plain(error).english(),
    };
    let about = fs::metadata(path).map_err(|error| reason(&error))?;
    if about.len() > largest {
        return Err(format!("it is larger than {} MB", largest >> 20));
    }
    // What is neither file nor folder could go on for ever.
    if !about.is_file() && !about.is_dir() {
        return Err("it is no file".into());
    }
    fs::read(path).map_err(|error| reason(&error))
}

/// The files of a folder with an ending, each with its name before it, in the order of names; hidden ones are left out.
///
/// # Errors
/// In a few words, if the folder cannot be listed; one that is not there has none.
pub fn revisions(folder: &Path, ending: &str) -> Result<Vec<(String, PathBuf)>, String> {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(plain(&error).english()),
    };
    let mut found = Vec::new();
    for entry in entries {
        let path = entry.map_err(|error| plain(&error).english())?.path();
        let name = path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let wanted = path.extension().is_some_and(|one| one.eq_ignore_ascii_case(ending));
        if wanted && !name.starts_with('.') {
            found.push((name, path));
        }
    }
    found.sort();
    Ok(found)
}

impl Disk {
    /// The `*.toml` files of a style folder in the order of their paths, unsaved ones among them. Output, sealed revisions,
    /// hidden folders and nested styles are left out.
    fn specification_files(&mut self, style: &Path) -> Vec<PathBuf> {
        let entered =
            |entry: &walkdir::DirEntry| entry.depth() == 0 || !entry.file_type().is_dir() || self.entered(entry.path());
        let all = walkdir::WalkDir::new(style).max_depth(DEEPEST).sort_by_file_name().into_iter().filter_entry(entered);
        let (mut saved, mut missed) = (Vec::new(), Vec::new());
        for entry in all {
            match entry {
                // What a link leads to is not looked through: it may go round in a circle.
                Ok(entry) if entry.path_is_symlink() && entry.path().is_dir() => {
                    if entry.depth() > 0 && self.entered(entry.path()) {
                        missed.push((entry.into_path(), Phrase::from(LINKED_FOLDER)));
                    }
                }
                Ok(entry) if !entry.file_type().is_dir() => saved.push(entry.into_path()),
                Ok(_) => {}
                // A folder that is only in texts that are not saved yet.
                Err(error) if error.depth() == 0 && !style.is_dir() => {}
                Err(error) => {
                    let path = error.path().unwrap_or(style).to_path_buf();
                    missed.push((path, error.io_error().map_or_else(|| NO_FILE.into(), plain)));
                }
            }
        }
        for (path, why) in missed {
            let name = self.named(&path);
            self.findings.push(rules::no_access(&name, why));
        }
        let saved = saved.into_iter().chain(self.unsaved_below(style));
        let mut files: Vec<PathBuf> = saved.filter(|path| specifies(path)).collect();
        files.sort();
        files.dedup();
        files
    }

    /// Whether the files of a folder belong to the style that it lies in.
    fn entered(&self, folder: &Path) -> bool {
        let name = folder.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let skipped = name.starts_with('.') || name == "out" || name == "revisions";
        let style = folder.join("style.toml");
        let unsaved = self.root.as_ref().and_then(|root| style.strip_prefix(root).ok()).map(slashes);
        !skipped && !style.is_file() && unsaved.is_none_or(|name| !self.unsaved.contains_key(&name))
    }

    /// Unsaved files below a folder, but for those in folders that are not entered.
    fn unsaved_below(&self, style: &Path) -> Vec<PathBuf> {
        let Some(root) = &self.root else { return Vec::new() };
        let paths = self.unsaved.keys().map(|name| root.join(name));
        let entered = |path: &PathBuf| {
            let above: Vec<&Path> = path.ancestors().skip(1).take_while(|folder| *folder != style).collect();
            path.starts_with(style) && above.len() < DEEPEST && above.iter().all(|folder| self.entered(folder))
        };
        paths.filter(entered).collect()
    }

    /// A path below the root, as it is printed.
    fn named(&self, path: &Path) -> String {
        let root = self.root.as_deref().unwrap_or(Path::new(""));
        slashes(path.strip_prefix(root).unwrap_or(path))
    }

    /// Reads one file whose name says that it belongs to the specification: a link that leads nowhere, or what is no file, is found.
    fn read_named(&mut self, path: &Path) {
        if !self.read(path) {
            let name = self.named(path);
            self.findings.push(rules::no_access(&name, NO_FILE));
        }
    }

    /// Reads one file below the root into the closure; a repeated reading does nothing. Returns whether it is there.
    fn read(&mut self, path: &Path) -> bool {
        let Some(root) = self.root.clone() else { return false };
        if let Some(found) = self.read_unsaved(path, &root) {
            return found;
        }
        let Some(real) = path.canonicalize().ok().filter(|real| real.is_file()) else { return false };
        let name = slashes(path.strip_prefix(&root).unwrap_or(path));
        if !real.starts_with(&root) {
            self.findings.push(rules::leads_out(&name));
            return true;
        }
        if self.files.contains_key(&name) {
            return true;
        }
        let size = fs::metadata(&real).map_or(0, |about| about.len());
        if self.fits(&name, size) {
            match fs::read(&real) {
                Ok(bytes) => self.take(&name, bytes),
                Err(error) => self.findings.push(rules::no_access(&name, plain(&error))),
            }
        }
        true
    }

    /// Reads a file from what is not saved yet, as if it were; none if it is as it is on the disk.
    fn read_unsaved(&mut self, path: &Path, root: &Path) -> Option<bool> {
        let name = slashes(path.strip_prefix(root).ok()?);
        let bytes = self.unsaved.get(&name)?.clone().into_bytes();
        if !self.files.contains_key(&name) && self.fits(&name, bytes.len() as u64) {
            self.take(&name, bytes);
        }
        Some(true)
    }

    /// Whether a file is within the limits; else that is found.
    fn fits(&mut self, name: &str, size: u64) -> bool {
        if size > self.limits.file {
            self.findings.push(rules::too_large(name, size, self.limits.file));
        } else if self.total + size > self.limits.folder {
            self.findings.push(rules::too_much(name, self.limits.folder));
        } else {
            return true;
        }
        false
    }

    /// Takes a file's bytes in; text must be UTF-8 and loses its byte order mark.
    fn take(&mut self, name: &str, bytes: Vec<u8>) {
        self.total += bytes.len() as u64;
        // Such a name leads elsewhere, or nowhere, on another system: no archive takes it.
        if name.chars().any(|c| c.is_control() || matches!(c, '\\' | ':')) {
            self.findings.push(rules::no_access(name, ODD_NAME));
        }
        if name.ends_with(".toml") {
            match std::str::from_utf8(&bytes) {
                Ok(text) => {
                    self.sources.add(name, text.strip_prefix('\u{feff}').unwrap_or(text));
                }
                Err(error) => self.findings.push(rules::not_text(name, error.valid_up_to())),
            }
        }
        self.files.insert(name.to_string(), bytes.into());
    }

    /// Fetches a file the specification names, relative to the style folder. `Ok(false)` if it is not there.
    ///
    /// # Errors
    /// If the path is absolute or leads out of the style folder by its own text.
    pub fn fetch(&mut self, written: &str) -> Result<bool, ()> {
        let name = self.name(written).ok_or(())?;
        if self.files.contains_key(&name) {
            return Ok(true);
        }
        let Some(root) = self.root.clone() else { return Ok(false) };
        Ok(self.read(&root.join(&name)))
    }

    /// The path below the root of a path written in the style; none if it is absolute or climbs.
    pub fn name(&self, written: &str) -> Option<String> {
        let bad = written.is_empty()
            || written.starts_with('/')
            || written.contains(['\\', ':', '\0'])
            || written.split('/').any(|part| part.is_empty() || part == ".." || part == ".");
        let style = if self.style.is_empty() { String::new() } else { format!("{}/", self.style) };
        (!bad).then(|| format!("{style}{written}"))
    }

    /// Fetches a shared library below the root: one file, or every `*.toml` of a folder. `Ok(false)` if nothing is there.
    ///
    /// # Errors
    /// If the path is absolute or leads out of the root by its own text.
    pub fn library(&mut self, written: &str) -> Result<bool, ()> {
        let style = std::mem::take(&mut self.style);
        let name = self.name(written);
        self.style = style;
        let name = name.ok_or(())?;
        let Some(root) = self.root.clone() else {
            let below = format!("{name}/");
            return Ok(self.files.keys().any(|path| *path == name || path.starts_with(&below)));
        };
        let path = root.join(&name);
        let below = format!("{name}/");
        if !path.is_dir() && !self.unsaved.keys().any(|one| one.starts_with(&below)) {
            return Ok(self.read(&path));
        }
        let files = self.specification_files(&path);
        files.iter().for_each(|file| {
            self.read(file);
        });
        Ok(!files.is_empty())
    }

    /// The limits that hold.
    pub fn limits(&self) -> &Limits {
        &self.limits
    }
}

/// Whether a file is named like one of a specification.
fn specifies(path: &Path) -> bool {
    let hidden = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
    !hidden && path.extension().is_some_and(|ending| ending == "toml")
}

fn slashes(path: &Path) -> String {
    path.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect::<Vec<_>>().join("/")
}

/// The system's reason in a few words, without the error number.
fn plain(error: &std::io::Error) -> Phrase {
    match error.kind() {
        std::io::ErrorKind::NotFound => NO_FOLDER.into(),
        std::io::ErrorKind::PermissionDenied => DENIED.into(),
        _ => error.to_string().into(),
    }
}

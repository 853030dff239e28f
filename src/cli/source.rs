//! A specification from wherever it is: a style folder, a sealed revision, a PDF package.

use std::path::Path;

use backtack_core::pipeline::{self, Source};
use backtack_core::read::{self, Loaded};
use backtack_core::revision::manifest::Inner;
use backtack_core::revision::{pdf, seal};
use backtack_core::source::Tally;

use super::Failure;

/// The files of a revision, which agree with its manifest.
pub struct Opened {
    /// The manifest.
    pub inner: Inner,
    /// Whether it is the own edition.
    pub own: bool,
    /// The files by their path below the root.
    pub files: Vec<(String, Vec<u8>)>,
}

/// Reads a file whole, within the limit of what is opened.
///
/// # Errors
/// If it cannot be read.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    read::file_bytes(path, seal::LARGEST).map_err(|why| failed(path, &why))
}

/// One line about a file.
pub fn failed(path: &Path, why: impl std::fmt::Display) -> Failure {
    Failure::new(format!("{}: {why}", path.display()))
}

/// Whether these are the first bytes of a PDF.
pub fn is_pdf(bytes: &[u8]) -> bool {
    bytes.starts_with(b"%PDF-")
}

/// Opens a sealed revision or a PDF package.
///
/// # Errors
/// If it cannot be read, or is not as it was made.
pub fn file(path: &Path) -> Result<Opened, Failure> {
    let bytes = bytes(path)?;
    let copied = |files: Vec<(&str, &[u8])>| -> Vec<(String, Vec<u8>)> {
        files.into_iter().map(|(path, bytes)| (path.to_string(), bytes.to_vec())).collect()
    };
    if is_pdf(&bytes) {
        let attached = pdf::read(&bytes).map_err(|why| failed(path, why))?;
        let files = copied(attached.files().map_err(|why| failed(path, why))?);
        return Ok(Opened { inner: attached.inner, own: false, files });
    }
    let sealed = seal::verified(&bytes).map_err(|why| failed(path, why))?;
    Ok(Opened { inner: sealed.inner, own: true, files: copied(sealed.files) })
}

/// Reads the specification of a style folder.
///
/// # Errors
/// If it cannot be read at all.
pub fn folder(path: &Path, tally: &Tally) -> Result<Loaded, Failure> {
    pipeline::read(&Source::Folder(path), tally).map_err(|error| Failure::new(error.to_string()))
}

/// Reads the specification of a folder, a sealed revision or a PDF package.
///
/// # Errors
/// If it cannot be read at all.
pub fn loaded(path: &Path, tally: &Tally) -> Result<Loaded, Failure> {
    if read::is_folder(path) || !read::is_there(path) {
        return folder(path, tally);
    }
    let bytes = bytes(path)?;
    let source = if is_pdf(&bytes) { Source::Package(&bytes) } else { Source::Sealed(&bytes) };
    pipeline::read(&source, tally).map_err(|error| failed(path, error.to_string()))
}

use std::io::{Cursor, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// An archive could not be written.
#[derive(Debug)]
pub struct ArchiveError(String);

impl std::fmt::Display for ArchiveError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "cannot write the archive: {}", self.0)
    }
}

impl std::error::Error for ArchiveError {}

/// One stored (uncompressed) zip of the files in the given order, each dated 1980-01-01, so that the same files make
/// the same bytes anywhere.
///
/// # Errors
/// If two files have one name, or a name is longer than a zip holds.
pub fn stored<'a>(files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Result<Vec<u8>, ArchiveError> {
    let fail = |error: &dyn std::fmt::Display| ArchiveError(error.to_string());
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    for (name, bytes) in files {
        zip.start_file(name, options).map_err(|error| fail(&error))?;
        zip.write_all(bytes).map_err(|error| fail(&error))?;
    }
    let done = zip.finish().map_err(|error| fail(&error))?;
    Ok(done.into_inner())
}

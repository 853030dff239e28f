//! Where a specification is read from.

use std::path::Path;

use crate::read::{self, Loaded, Unreadable, Unsaved};
use crate::revision::pdf::PdfFault;
use crate::revision::seal::SealFault;
use crate::revision::{ArchiveFault, Member, pdf, seal, unpacked};
use crate::source::Tally;

use super::issued;

/// Where a specification is.
#[derive(Debug, Clone, Copy)]
pub enum Source<'a> {
    /// A style folder.
    Folder(&'a Path),
    /// A style folder with texts laid over it that are not saved yet.
    Unsaved {
        /// The folder.
        folder: &'a Path,
        /// What goes before the files of the disk.
        texts: &'a Unsaved,
    },
    /// Files in memory by their paths below the root.
    Files {
        /// Path of the style folder below the root; empty if it is the root.
        style: &'a str,
        /// All of them.
        files: &'a [Member<'a>],
    },
    /// The stored zip that is attached to a package.
    Archive {
        /// Path of the style folder below the root, which the manifest beside it names.
        style: &'a str,
        /// The bytes of the zip.
        bytes: &'a [u8],
    },
    /// A sealed file: its own edition.
    Sealed(&'a [u8]),
    /// A PDF package: what is attached to it.
    Package(&'a [u8]),
}

/// A specification could not be read at all.
#[derive(Debug)]
pub enum ReadError {
    /// The folder cannot be read.
    Folder(Unreadable),
    /// The archive is not as it is written.
    Archive(ArchiveFault),
    /// The sealed file is not as it was sealed.
    Sealed(SealFault),
    /// The PDF package is not as it was made.
    Package(PdfFault),
}

impl std::fmt::Display for ReadError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ReadError::Folder(why) => why.fmt(out),
            ReadError::Archive(why) => why.fmt(out),
            ReadError::Sealed(why) => why.fmt(out),
            ReadError::Package(why) => why.fmt(out),
        }
    }
}

impl std::error::Error for ReadError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(match self {
            ReadError::Folder(why) => why,
            ReadError::Archive(why) => why,
            ReadError::Sealed(why) => why,
            ReadError::Package(why) => why,
        })
    }
}

/// Reads a specification; what is done for it is counted in `tally`.
///
/// # Errors
/// Only if it cannot be read at all; everything else is a finding of the result.
pub fn read(source: &Source<'_>, tally: &Tally) -> Result<Loaded, ReadError> {
    match source {
        Source::Folder(folder) => on_disk(folder, &Unsaved::new(), tally),
        Source::Unsaved { folder, texts } => on_disk(folder, texts, tally),
        Source::Files { style, files } => {
            let own = files.iter().filter(|(path, _)| issued::name(style, path).is_none());
            let mut loaded = read::closure(style, own.copied(), tally);
            loaded.model.issued = issued::in_memory(style, files, &loaded);
            Ok(loaded)
        }
        Source::Archive { style, bytes } => {
            let files = unpacked(bytes).map_err(ReadError::Archive)?;
            Ok(read::closure(style, files, tally))
        }
        Source::Sealed(bytes) => {
            let sealed = seal::verified(bytes).map_err(ReadError::Sealed)?;
            Ok(read::closure(&sealed.inner.folder, sealed.files, tally))
        }
        Source::Package(bytes) => {
            let attached = pdf::read(bytes).map_err(ReadError::Package)?;
            let files = attached.files().map_err(ReadError::Package)?;
            Ok(read::closure(&attached.inner.folder, files, tally))
        }
    }
}

/// A style folder with unsaved texts over it, and what was sealed of it before.
fn on_disk(folder: &Path, texts: &Unsaved, tally: &Tally) -> Result<Loaded, ReadError> {
    let mut loaded = read::folder(folder, texts, tally).map_err(ReadError::Folder)?;
    loaded.model.issued = Some(issued::on_disk(folder, &loaded));
    Ok(loaded)
}

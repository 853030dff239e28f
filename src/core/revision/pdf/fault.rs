//! What is wrong with a PDF that should be a package of ours.

use std::fmt;

use crate::revision::archive::ArchiveFault;
use crate::revision::manifest::ManifestFault;

/// The attached archive, figures and manifest.
pub const ARCHIVE: &str = "specification.zip";
/// The attached figures.
pub const FIGURES: &str = "figures.json";
/// The attached manifest.
pub const MANIFEST: &str = "manifest.txt";

/// Why a PDF gives no package.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PdfFault {
    /// It does not begin as a PDF.
    NoPdf,
    /// Its end is missing.
    CutOff,
    /// Its objects are not where they should be: another program wrote it, or it is broken.
    Rewritten,
    /// It is encrypted.
    Encrypted,
    /// It was added to more often than this.
    Updates(usize),
    /// Something that belongs to a package is not attached.
    Missing(&'static str),
    /// Something that does not belong to a package is attached.
    Foreign(String),
    /// Two attachments have one name.
    Twice(String),
    /// An attachment has no name.
    Nameless,
    /// More files than this are attached.
    Many(usize),
    /// The list of attachments has too many levels.
    Deep,
    /// The list of attachments is broken.
    List,
    /// The bytes of one attachment cannot be had.
    Bytes {
        /// Its name.
        name: String,
        /// Why.
        why: BytesFault,
    },
    /// The attached archive is none of ours.
    Archive(ArchiveFault),
    /// The attached manifest is no text.
    ManifestText,
    /// The attached manifest is not as it is written.
    Manifest(ManifestFault),
    /// A file is not the one that the manifest names.
    Other(String),
    /// A file is not in the manifest at its place.
    Misplaced(String),
    /// A file of the manifest is not attached.
    NotAttached(String),
}

/// Why the bytes of an attachment cannot be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BytesFault {
    /// It has none.
    None,
    /// They are cut off.
    CutOff,
    /// They are not packed as they say.
    Broken,
    /// They are packed in another way than ours.
    Packed,
    /// They are more than this many megabytes.
    Large(usize),
}

impl fmt::Display for PdfFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PdfFault::NoPdf => out.write_str("it is no PDF"),
            PdfFault::CutOff => out.write_str("it is cut off: its end is missing"),
            PdfFault::Rewritten => {
                out.write_str("it was rewritten by another program, or is broken: ask for the file as it was sent")
            }
            PdfFault::Encrypted => out.write_str("it is encrypted"),
            PdfFault::Updates(most) => write!(out, "it was added to more than {most} times"),
            PdfFault::Missing(name) => write!(out, "no {name} is attached: it is no package of backtack"),
            PdfFault::Foreign(name) => write!(out, "{} is attached and does not belong there", name.escape_debug()),
            PdfFault::Twice(name) => write!(out, "two attachments are called {}", name.escape_debug()),
            PdfFault::Nameless => out.write_str("an attachment has no name"),
            PdfFault::Many(most) => write!(out, "more than {most} files are attached"),
            PdfFault::Deep => out.write_str("its list of attachments goes too deep"),
            PdfFault::List => out.write_str("its list of attachments is broken"),
            PdfFault::Bytes { name, why } => write!(out, "{}: {why}", name.escape_debug()),
            PdfFault::Archive(why) => write!(out, "{ARCHIVE}: {why}"),
            PdfFault::ManifestText => write!(out, "{MANIFEST} is no text"),
            PdfFault::Manifest(why) => write!(out, "{MANIFEST}: {why}"),
            PdfFault::Other(name) => write!(out, "{name} is not that of {MANIFEST}"),
            PdfFault::Misplaced(name) => write!(out, "{name} is not in {MANIFEST} at its place"),
            PdfFault::NotAttached(name) => write!(out, "{name} of {MANIFEST} is not attached"),
        }
    }
}

impl fmt::Display for BytesFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BytesFault::None => out.write_str("it has no bytes"),
            BytesFault::CutOff => out.write_str("its bytes are cut off"),
            BytesFault::Broken => out.write_str("its packed bytes are broken"),
            BytesFault::Packed => out.write_str("it is packed in a way that backtack does not write"),
            BytesFault::Large(most) => write!(out, "it is larger than {most} MB"),
        }
    }
}

impl std::error::Error for PdfFault {}

//! What makes a revision one thing: the archive of everything it was made from, and its digest.

mod archive;
mod digest;

pub use archive::{ArchiveError, stored};
pub use digest::{Digest, of_files, sha256};

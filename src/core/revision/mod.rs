//! What makes a revision one thing: the archive of everything it was made from, and its digest; and what differs between
//! two of them.

mod archive;
pub mod compare;
mod digest;

pub use archive::{ArchiveError, stored};
pub use digest::{Digest, of_files, sha256};

//! What makes a revision one thing: the archive of everything it was made from, its manifests and its seal; and what
//! differs between two of them.

mod archive;
pub mod chain;
pub mod compare;
mod digest;
pub mod manifest;
pub mod pdf;
pub mod release;
pub(crate) mod rows;
mod sample;
pub mod seal;
pub mod signature;
mod since;
mod status;

pub use archive::{ArchiveError, ArchiveFault, Member, Part, named, stored, unpacked};
pub use digest::{Digest, keyed, of_files, sha256};
pub use sample::{Ask, blank};
pub use since::Since;
pub use status::{Seen, ahead, status};

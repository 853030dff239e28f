//! Loaded text and places in it. A leaf: imports nothing of ours.

mod edit;
mod file;
mod near;
mod span;
mod tally;

pub use edit::{Edit, Help, certain, quoted};
pub use file::{Columns, SourceFile, Sources};
pub use near::nearest;
pub use span::{FileId, Span, Spanned};
pub use tally::{Tally, Work};

//! Loaded text and places in it. A leaf: imports nothing of ours.

mod file;
mod span;

pub use file::{SourceFile, Sources};
pub use span::{FileId, Span, Spanned};

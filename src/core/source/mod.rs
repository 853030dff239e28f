//! Loaded text and places in it. A leaf: imports nothing of ours.

mod file;
mod span;

pub use file::{FileId, SourceFile, Sources};
pub use span::{Span, Spanned};

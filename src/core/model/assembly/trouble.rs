//! What could not be resolved while names were looked up.

use crate::source::{Help, Span};
use crate::words::Phrase;

/// What kind of thing went wrong while names were resolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TroubleKind {
    /// A piece, use, copy, point or line that nothing declares.
    Unknown,
    /// A run that could mean more than one stretch, or none.
    Unclear,
    /// A mirror image that does not exist or is the seam itself.
    Mirror,
}

/// Something that could not be resolved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// What kind.
    pub kind: TroubleKind,
    /// One sentence in the user's words.
    pub message: Phrase,
    /// The place to change.
    pub span: Span,
    /// What the place is, for the label.
    pub label: Phrase,
    /// What to write instead.
    pub help: Option<Help>,
}

//! The order of work: steps, stitching on the surface, and what is attached to it.

use crate::source::{Span, Spanned};

use super::{Chain, Entry, Means, RunRef, Stated, StitchUse};

/// The order of work.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// Ids of seams, openings, topstitches, attachments, edge finishes and steps, first to last. An opening stands where it is
    /// closed.
    pub order: Vec<Spanned<String>>,
    /// Where the list stands.
    pub span: Option<Span>,
    /// The list itself, from bracket to bracket.
    pub list: Option<Span>,
    /// The stitch of every seam that states none of its own.
    pub stitch: StitchUse,
    /// Steps after which what comes into a part begins a stage.
    pub stage_least: Option<Stated<u32>>,
    /// Steps that a stage has at most.
    pub stage_most: Option<Stated<u32>>,
}

/// Stitching along an internal line; joins nothing.
#[derive(Debug, Clone)]
pub struct Topstitch {
    /// Id and name.
    pub entry: Entry,
    /// The line.
    pub on: Option<RunRef>,
    /// Once more with left and right exchanged.
    pub mirrored: Option<Spanned<bool>>,
    /// The stitch.
    pub stitch: StitchUse,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// How it is done.
    pub means: Means,
}

/// An edge sewn onto an internal line of another piece.
#[derive(Debug, Clone)]
pub struct Attach {
    /// Id and name.
    pub entry: Entry,
    /// The edge that is sewn on.
    pub edge: Option<Chain>,
    /// The line it is sewn to.
    pub on: Option<RunRef>,
    /// Once more with left and right exchanged.
    pub mirrored: Option<Spanned<bool>>,
    /// The stitch.
    pub stitch: StitchUse,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// How it is done.
    pub means: Means,
}

/// What a step does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Deed {
    /// Right side out.
    Turn,
    /// Put the filling in.
    Fill,
    /// Put a finished part inside another.
    Insert,
    /// Anything else, in the user's words (the name and note say what).
    Other,
}

impl Deed {
    /// The words that rules follow; any other word is the user's own.
    pub const WORDS: [&str; 4] = ["turn", "fill", "insert", "detect"];
}

/// A step that is no seam.
#[derive(Debug, Clone)]
pub struct Step {
    /// Id and name.
    pub entry: Entry,
    /// What is done.
    pub deed: Deed,
    /// The word the user wrote for it.
    pub word: Option<Spanned<String>>,
    /// The part it is done to.
    pub part: Option<Spanned<String>>,
    /// The stuffing it fills.
    pub stuffing: Option<Spanned<String>>,
    /// The trim it fits.
    pub trim: Option<Spanned<String>>,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// How it is done.
    pub means: Means,
}

//! Seams and openings: sides, layers caught between them, ease, stitches, and how an opening is closed.

use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{Chain, Entry, Means, Stated, Value};

/// How a line is stitched.
#[derive(Debug, Clone, Default)]
pub struct StitchUse {
    /// Stitch type number after ISO 4915.
    pub kind: Option<Spanned<String>>,
    /// Stitches per length.
    pub density: Option<Stated<Quantity>>,
    /// Thread: role or article.
    pub thread: Option<Spanned<String>>,
    /// Bight of overedge and zigzag stitches.
    pub width: Option<Stated<Quantity>>,
    /// Needle size and point.
    pub needle: Option<Stated<String>>,
    /// Where it is written.
    pub span: Option<Span>,
    /// The `[stitch]` it is taken from, where one is named.
    pub shared: Option<Spanned<String>>,
}

/// Length goods caught in a seam.
#[derive(Debug, Clone)]
pub struct TrimLayer {
    /// The trim: role or article.
    pub trim: Spanned<String>,
    /// Length used per length of seam; 1 unless said.
    pub ratio: Option<Stated<f64>>,
    /// Added once for joins and ends.
    pub laps: Option<Stated<Quantity>>,
}

/// What a layer between the two sides of a seam is.
#[derive(Debug, Clone)]
pub enum Held {
    /// The edge of another part.
    Chain(Chain),
    /// Length goods.
    Trim(TrimLayer),
}

/// Something caught between the two sides of a seam.
#[derive(Debug, Clone)]
pub struct Layer {
    /// What it is.
    pub held: Held,
    /// The stretch of side `a` along which it lies, if it has one of its own.
    pub on: Option<Chain>,
}

/// Which side of a seam a statement is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeamSide {
    /// Side `a`.
    A,
    /// Side `b`.
    B,
}

/// Fullness worked into one side.
#[derive(Debug, Clone)]
pub struct Ease {
    /// The longer side.
    pub side: SeamSide,
    /// For `ease`: the largest excess in percent of the other side. For `gather` and `stretch`: the ratio of this side
    /// to the other, in percent.
    pub amount: Stated<Quantity>,
    /// Where it stands.
    pub span: Span,
}

/// How an opening is closed.
#[derive(Debug, Clone)]
pub struct Close {
    /// `hand`, `machine`, `zip`, `hook and loop`, `button`, or the user's own words.
    pub by: Option<Stated<String>>,
    /// The trim that closes it: role or article.
    pub trim: Option<Spanned<String>>,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// Where it stands.
    pub span: Span,
}

/// Seam or opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointKind {
    /// Sewn.
    Seam,
    /// Left open and closed later, or with something that opens again.
    Opening,
}

/// Two sides of the shell that meet, and what is caught between them.
#[derive(Debug, Clone)]
pub struct Joint {
    /// Id and name.
    pub entry: Entry,
    /// Seam or opening.
    pub kind: JointKind,
    /// The first side in needle order.
    pub a: Option<Chain>,
    /// The last side.
    pub b: Option<Chain>,
    /// What is caught, in needle order.
    pub between: Vec<Layer>,
    /// The stretch of `a` along which the caught layers lie that have none of their own, if they are shorter.
    pub on: Option<Chain>,
    /// Once more with left and right exchanged.
    pub mirrored: Option<Spanned<bool>>,
    /// The stitch.
    pub stitch: StitchUse,
    /// Ease worked in.
    pub ease: Option<Ease>,
    /// Gathering: side and its length in percent of the other.
    pub gather: Option<Ease>,
    /// Elastic stretched on: side and its relaxed length in percent of the other.
    pub stretch: Option<Ease>,
    /// How an opening is closed.
    pub close: Option<Close>,
    /// Girth of what must pass the opening.
    pub girth: Option<Value<Quantity>>,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// How it is done.
    pub means: Means,
}

/// What is done to an edge that joins nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeFinishKind {
    /// Left as cut.
    Raw,
    /// Turned and stitched.
    Hem,
    /// Covered with a tape.
    Bound,
    /// Folded back.
    Fold,
    /// Overlocked.
    Overlocked,
}

/// The finish of an edge.
#[derive(Debug, Clone)]
pub struct EdgeFinish {
    /// Id and name.
    pub entry: Entry,
    /// What is done.
    pub kind: Option<Spanned<EdgeFinishKind>>,
    /// The edge.
    pub on: Option<Chain>,
    /// Once more with left and right exchanged.
    pub mirrored: Option<Spanned<bool>>,
    /// The tape of a bound edge.
    pub tape: Option<TrimLayer>,
    /// The stitch.
    pub stitch: StitchUse,
    /// A remark.
    pub note: Option<Stated<String>>,
    /// How it is done.
    pub means: Means,
}

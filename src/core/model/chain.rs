//! How edges are named: points, stretches of an outline, and chains of them over several pieces.

use crate::source::Span;

/// A named point of an outline, or its mirror image (`x~`).
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct PointRef {
    /// The point's id.
    pub id: String,
    /// Whether the mirror image is meant.
    pub image: bool,
    /// Where it is written.
    pub span: Span,
}

impl PointRef {
    /// As it is written: `m` or `m~`.
    pub fn text(&self) -> String {
        format!("{}{}", self.id, if self.image { "~" } else { "" })
    }
}

/// What of a piece is meant: a row of neighbouring points on its outline, or an internal line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathRef {
    /// At least two points, each next to the one before.
    Points(Vec<PointRef>),
    /// An internal line by its id.
    Line(String),
}

/// One stretch of one instance: `ear.left/EAR.f:r-k-s`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunRef {
    /// The part named before the slash, if any.
    pub part: Option<String>,
    /// The use of the part, if named.
    pub usage: Option<String>,
    /// The piece; a run that names none keeps the piece of the run before.
    pub piece: String,
    /// The copy, if named.
    pub copy: Option<String>,
    /// The stretch.
    pub path: PathRef,
    /// Where it is written.
    pub span: Span,
}

/// Runs in a row, over several pieces if need be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    /// At least one run.
    pub runs: Vec<RunRef>,
    /// Where it is written.
    pub span: Span,
}

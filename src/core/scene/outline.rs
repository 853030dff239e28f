//! What a piece is drawn from.

use super::nest::NestSize;
use super::{At, Line, Segment};
use crate::words::Phrase;

/// One piece in its own true millimetres, y down, every text final.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PieceOutline {
    /// The code written in the middle of the piece.
    pub code: String,
    /// The cut line.
    pub cut: Vec<Segment>,
    /// The sew line; empty for a piece whose edges are all raw.
    pub sew: Vec<Segment>,
    /// The same piece in other sizes, their lines in order; they lie where they share a point with it.
    pub others: Vec<NestSize>,
    /// Its edges with the letters of their seams.
    pub seams: Vec<PieceSeam>,
    /// Folds, stitching and other lines inside the piece.
    pub inner: Vec<InnerLine>,
    /// Named points on the sew line.
    pub points: Vec<PiecePoint>,
    /// Notches.
    pub notches: Vec<PieceNotch>,
    /// Places on the piece for what is put on it: a cross and a name.
    pub marks: Vec<PiecePoint>,
    /// Openings left in the sew line: their two ends and their length as written, `"120"`.
    pub openings: Vec<([At; 2], String)>,
    /// What is written at an edge, such as an allowance that is not the usual one.
    pub remarks: Vec<PiecePoint>,
    /// Direction of the grain, if the piece has one.
    pub grain: Option<At>,
    /// Direction in which the pile lies, if there is any.
    pub pile: Option<At>,
    /// What is written at the arrow of the pile.
    pub pile_text: String,
    /// Cut width as written at the dimension line, `"504"`; empty where the grain is tilted, so that it lies along neither.
    pub width_text: String,
    /// Cut height as written at the dimension line.
    pub height_text: String,
    /// The description of the drawing.
    pub alt: Phrase,
}

/// An edge with the letter of its seam, in true millimetres.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PieceSeam {
    /// The edge from its first to its last point.
    pub path: Vec<Segment>,
    /// The letter; several apart from each other where copies are sewn to different things.
    pub letter: String,
    /// Whether the seam runs from its first to its last point; none where it runs one way on one copy, the other on another.
    pub forward: Option<bool>,
}

/// A line inside a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct InnerLine {
    /// What it means.
    pub line: Line,
    /// Where it runs, in true millimetres.
    pub segments: Vec<Segment>,
    /// Its name; empty for none.
    pub name: String,
}

/// A named point of a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct PiecePoint {
    /// Its letter.
    pub name: String,
    /// Where it is, in true millimetres.
    pub at: At,
}

/// How a notch is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotchForm {
    /// A triangle outside the cut line.
    Outward,
    /// A cut into the allowance.
    Slit,
    /// Marked across the allowance, not cut.
    Marked,
}

/// A notch of a piece, in true millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceNotch {
    /// Its place on the sew line.
    pub sew: At,
    /// Its place on the cut line.
    pub cut: At,
    /// Where it ends.
    pub tip: At,
    /// How it is cut.
    pub form: NotchForm,
}

//! Notches and corners as written: where they are, and what the cut line does there.

use crate::geom::Corner;
use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{EdgeRef, PointRef, Value};

/// What the cut line does at one corner, as written.
#[derive(Debug, Clone, PartialEq)]
pub struct CornerStyle {
    /// The style; a step or fold is that of the wider allowance unless an edge is named.
    pub corner: Corner,
    /// The edge whose allowance is stepped or folded back, if it is named: from one point to its neighbour.
    pub edge: Option<EdgeRef>,
    /// Where it is written.
    pub span: Span,
}

/// What the cut line of a piece does at its corners.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CornerStyles {
    /// At every corner without its own style.
    pub all: Option<CornerStyle>,
    /// At single points.
    pub at: Vec<(PointRef, CornerStyle)>,
}

/// Where a notch stands on the sew line.
#[derive(Debug, Clone, PartialEq)]
pub enum NotchPlace {
    /// At a named point.
    Point(PointRef),
    /// Along an edge: a distance from its first point, which holds for every size, or a share of it, which grows with it.
    Along {
        /// From one point to its neighbour.
        edge: EdgeRef,
        /// A length or a percentage.
        at: Quantity,
    },
}

/// One notch.
#[derive(Debug, Clone, PartialEq)]
pub struct Notch {
    /// Where it stands.
    pub place: NotchPlace,
    /// Where it is written.
    pub span: Span,
}

/// How a notch is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum NotchStyle {
    /// A small triangle outside the cut line.
    Outward,
    /// A cut into the allowance.
    #[default]
    Slit,
    /// Marked, not cut.
    None,
}

/// The notches of a piece.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Notches {
    /// As written.
    pub list: Vec<Notch>,
    /// How they are cut; a slit unless said.
    pub style: Option<Spanned<NotchStyle>>,
    /// How deep, if said.
    pub depth: Option<Value<Quantity>>,
}

//! Where an outline comes from: a shape by its measures, or a drawing.

use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{Chain, Stated, Value};

/// Which line an outline draws; the other is computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// The line that is sewn.
    #[default]
    SewLine,
    /// The line that is cut.
    CutLine,
}

/// A length of a shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Extent {
    /// As stated.
    Length(Quantity),
    /// As long as some edges of other pieces on their sew lines, in every size.
    Along(Follow),
}

/// A length that follows edges: `"along LID:n-e-s-w-n + 2 %"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Follow {
    /// The edges.
    pub chain: Chain,
    /// What is added: a length, or a percentage of theirs; whether it is taken off instead.
    pub more: Option<(bool, Quantity)>,
    /// Where it is written.
    pub span: Span,
}

/// Where a shape comes from. Lengths are quantities so that each size can have its own.
#[derive(Debug, Clone)]
pub enum ShapeSource {
    /// Points `nw ne se sw`.
    Rectangle {
        /// Across the page.
        width: Value<Extent>,
        /// Up the page.
        height: Value<Extent>,
    },
    /// Points `nw ne se sw` in the middle of the corner arcs.
    RoundedRectangle {
        /// Across the page.
        width: Value<Extent>,
        /// Up the page.
        height: Value<Extent>,
        /// Of each corner.
        radius: Value<Extent>,
    },
    /// Points `n e s w`.
    Circle {
        /// Diameter, or the way round.
        extent: Value<Extent>,
        /// Whether the way round is stated.
        round: bool,
    },
    /// Points `n e s w`.
    Ellipse {
        /// Across the page.
        width: Value<Extent>,
        /// Up the page.
        height: Value<Extent>,
    },
    /// One of `count` equal strips that close round a ball; points `n e s w`.
    Gore {
        /// How many make the ball.
        count: Stated<u32>,
        /// Of the ball.
        diameter: Value<Extent>,
    },
    /// Straight edges between the user's own points: (id, x, y).
    Polygon(Vec<(Spanned<String>, Value<Quantity>, Value<Quantity>)>),
    /// A file drawn at true scale.
    Svg(SvgSource),
    /// The factory makes the pattern.
    ByFactory,
    /// Not shown in this edition.
    Withheld(String),
}

/// An outline in a drawing: `"outlines/body.svg"`, or `"outlines/body.svg#B1"` where it has not the id of the piece.
#[derive(Debug, Clone)]
pub struct SvgSource {
    /// Path of the file below the style folder.
    pub path: Spanned<String>,
    /// The name of the outline in the file, if it is not that of the piece.
    pub id: Option<String>,
}

/// A point placed on an edge of a parametric shape: `"nw-ne 40 mm"` or `"nw-ne 50 %"`.
#[derive(Debug, Clone)]
pub struct PlacedPoint {
    /// The new point.
    pub id: Spanned<String>,
    /// The edge it lies on, measured from the first point.
    pub edge: (String, String),
    /// A length, or a percentage of the edge.
    pub at: Value<Quantity>,
    /// Whether the length holds in every size; else it is that of the drawn size and grows with it.
    pub fixed: bool,
}

/// One outline as described by its author.
#[derive(Debug, Clone)]
pub struct OutlineSource {
    /// The shape.
    pub shape: ShapeSource,
    /// Which line it is.
    pub side: Side,
    /// The edge along which a half outline is unfolded.
    pub fold: Option<Spanned<(String, String)>>,
    /// Extra points.
    pub points: Vec<PlacedPoint>,
    /// Where it stands.
    pub span: Span,
}

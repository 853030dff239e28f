use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{Stated, Value};

/// Which line an outline draws; the other is computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// The line that is sewn.
    #[default]
    SewLine,
    /// The line that is cut.
    CutLine,
}

/// Where a shape comes from. Lengths are quantities so that each size can have its own.
#[derive(Debug, Clone)]
pub enum ShapeSource {
    /// Points `nw ne se sw`.
    Rectangle {
        /// Across the page.
        width: Value<Quantity>,
        /// Up the page.
        height: Value<Quantity>,
    },
    /// Points `nw ne se sw` in the middle of the corner arcs.
    RoundedRectangle {
        /// Across the page.
        width: Value<Quantity>,
        /// Up the page.
        height: Value<Quantity>,
        /// Of each corner.
        radius: Value<Quantity>,
    },
    /// Points `n e s w`.
    Circle {
        /// Diameter.
        diameter: Value<Quantity>,
    },
    /// Points `n e s w`.
    Ellipse {
        /// Across the page.
        width: Value<Quantity>,
        /// Up the page.
        height: Value<Quantity>,
    },
    /// One of `count` equal strips that close round a ball; points `n e s w`.
    Gore {
        /// How many make the ball.
        count: Stated<u32>,
        /// Of the ball.
        diameter: Value<Quantity>,
    },
    /// Straight edges between the user's own points: (id, x, y).
    Polygon(Vec<(Spanned<String>, Value<Quantity>, Value<Quantity>)>),
    /// A file drawn at true scale.
    Svg(Spanned<String>),
    /// The factory makes the pattern.
    ByFactory,
    /// Not shown in this edition.
    Withheld(String),
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

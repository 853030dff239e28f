//! A piece as written: its cuts, its copies, its allowances and its darts.

use crate::geom::{Outline, Point};
use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{EdgeRef, Entry, OutlineSource, Stated, SvgSource, Table, Value};

/// One copy of a piece within one use of its part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copy {
    /// Its name; empty for a piece cut once.
    pub name: String,
    /// Whether it is the mirror image of the drawn outline.
    pub mirrored: bool,
    /// Where it is written.
    pub span: Span,
}

/// How a dart reaches the cutting room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Darts {
    /// The cut line bridges the mouth and the legs are marked.
    #[default]
    Marked,
    /// The dart is cut out.
    Cut,
}

/// The allowance of one cut.
#[derive(Debug, Clone, Default)]
pub struct Allowance {
    /// For every edge without its own.
    pub all: Option<Value<Quantity>>,
    /// For single edges, in the order they are written.
    pub edges: Vec<(EdgeRef, Value<Quantity>)>,
    /// Where the whole allowance stands, if it is written.
    pub span: Option<Span>,
}

/// One layer of material cut to a piece's shape.
#[derive(Debug, Clone)]
pub struct Cut {
    /// `shell` unless the author named it.
    pub entry: Entry,
    /// The role or article it is cut from.
    pub material: Option<Spanned<String>>,
    /// Outside the sew line.
    pub allowance: Allowance,
    /// How far inside the sew line it is cut (fusibles); such a cut is not sewn by itself.
    pub inside: Option<Value<Quantity>>,
    /// How often per copy; 1 unless said.
    pub count: Option<Stated<u32>>,
    /// Cut oversize as a block of this width and height, worked, then cut to shape.
    pub block: Option<(Value<Quantity>, Value<Quantity>)>,
}

/// One piece.
#[derive(Debug, Clone)]
pub struct Piece {
    /// Id and name.
    pub entry: Entry,
    /// The part it belongs to.
    pub part: Option<Spanned<String>>,
    /// Copies within one use of the part; never empty.
    pub copies: Vec<Copy>,
    /// Where the copies are written.
    pub copies_span: Option<Span>,
    /// Its outline; by size if it differs.
    pub outline: Option<Value<OutlineSource>>,
    /// Layers by id; `shell` is the one that is sewn.
    pub cuts: Table<Cut>,
    /// What the cut line does at corners.
    pub corners: super::CornerStyles,
    /// Marks on the edge that meet marks of other pieces.
    pub notches: super::Notches,
    /// How darts are made.
    pub darts: Darts,
    /// Where that is written.
    pub darts_span: Option<Span>,
    /// Grain: from one named point to another.
    pub grain: Option<Spanned<(String, String)>>,
    /// The way the pile lies: from one named point to another.
    pub pile: Option<Spanned<(String, String)>>,
    /// Edges left raw, as paths of points.
    pub raw: Vec<super::RunRef>,
    /// A remark for the cutting room.
    pub note: Option<Stated<String>>,
}

impl Piece {
    /// Both ends of the grain line on an outline: the named points, else the line drawn.
    pub fn grain_line(&self, outline: &Outline) -> Option<(Point, Point)> {
        ends(&self.grain, outline).or(outline.grain)
    }

    /// From the first point to the second the pile lies: the named points, else the line drawn.
    pub fn pile_line(&self, outline: &Outline) -> Option<(Point, Point)> {
        ends(&self.pile, outline).or(outline.pile)
    }

    /// The direction along the fabric: of the grain, else of the pile; points named in the specification before lines
    /// drawn.
    pub fn along(&self, outline: &Outline) -> Option<Point> {
        let named = ends(&self.grain, outline).or_else(|| ends(&self.pile, outline));
        named.or(outline.grain).or(outline.pile).map(|(a, b)| b - a)
    }
}

fn ends(named: &Option<Spanned<(String, String)>>, outline: &Outline) -> Option<(Point, Point)> {
    let (a, b) = &named.as_ref()?.value;
    Some((outline.point(a)?, outline.point(b)?))
}

impl SvgSource {
    /// The name that the outline of a piece has in the file.
    pub fn name<'a>(&'a self, piece: &'a Piece) -> &'a str {
        self.id.as_deref().unwrap_or(&piece.entry.id.value)
    }
}

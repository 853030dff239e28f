//! How edges are named: points, edges of one piece, and chains over several.

use crate::geom::{self, Outline, RunError};
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

    /// The point of an outline that is meant, by its name there.
    pub fn on<'o>(&'o self, outline: &'o Outline) -> Option<&'o str> {
        let id = if self.image { outline.axis_images.get(&self.id)? } else { &self.id };
        outline.point(id).map(|_| id.as_str())
    }
}

/// An edge of one piece, named by neighbouring points in a row: `a-b-c`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EdgeRef {
    /// At least two points.
    pub points: Vec<PointRef>,
    /// Where it is written.
    pub span: Span,
}

/// Why an outline does not have an edge.
#[derive(Debug, Clone, PartialEq)]
pub enum NoEdge<'a> {
    /// It does not have this point.
    Point(&'a PointRef),
    /// Two points in a row are no neighbours.
    Run(RunError),
}

impl EdgeRef {
    /// As it is written, without spaces.
    pub fn text(&self) -> String {
        self.points.iter().map(PointRef::text).collect::<Vec<_>>().join("-")
    }

    /// The runs of an outline it goes along.
    ///
    /// # Errors
    /// A point that the outline does not have; two points that are no neighbours.
    pub fn along(&self, outline: &Outline) -> Result<Vec<geom::RunRef>, NoEdge<'_>> {
        let name = |point| PointRef::on(point, outline).map(str::to_string).ok_or(NoEdge::Point(point));
        let names = self.points.iter().map(name).collect::<Result<Vec<String>, _>>()?;
        let run = |pair: &[String]| outline.run_between(&pair[0], &pair[1]).map_err(NoEdge::Run);
        names.windows(2).map(run).collect()
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

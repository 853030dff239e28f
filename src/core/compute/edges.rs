//! Figures of edges: the allowance of each run, the style of each corner.

use serde::Serialize;

use crate::geom::{Corner, Worked};
use crate::model::Cut;
use crate::model::assembly::Origin;
use crate::model::assembly::{EdgeAllowance, PieceEdges};
use crate::words::say;

use super::number::small;
use super::reason::ALLOWANCE_OF;
use super::{Figure, Number};

/// The allowance of one run of an outline.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct EdgeFigures {
    /// The named point it starts from.
    pub from: String,
    /// The named point it ends at.
    pub to: String,
    /// Its allowance, mm.
    pub allowance: Figure<Number>,
    /// `own`, `all`, `bare` (raw or bound, and not sewn) or `missing`.
    pub origin: &'static str,
}

/// What the cut line does at one point.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CornerFigures {
    /// The named point.
    pub point: String,
    /// `mitre`, `round`, `square`, `step` or `fold back`.
    pub style: &'static str,
    /// Of a mitre: how far its tip lies from the corner at most, in allowances.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<Number>,
    /// Of a step or fold: the worked edge, `wider`, `before` or `after` the point.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub worked: Option<&'static str>,
}

/// The allowance of an edge of a cut, mm.
pub(super) fn allowance(edge: Option<&EdgeAllowance>, piece: &str, cut: &str) -> Figure<f64> {
    match edge {
        Some(EdgeAllowance { origin: Origin::Bare, .. }) => Figure::Known(0.0),
        _ => {
            let stated = edge.and_then(|edge| edge.stated.as_ref());
            Figure::stated(stated, say!(ALLOWANCE_OF, piece, cut)).map(|width| small(&width))
        }
    }
}

/// The allowances of one layer; none of one that is cut inside the sew line.
pub(super) fn edges(edges: Option<&PieceEdges>, piece: &str, id: &str, cut: &Cut) -> Vec<EdgeFigures> {
    let Some(edges) = edges.filter(|_| cut.inside.is_none()) else { return Vec::new() };
    let runs = edges.ends().into_iter().zip(edges.cuts.get(id).into_iter().flatten());
    let one = |((from, to), edge): ((&str, &str), &EdgeAllowance)| EdgeFigures {
        from: from.to_string(),
        to: to.to_string(),
        allowance: allowance(Some(edge), piece, id).then(Figure::number),
        origin: edge.origin.word(),
    };
    runs.map(one).collect()
}

/// The corners of a piece.
pub(super) fn corners(edges: Option<&PieceEdges>) -> Vec<CornerFigures> {
    let corner = |edges: &PieceEdges, point: &String| {
        let (style, limit, worked) = match edges.corners.style(Some(point)) {
            Corner::Mitre { limit } => ("mitre", Some(Number::new(limit)), None),
            Corner::Round => ("round", None, None),
            Corner::Square => ("square", None, None),
            Corner::Step(side) => ("step", None, Some(worked(side))),
            Corner::FoldBack(side) => ("fold back", None, Some(worked(side))),
        };
        CornerFigures { point: point.clone(), style, limit, worked }
    };
    edges.map_or(Vec::new(), |edges| edges.points.iter().map(|point| corner(edges, point)).collect())
}

fn worked(side: Worked) -> &'static str {
    match side {
        Worked::Wider => "wider",
        Worked::Before => "before",
        Worked::After => "after",
    }
}

//! The length of every edge on the sew line, also where the cut line is what was drawn.

use std::collections::BTreeMap;

use crate::geom::offset::{INNER, sew_line};
use crate::geom::{OffsetError, Outline, ShapeError, measure};
use crate::model::{Cut, Model, Piece, Side, Variant};

use super::{EdgeAllowance, Edges, Instance, Origin, Outlines, PieceEdges, Run, Scale};

/// Length of every run on the sew line, by piece and size, in mm.
#[derive(Debug, Clone, Default)]
pub struct Lengths {
    by: BTreeMap<String, BTreeMap<String, Vec<f64>>>,
}

impl Lengths {
    /// Measures every outline. Pieces whose sew line is not known, because the outline or the allowance of a drawn cut
    /// line is not, are left out.
    pub fn of(model: &Model, outlines: &Outlines, edges: &Edges) -> Lengths {
        let mut by = BTreeMap::new();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                let Ok(outline) = outlines.get(id, size) else { continue };
                let drawn = Drawn { piece, outline, size, scale: outlines.scale(id, size) };
                if let Some(found) = edges.get(id, size).and_then(|edges| drawn.lengths(edges)) {
                    sizes.insert(size.to_string(), found);
                }
            }
            by.insert(id.clone(), sizes);
        }
        Lengths { by }
    }

    /// Length of one run of a piece in a size.
    pub fn get(&self, piece: &str, size: &str, run: usize) -> Option<f64> {
        self.by.get(piece)?.get(size)?.get(run).copied()
    }

    /// Length of several runs together.
    pub fn sum(&self, instances: &[Instance], size: &str, runs: &[Run]) -> Option<f64> {
        runs.iter().map(|run| self.get(&instances[run.instance].piece, size, run.run)).sum()
    }
}

/// One outline of a piece, and how its size came about.
struct Drawn<'a> {
    piece: &'a Piece,
    outline: &'a Outline,
    size: &'a str,
    scale: Option<Scale>,
}

impl Drawn<'_> {
    fn lengths(&self, edges: &PieceEdges) -> Option<Vec<f64>> {
        let measured = |outline: &Outline| outline.runs().iter().map(|run| measure::length(&run.path())).collect();
        let variant = Variant { size: self.size, colourway: "" };
        if self.piece.outline.as_ref()?.known(variant)?.side == Side::SewLine {
            return Some(measured(self.outline));
        }
        let width = |edge: &EdgeAllowance| match edge.origin {
            Origin::Bare => Some(0.0),
            _ => edge.known().map(|(_, width)| width),
        };
        let cut = edges.cuts.get(&sewn_cut(self.piece)?.entry.id.value)?;
        let widths = cut.iter().map(width).collect::<Option<Vec<f64>>>()?;
        let sewn = sew_inside(self.outline, &widths, self.scale).ok()?;
        // Both lines must name their runs alike, or a length would be told of the wrong run.
        let same = sewn.points.iter().map(|one| &one.id).eq(self.outline.points.iter().map(|one| &one.id));
        same.then(|| measured(&sewn))
    }
}

/// Why there is no sew line inside a drawn cut line.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsewn {
    /// The allowance cannot be taken off.
    Offset(OffsetError),
    /// The scaled line is no outline.
    Shape(ShapeError),
}

/// The sew line inside a drawn cut line, its allowances in mm, one a run. A size is a scaled *sew* line, so it is found in
/// the drawn size and scaled then.
///
/// # Errors
/// See [`Unsewn`].
pub fn sew_inside(cut_line: &Outline, allowances: &[f64], scale: Option<Scale>) -> Result<Outline, Unsewn> {
    let line = |outline: &Outline| sew_line(outline, allowances, INNER).map_err(Unsewn::Offset);
    let Some(Scale { along, across, grain }) = scale else { return line(cut_line) };
    let drawn = cut_line.scaled(1.0 / along, 1.0 / across, grain).map_err(Unsewn::Shape)?;
    line(&drawn)?.scaled(along, across, grain).map_err(Unsewn::Shape)
}

/// The layer of a piece that is sewn: its shell, else the first that is not cut inside the sew line.
pub fn sewn_cut(piece: &Piece) -> Option<&Cut> {
    piece.cuts.get("shell").or_else(|| piece.cuts.values().find(|cut| cut.inside.is_none()))
}

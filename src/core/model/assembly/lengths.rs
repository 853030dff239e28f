use std::collections::BTreeMap;

use crate::geom::offset::sew_line;
use crate::geom::{Corner, Outline, measure};
use crate::model::{Cut, Model, Piece, Side, Variant};
use crate::source::Span;
use crate::units::Quantity;

use super::{Instance, Outlines, Run};

/// Mitre limit of the corner between two edges of a sew line inside a drawn cut line. Lengths do not depend on it:
/// only the cut line has corners that stick out.
const MITRE: f64 = 4.0;

/// Length of every run on the sew line, by piece and size, in mm.
#[derive(Debug, Clone, Default)]
pub struct Lengths {
    by: BTreeMap<String, BTreeMap<String, Vec<f64>>>,
}

impl Lengths {
    /// Measures every outline. Pieces whose sew line is not known, because the outline or the allowance of a drawn cut
    /// line is not, are left out.
    pub fn of(model: &Model, outlines: &Outlines) -> Lengths {
        let mut by = BTreeMap::new();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                if let Some(found) = outlines.get(id, size).ok().and_then(|outline| lengths(piece, outline, size)) {
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

fn lengths(piece: &Piece, outline: &Outline, size: &str) -> Option<Vec<f64>> {
    let measured = |outline: &Outline| outline.runs().iter().map(|run| measure::length(&run.path())).collect();
    let variant = Variant { size, colourway: "" };
    match piece.outline.as_ref()?.known(variant)?.side {
        Side::SewLine => Some(measured(outline)),
        Side::CutLine => {
            let cut = sewn_cut(piece)?;
            let widths: Option<Vec<f64>> =
                outline.runs().iter().map(|run| Some(allowance(cut, &run.from, &run.to, size)?.1)).collect();
            let sewn = sew_line(outline, &widths?, Corner::Mitre { limit: MITRE }).ok()?;
            // Both lines must name their runs alike, or a length would be told of the wrong run.
            let same = sewn.points.iter().map(|one| &one.id).eq(outline.points.iter().map(|one| &one.id));
            same.then(|| measured(&sewn))
        }
    }
}

/// The layer of a piece that is sewn: its shell, else the first that is not cut inside the sew line.
pub fn sewn_cut(piece: &Piece) -> Option<&Cut> {
    piece.cuts.get("shell").or_else(|| piece.cuts.values().find(|cut| cut.inside.is_none()))
}

/// The allowance of a cut on the run between two neighbouring points: where it is written, and mm. Its own if it has
/// one, by either direction of the run or as part of a longer row of points, else that of all runs.
pub fn allowance(cut: &Cut, from: &str, to: &str, size: &str) -> Option<(Span, f64)> {
    let variant = Variant { size, colourway: "" };
    let holds = |name: &str| {
        let points: Vec<&str> = name.split('-').map(str::trim).collect();
        points.windows(2).any(|pair| pair == [from, to] || pair == [to, from])
    };
    let own = cut.allowance.runs.iter().find(|(name, _)| holds(name)).map(|(_, (_, value))| value);
    let stated = own.or(cut.allowance.all.as_ref())?.of(variant)?;
    stated.known().map(|quantity: &Quantity| (stated.span, quantity.si_f64() * 1000.0))
}

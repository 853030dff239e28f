use std::collections::{BTreeMap, BTreeSet};

use crate::geom::offset::{INNER, sew_line};
use crate::geom::{OffsetError, Outline, ShapeError, measure};
use crate::model::{Cut, EdgeFinishKind, Model, Piece, Side, Variant};
use crate::source::Span;
use crate::units::Quantity;

use super::resolve::Found;
use super::{Instance, Outlines, Run, Scale, Sewing};

/// Length of every run on the sew line, by piece and size, in mm.
#[derive(Debug, Clone, Default)]
pub struct Lengths {
    by: BTreeMap<String, BTreeMap<String, Vec<f64>>>,
}

impl Lengths {
    /// Measures every outline. Pieces whose sew line is not known, because the outline or the allowance of a drawn cut
    /// line is not, are left out.
    pub fn of(model: &Model, outlines: &Outlines, instances: &[Instance], found: &Found, sewing: &Sewing) -> Lengths {
        let bare = bare(model, instances, found, sewing);
        let none = BTreeSet::new();
        let mut by = BTreeMap::new();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                let Ok(outline) = outlines.get(id, size) else { continue };
                let drawn = Drawn { piece, outline, size, scale: outlines.scale(id, size) };
                if let Some(found) = drawn.lengths(bare.get(id.as_str()).unwrap_or(&none)) {
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

/// Runs by piece that need no allowance where none is stated: left raw or bound, and not sewn.
fn bare<'a>(
    model: &Model,
    instances: &'a [Instance],
    found: &Found,
    sewing: &Sewing,
) -> BTreeMap<&'a str, BTreeSet<usize>> {
    let kind = |id: &str| model.edge_finishes.get(id).and_then(|finish| finish.kind.as_ref()).map(|kind| kind.value);
    let mut all: BTreeMap<&str, BTreeSet<usize>> = BTreeMap::new();
    for edging in found.edgings.iter().filter(|edging| !edging.joins) {
        // An edging of a piece's own name is its list of raw edges.
        let is_bare = matches!(kind(&edging.id), None | Some(EdgeFinishKind::Raw | EdgeFinishKind::Bound));
        for run in edging.side.runs.iter().filter(|_| is_bare) {
            all.entry(&instances[run.instance].piece).or_default().insert(run.run);
        }
    }
    for ((instance, run), account) in &sewing.accounts {
        if !account.joints.is_empty() || !account.attached.is_empty() {
            all.entry(&instances[*instance].piece).or_default().remove(run);
        }
    }
    all
}

/// One outline of a piece, and how its size came about.
struct Drawn<'a> {
    piece: &'a Piece,
    outline: &'a Outline,
    size: &'a str,
    scale: Option<Scale>,
}

impl Drawn<'_> {
    fn lengths(&self, bare: &BTreeSet<usize>) -> Option<Vec<f64>> {
        let measured = |outline: &Outline| outline.runs().iter().map(|run| measure::length(&run.path())).collect();
        let variant = Variant { size: self.size, colourway: "" };
        if self.piece.outline.as_ref()?.known(variant)?.side == Side::SewLine {
            return Some(measured(self.outline));
        }
        let cut = sewn_cut(self.piece)?;
        let width = |(n, run): (usize, &crate::geom::Run)| {
            let stated = allowance(cut, &run.from, &run.to, self.size).map(|(_, width)| width);
            stated.or(bare.contains(&n).then_some(0.0))
        };
        let widths = self.outline.runs().iter().enumerate().map(width).collect::<Option<Vec<f64>>>()?;
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

//! The edges of every piece in every size: which allowance each has, and what the cut line does at each corner. Keys are
//! looked up on the outlines here, once; everything else reads what is found.

mod lookup;

pub(super) use lookup::bare;

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Corners, Outline};
use crate::model::{Chain, Joint, Model, PathRef, SeamSide, Stated, Variant};
use crate::source::Span;
use crate::units::Quantity;

use super::lengths::sewn_cut;
use super::{Assembly, Outlines, Run, Trouble};
use lookup::On;

/// By which words an edge has its allowance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// By its own, or those of a longer edge it belongs to.
    Own,
    /// By those for all edges.
    All,
    /// It needs none: it is left raw or bound, and not sewn.
    Bare,
    /// Nothing is said.
    Missing,
}

impl Origin {
    /// The word of `figures.json`.
    pub fn word(self) -> &'static str {
        match self {
            Origin::Own => "own",
            Origin::All => "all",
            Origin::Bare => "bare",
            Origin::Missing => "missing",
        }
    }
}

/// The allowance of one run of an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeAllowance {
    /// By which words.
    pub origin: Origin,
    /// What they say in this size; nothing for a bare edge.
    pub stated: Option<Stated<Quantity>>,
}

impl EdgeAllowance {
    /// Where it is written, and mm, if it is known.
    pub fn known(&self) -> Option<(Span, f64)> {
        let stated = self.stated.as_ref()?;
        stated.known().map(|quantity| (stated.span, quantity.si_f64() * 1000.0))
    }
}

/// The edges of a piece in a size.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceEdges {
    /// The named points of the outline, anticlockwise; a run goes from each to the next.
    pub points: Vec<String>,
    /// By cut, the allowance of each run.
    pub cuts: BTreeMap<String, Vec<EdgeAllowance>>,
    /// What the cut line does at each corner, with the worked edge found.
    pub corners: Corners,
}

impl PieceEdges {
    /// Both ends of each run; a line without named points is one run without ends.
    pub fn ends(&self) -> Vec<(&str, &str)> {
        let next = self.points.iter().cycle().skip(1);
        let ends: Vec<(&str, &str)> = self.points.iter().zip(next).map(|(a, b)| (a.as_str(), b.as_str())).collect();
        if ends.is_empty() { vec![("", "")] } else { ends }
    }

    /// The allowance of a cut between two neighbouring points, named in either order.
    pub fn between(&self, cut: &str, a: &str, b: &str) -> Option<&EdgeAllowance> {
        let ends = self.ends();
        let run = |from: &str, to: &str| ends.iter().position(|ends| *ends == (from, to));
        self.cuts.get(cut)?.get(run(a, b).or_else(|| run(b, a))?)
    }

    /// The allowances of a cut on the runs of a line with the same points, wherever its first run begins.
    pub fn on(&self, cut: &str, line: &Outline) -> Vec<Option<&EdgeAllowance>> {
        if line.points.is_empty() {
            return vec![self.between(cut, "", "")];
        }
        let ends = line.points.iter().zip(line.points.iter().cycle().skip(1));
        ends.map(|(from, to)| self.between(cut, &from.id, &to.id)).collect()
    }
}

/// The edges of every piece that has an outline, by piece and size.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Edges {
    by: BTreeMap<String, BTreeMap<String, PieceEdges>>,
}

impl Edges {
    /// Looks every allowance and corner up on the outlines. What names a point or edge that is not there, or one edge
    /// twice, is a trouble.
    pub(super) fn of(
        model: &Model,
        outlines: &Outlines,
        bare: &BTreeSet<(&str, &str, &str)>,
        troubles: &mut Vec<Trouble>,
    ) -> Edges {
        let mut by = BTreeMap::new();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            let mut told = BTreeSet::new();
            for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                let Ok(outline) = outlines.get(id, size) else { continue };
                let on = On { id, piece, outline, size };
                let found = on.troubles();
                troubles.extend(found.into_iter().filter(|one| told.insert((one.span, one.message.clone()))));
                sizes.insert(size.to_string(), on.edges(bare));
            }
            by.insert(id.clone(), sizes);
        }
        Edges { by }
    }

    /// The edges of a piece in a size; none where its outline is not known.
    pub fn get(&self, piece: &str, size: &str) -> Option<&PieceEdges> {
        self.by.get(piece)?.get(size)
    }

    /// The edges of a piece in every size with an outline.
    pub fn sizes(&self, piece: &str) -> impl Iterator<Item = &PieceEdges> {
        self.by.get(piece).into_iter().flat_map(BTreeMap::values)
    }
}

impl Assembly {
    /// The allowance of a run of the layer that is sewn.
    pub fn allowance(&self, model: &Model, run: &Run, size: &str) -> Option<&EdgeAllowance> {
        let id = &self.instances.get(run.instance)?.piece;
        let cut = sewn_cut(model.pieces.get(id)?)?;
        let (from, to) = Run { forward: true, ..*run }.ends(&self.outlines, &self.instances)?;
        self.edges.get(id, size)?.between(&cut.entry.id.value, from, to)
    }

    /// What is stated of the allowance along one side of a seam, in the order of its edges. Where the seam could not be
    /// found, since an outline is the factory's to make, it is what is written for all edges of each such piece.
    pub fn allowances<'a>(
        &'a self,
        model: &'a Model,
        joint: &'a Joint,
        side: SeamSide,
        size: &str,
    ) -> Vec<&'a Stated<Quantity>> {
        let found = self.joints.iter().filter(|one| one.joint == joint.entry.id.value).map(|one| match side {
            SeamSide::A => &one.a,
            SeamSide::B => &one.b,
        });
        let runs: Vec<&Run> = found.flat_map(|side| &side.runs).collect();
        if !runs.is_empty() {
            let stated = |run| self.allowance(model, run, size)?.stated.as_ref();
            return runs.into_iter().filter_map(stated).collect();
        }
        let written = match side {
            SeamSide::A => &joint.a,
            SeamSide::B => &joint.b,
        };
        written.iter().flat_map(|chain| self.written(model, chain, size)).collect()
    }

    /// The same for a chain as it is written, piece by piece.
    fn written<'a>(&'a self, model: &'a Model, chain: &'a Chain, size: &str) -> Vec<&'a Stated<Quantity>> {
        let mut all = Vec::new();
        for run in &chain.runs {
            let Some(cut) = model.pieces.get(&run.piece).and_then(sewn_cut) else { continue };
            match (self.outlines.get(&run.piece, size), self.edges.get(&run.piece, size), &run.path) {
                (Ok(outline), Some(edges), PathRef::Points(points)) => {
                    let names: Vec<&str> = points.iter().filter_map(|point| point.on(outline)).collect();
                    let found =
                        names.windows(2).filter_map(|pair| edges.between(&cut.entry.id.value, pair[0], pair[1]));
                    all.extend(found.filter_map(|edge| edge.stated.as_ref()));
                }
                _ if cut.allowance.edges.is_empty() => {
                    let value = cut.allowance.all.as_ref();
                    all.extend(value.and_then(|value| value.of(Variant { size, colourway: "" })));
                }
                _ => {}
            }
        }
        all
    }
}

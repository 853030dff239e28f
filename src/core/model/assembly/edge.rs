//! What is known of the edges of a piece in a size: the allowance of each, and the corners between them.

use std::collections::BTreeMap;

use crate::geom::{Corners, Outline};
use crate::model::Stated;
use crate::source::Span;
use crate::units::Quantity;

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
    /// Edges by piece and size.
    pub(super) fn new(by: BTreeMap<String, BTreeMap<String, PieceEdges>>) -> Self {
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

//! The edges of every piece in every size: which allowance each has, and what the cut line does at each corner. Keys are
//! looked up on the outlines here, once; everything else reads what is found.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Corner, Corners, Outline, Worked};
use crate::model::{
    Chain, CornerStyle, Cut, EdgeRef, FinishKind, Joint, Model, NoEdge, NotchPlace, PathRef, Piece, PointRef, SeamSide,
    Stated, Value, Variant,
};
use crate::source::Span;
use crate::units::Quantity;

use super::finder::nearest;
use super::lengths::sewn_cut;
use super::resolve::Found;
use super::{Assembly, Instance, Outlines, Run, Sewing, Trouble, TroubleKind};

/// By which words an edge has its allowance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Given {
    /// By its own, or those of a longer edge it belongs to.
    Own,
    /// By those for all edges.
    All,
    /// It needs none: it is left raw or bound, and not sewn.
    Bare,
    /// Nothing is said.
    Missing,
}

impl Given {
    /// The word of `figures.json`.
    pub fn word(self) -> &'static str {
        match self {
            Given::Own => "own",
            Given::All => "all",
            Given::Bare => "bare",
            Given::Missing => "missing",
        }
    }
}

/// The allowance of one run of an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeAllowance {
    /// By which words.
    pub given: Given,
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
    /// The allowance of a cut between two neighbouring points, named in either order.
    pub fn between(&self, cut: &str, a: &str, b: &str) -> Option<&EdgeAllowance> {
        let next = |at: usize| self.points.get((at + 1) % self.points.len()).map(String::as_str);
        let same = |(at, from): (usize, &String)| match next(at) {
            Some(to) => (from == a && to == b) || (from == b && to == a),
            None => false,
        };
        let run = self.points.iter().enumerate().position(same)?;
        self.cuts.get(cut)?.get(run)
    }

    /// The allowances of a cut on the runs of a line with the same points, wherever its first run begins.
    pub fn on<'a>(&'a self, cut: &str, line: &'a Outline) -> Vec<Option<&'a EdgeAllowance>> {
        if line.points.is_empty() {
            return vec![self.cuts.get(cut).and_then(|all| all.first())];
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
                troubles.extend(found.into_iter().filter(|trouble| told.insert(trouble.span)));
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
        let (from, to) = run.ends(&self.outlines, &self.instances)?;
        self.edges.get(id, size)?.between(&cut.entry.id.value, from, to)
    }

    /// What is stated of the allowance along one side of a seam, in the order of its edges. Where the seam could not be
    /// found, since an outline is the factory's to make, it is what is written for all edges of each such piece.
    pub fn allowances<'a>(&'a self, model: &'a Model, joint: &'a Joint, side: SeamSide, size: &str) -> Vec<&'a Stated<Quantity>> {
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
                    let found = names.windows(2).filter_map(|pair| edges.between(&cut.entry.id.value, pair[0], pair[1]));
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

/// Edges that need no allowance where none is written for them alone, by piece and points: left raw or bound, and not
/// sewn.
pub(super) fn bare<'a>(
    model: &Model,
    outlines: &'a Outlines,
    instances: &'a [Instance],
    found: &Found,
    sewing: &Sewing,
) -> BTreeSet<(&'a str, &'a str, &'a str)> {
    let is_bare = |id: &str, piece: &str| match model.finishes.get(id).and_then(|finish| finish.kind.as_ref()) {
        Some(kind) => matches!(kind.value, FinishKind::Raw | FinishKind::Bound),
        // An edging of the piece's own name is its list of raw edges.
        None => id == piece,
    };
    let named = |instance: usize, run: usize| {
        let piece = instances.get(instance)?.piece.as_str();
        let (from, to) = Run { instance, run, forward: true }.ends(outlines, instances)?;
        Some((piece, from, to))
    };
    let mut all = BTreeSet::new();
    for edging in found.edgings.iter().filter(|edging| !edging.joins) {
        let runs = edging.side.runs.iter().filter_map(|run| named(run.instance, run.run));
        all.extend(runs.filter(|(piece, ..)| is_bare(&edging.id, piece)));
    }
    // A bound edge that is sewn as well needs its allowance.
    let sewn = sewing.accounts.iter().filter(|(_, account)| !account.joints.is_empty() || !account.attached.is_empty());
    for edge in sewn.filter_map(|((instance, run), _)| named(*instance, *run)) {
        all.remove(&edge);
    }
    all
}

/// A piece on its outline in one size.
struct On<'a> {
    id: &'a str,
    piece: &'a Piece,
    outline: &'a Outline,
    size: &'a str,
}

impl On<'_> {
    fn edges(&self, bare: &BTreeSet<(&str, &str, &str)>) -> PieceEdges {
        let points = self.outline.names();
        let ends = points.iter().zip(points.iter().cycle().skip(1));
        let bare: Vec<bool> = ends.map(|(from, to)| bare.contains(&(self.id, from.as_str(), to.as_str()))).collect();
        let cuts = self.piece.cuts.iter().map(|(id, cut)| (id.clone(), self.allowances(cut, &bare))).collect();
        PieceEdges { cuts, corners: self.corners(), points }
    }

    /// One allowance a run: its own, none for a bare edge, else the one for all.
    fn allowances(&self, cut: &Cut, bare: &[bool]) -> Vec<EdgeAllowance> {
        let mut own: BTreeMap<usize, &Value<Quantity>> = BTreeMap::new();
        for (edge, value) in &cut.allowance.edges {
            for run in edge.along(self.outline).unwrap_or_default() {
                own.entry(run.index).or_insert(value);
            }
        }
        let variant = Variant { size: self.size, colourway: "" };
        let one = |run: usize| {
            let (given, value) = match (own.get(&run), &cut.allowance.all) {
                (Some(value), _) => (Given::Own, Some(*value)),
                _ if bare.get(run) == Some(&true) => (Given::Bare, None),
                (None, Some(value)) => (Given::All, Some(value)),
                (None, None) => (Given::Missing, None),
            };
            EdgeAllowance { given, stated: value.and_then(|value| value.of(variant)).cloned() }
        };
        (0..self.outline.points.len().max(1)).map(one).collect()
    }

    fn corners(&self) -> Corners {
        let written = &self.piece.corners;
        let mut corners = Corners::default();
        corners.all = written.all.as_ref().map_or(corners.all, |style| style.corner);
        for (point, style) in &written.at {
            if let Some(id) = point.on(self.outline) {
                corners.at.insert(id.to_string(), self.worked(id, style));
            }
        }
        corners
    }

    /// The style with the edge it names found: before or after the point, anticlockwise.
    fn worked(&self, id: &str, style: &CornerStyle) -> Corner {
        let Some(edge) = &style.edge else { return style.corner };
        let Some(run) = edge.along(self.outline).ok().and_then(|runs| runs.first().copied()) else {
            return style.corner;
        };
        let begins = self.outline.points.get(run.index).is_some_and(|point| point.id == id);
        let side = if begins { Worked::After } else { Worked::Before };
        match style.corner {
            Corner::Step(_) => Corner::Step(side),
            Corner::FoldBack(_) => Corner::FoldBack(side),
            other => other,
        }
    }

    /// What is written and not on this outline, and what is written twice.
    fn troubles(&self) -> Vec<Trouble> {
        let mut all = Vec::new();
        for (key, ends) in [("grain", &self.piece.grain), ("pile", &self.piece.pile)] {
            let Some(ends) = ends else { continue };
            let points = [&ends.value.0, &ends.value.1].into_iter();
            let missing = points.filter(|point| self.outline.point(point).is_none());
            all.extend(missing.map(|point| self.no_point(key, point, ends.span)));
        }
        let mut styled = BTreeMap::new();
        for (point, style) in &self.piece.corners.at {
            self.point("corner", point, &mut all);
            style.edge.iter().for_each(|edge| self.edge("corner", edge, &mut all));
            if let Some(id) = point.on(self.outline).filter(|id| styled.insert(id.to_string(), ()).is_some()) {
                all.push(twice(format!("{} has two styles for the corner {id}", self.id), point.span));
            }
        }
        for notch in &self.piece.notches.list {
            match &notch.place {
                NotchPlace::Point(point) => self.point("notch", point, &mut all),
                NotchPlace::Along { edge, .. } => self.edge("notch", edge, &mut all),
            }
        }
        self.piece.cuts.values().for_each(|cut| self.cut(cut, &mut all));
        all
    }

    fn cut(&self, cut: &Cut, all: &mut Vec<Trouble>) {
        let mut seen = BTreeSet::new();
        for (edge, _) in &cut.allowance.edges {
            self.edge("allowance", edge, all);
            let runs = edge.along(self.outline).unwrap_or_default();
            let again = runs.iter().find(|run| !seen.insert(run.index)).map(|run| run.index);
            let ends = again.and_then(|run| self.outline.runs().get(run).map(crate::geom::Run::ends));
            if let Some((from, to)) = ends {
                all.push(twice(format!("{} has two allowances for the edge {from}-{to}", self.id), edge.span));
            }
        }
    }

    fn point(&self, key: &str, point: &PointRef, all: &mut Vec<Trouble>) {
        if point.on(self.outline).is_none() {
            all.push(self.no_point(key, &point.text(), point.span));
        }
    }

    fn edge(&self, key: &str, edge: &EdgeRef, all: &mut Vec<Trouble>) {
        match edge.along(self.outline) {
            Ok(_) => {}
            Err(NoEdge::Point(point)) => self.point(key, point, all),
            Err(NoEdge::Run(error)) => all.push(Trouble {
                kind: TroubleKind::Unclear,
                message: format!("the {key} of piece {} names the edge {}: {error}", self.id, edge.text()),
                span: edge.span,
                label: "an edge goes from a point to its neighbour".into(),
                help: None,
            }),
        }
    }

    fn no_point(&self, key: &str, point: &str, span: Span) -> Trouble {
        let names = self.outline.names();
        let help = match nearest(point, names.iter()) {
            Some(near) if names.len() > 8 => format!("write `{near}`"),
            _ => format!("its points are {}", names.join(", ")),
        };
        Trouble {
            kind: TroubleKind::Unknown,
            message: format!("the {key} of piece {} names the point `{point}`, which its outline does not have", self.id),
            span,
            label: "no such point".into(),
            help: Some(help),
        }
    }
}

fn twice(message: String, span: Span) -> Trouble {
    let help = Some("write one of the two".into());
    Trouble { kind: TroubleKind::Unclear, message, span, label: "the second".into(), help }
}

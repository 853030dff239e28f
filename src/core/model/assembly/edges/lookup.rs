//! What the keys of a piece name on one of its outlines, and what they name in vain.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Corner, Corners, Outline, Worked};
use crate::model::{
    CornerStyle, Cut, EdgeFinishKind, EdgeRef, Model, NoEdge, NotchPlace, Piece, PointRef, Value, Variant,
};
use crate::source::{Span, nearest};
use crate::units::Quantity;
use crate::words::{Phrase, say, words};

use super::super::edge::{EdgeAllowance, Origin, PieceEdges};
use super::super::resolve::Found;
use super::super::{Instance, Outlines, Run, Sewing, Trouble, TroubleKind, shape};

words! {
    TWO_STYLES "lookup.two-styles" = "{piece} has two styles for the corner {point}";
    TWO_ALLOWANCES "lookup.two-allowances" = "{piece} has two allowances for the edge {edge}";
    NAMES_EDGE "lookup.names-edge" = "the {key} of piece {piece} names the edge {edge}: {why}";
    NAMES_POINT "lookup.names-point" = "the {key} of piece {piece} names the point `{point}`, which its outline does not have";
    TO_NEIGHBOUR "lookup.to-neighbour" = "an edge goes from a point to its neighbour";
    WRITE "lookup.write" = "write `{point}`";
    POINTS "lookup.points" = "its points are {points}";
    NO_POINT "lookup.no-point" = "no such point";
    ONE_OF_TWO "lookup.one-of-two" = "write one of the two";
    SECOND "lookup.second" = "the second";
}

/// Edges that need no allowance where none is written for them alone, by piece and points: left raw or bound, and not
/// sewn.
pub fn bare<'a>(
    model: &Model,
    outlines: &'a Outlines,
    instances: &'a [Instance],
    found: &Found,
    sewing: &Sewing,
) -> BTreeSet<(&'a str, &'a str, &'a str)> {
    let is_bare = |id: &str, piece: &str| match model.edge_finishes.get(id).and_then(|finish| finish.kind.as_ref()) {
        Some(kind) => matches!(kind.value, EdgeFinishKind::Raw | EdgeFinishKind::Bound),
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
pub(super) struct On<'a> {
    pub id: &'a str,
    pub piece: &'a Piece,
    pub outline: &'a Outline,
    pub size: &'a str,
}

impl On<'_> {
    /// Every allowance and corner.
    pub fn edges(&self, bare: &BTreeSet<(&str, &str, &str)>) -> PieceEdges {
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
            let (origin, value) = match (own.get(&run), &cut.allowance.all) {
                (Some(value), _) => (Origin::Own, Some(*value)),
                _ if bare.get(run) == Some(&true) => (Origin::Bare, None),
                (None, Some(value)) => (Origin::All, Some(value)),
                (None, None) => (Origin::Missing, None),
            };
            EdgeAllowance { origin, stated: value.and_then(|value| value.of(variant)).cloned() }
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
    pub fn troubles(&self) -> Vec<Trouble> {
        let mut all = Vec::new();
        for (key, ends) in [("grain", &self.piece.grain), ("pile", &self.piece.pile)] {
            let Some(ends) = ends else { continue };
            let points = [&ends.value.0, &ends.value.1].into_iter();
            let missing = points.filter(|point| self.outline.point(point).is_none());
            all.extend(missing.map(|point| self.no_point(key, point, ends.span)));
        }
        let mut styled = BTreeSet::new();
        for (point, style) in &self.piece.corners.at {
            self.point("corner", point, &mut all);
            style.edge.iter().for_each(|edge| self.edge("corner", edge, &mut all));
            if let Some(id) = point.on(self.outline).filter(|id| !styled.insert((*id).to_string())) {
                all.push(twice(say!(TWO_STYLES, piece = self.id, point = id), point.span));
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
                all.push(twice(say!(TWO_ALLOWANCES, piece = self.id, edge = format!("{from}-{to}")), edge.span));
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
                message: say!(NAMES_EDGE, key, piece = self.id, edge = edge.text(), why = shape::run(&error)),
                span: edge.span,
                label: TO_NEIGHBOUR.into(),
                help: None,
            }),
        }
    }

    fn no_point(&self, key: &str, point: &str, span: Span) -> Trouble {
        let names = self.outline.names();
        let help = match nearest(point, names.iter().map(String::as_str)) {
            Some(near) if names.len() > 8 => say!(WRITE, point = near),
            _ => say!(POINTS, points = Phrase::list(&names)),
        };
        Trouble {
            kind: TroubleKind::Unknown,
            message: say!(NAMES_POINT, key, piece = self.id, point),
            span,
            label: NO_POINT.into(),
            help: Some(help.into()),
        }
    }
}

fn twice(message: Phrase, span: Span) -> Trouble {
    let help = Some(Phrase::from(ONE_OF_TWO).into());
    Trouble { kind: TroubleKind::Unclear, message, span, label: SECOND.into(), help }
}

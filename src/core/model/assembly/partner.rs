//! Shapes that are as long as edges of others: in which order they are made, and how long that is.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::Outline;
use crate::model::{
    Extent, Follow, Model, OutlineSource, PathRef, Piece, PointRef, RunRef, ShapeSource, Side, Value, Variant,
};
use crate::source::Span;
use crate::units::{Dimension, Quantity};
use crate::words::{Phrase, say, words};

use super::gap::Gap;
use super::outlines::Outlines;
use super::shape;

words! {
    CIRCLE "follow.circle" = "lengths follow each other in a circle: {way}";
    FOLLOWS "follow.follows" = "{piece} follows {other}";
    CUT_LINE "follow.cut-line" = "only a sew line can follow an edge: write is = \"sew line\"";
    NO_PIECE "follow.no-piece" = "there is no piece {piece}";
    DRAWN_CUT "follow.drawn-cut" = "the cut line of {piece} is drawn: an edge of its sew line is needed to follow";
    NO_OUTLINE "follow.no-outline" = "{piece} has no outline that can be followed";
    INSIDE "follow.inside" = "a line inside a piece cannot be followed";
    NO_POINT "follow.no-point" = "{piece} has no point {point}";
    NO_EDGE "follow.no-edge" = "{piece}: {why}";
}

/// Pieces in an order in which each stands behind those it follows; and those that follow themselves in a circle, which
/// cannot be made, with the reason.
pub(super) fn order(model: &Model) -> (Vec<&str>, BTreeMap<&str, (Span, Phrase)>) {
    let mut order: Vec<&str> = Vec::new();
    let mut done: BTreeSet<&str> = BTreeSet::new();
    let mut rest: Vec<(&str, Vec<&Follow>)> =
        model.pieces.iter().map(|(id, piece)| (id.as_str(), follows(piece))).collect();
    let mut circles = BTreeMap::new();
    while !rest.is_empty() {
        let waits = |(_, follows): &(&str, Vec<&Follow>), done: &BTreeSet<&str>| {
            follows.iter().flat_map(|one| partners(one)).any(|id| model.pieces.contains_key(id) && !done.contains(id))
        };
        let (waiting, ready): (Vec<_>, Vec<_>) = rest.into_iter().partition(|one| waits(one, &done));
        if ready.is_empty() {
            for (id, follows) in &waiting {
                circles.extend(circle(id, follows, &waiting).map(|why| (*id, why)));
            }
            // What follows a circle is made after it, and finds that it has no outline.
            let (inside, behind): (Vec<_>, Vec<_>) = waiting.into_iter().partition(|(id, _)| circles.contains_key(id));
            done.extend(inside.iter().map(|(id, _)| *id));
            order.extend(inside.iter().map(|(id, _)| *id));
            rest = behind;
            continue;
        }
        done.extend(ready.iter().map(|(id, _)| *id));
        order.extend(ready.iter().map(|(id, _)| *id));
        rest = waiting;
    }
    (order, circles)
}

/// Every edge a piece follows, in any size.
fn follows(piece: &Piece) -> Vec<&Follow> {
    let sources = piece.outline.iter().flat_map(Value::all).filter_map(|stated| stated.known());
    let extents = sources.flat_map(|source| lengths(&source.shape)).flat_map(Value::all);
    let follow = |extent: &'_ Extent| matches!(extent, Extent::Along(_));
    let known = extents.filter_map(|stated| stated.known()).filter(|extent| follow(extent));
    known.filter_map(|extent| if let Extent::Along(follow) = extent { Some(follow) } else { None }).collect()
}

fn partners(follow: &Follow) -> impl Iterator<Item = &str> {
    follow.chain.runs.iter().map(|run| run.piece.as_str())
}

/// Whether a piece reaches itself by following, and by which way.
fn circle(id: &str, own: &[&Follow], waiting: &[(&str, Vec<&Follow>)]) -> Option<(Span, Phrase)> {
    let next = |from: &str| waiting.iter().find(|(one, _)| *one == from).map(|(_, follows)| follows.as_slice());
    let mut open: Vec<Vec<&str>> = vec![vec![id]];
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    while let Some(way) = open.pop() {
        for partner in next(way.last()?).into_iter().flatten().flat_map(|follow| partners(follow)) {
            if partner == id {
                let way = way.iter().copied().chain([id]).map(Phrase::from);
                let way = way.reduce(|piece, other| say!(FOLLOWS, piece, other)).unwrap_or_default();
                return own.first().map(|follow| (follow.span, say!(CIRCLE, way)));
            }
            if seen.insert(partner) {
                open.push(way.iter().copied().chain([partner]).collect());
            }
        }
    }
    None
}

/// The length of the edges a shape follows, on their sew lines in a size, with what is added; mm.
pub(super) fn length(
    model: &Model,
    made: &Outlines,
    own: &OutlineSource,
    follow: &Follow,
    size: &str,
) -> Result<f64, Gap> {
    let defect = |message: Phrase| Gap::defect(follow.span, message);
    if own.side == Side::CutLine {
        return Err(defect(CUT_LINE.into()));
    }
    let mut whole = 0.0;
    for run in &follow.chain.runs {
        let piece = model.pieces.get(&run.piece).ok_or_else(|| defect(say!(NO_PIECE, piece = &run.piece)))?;
        let variant = Variant { size, colourway: "" };
        let source = piece.outline.as_ref().and_then(|value| value.known(variant));
        if source.is_some_and(|source| source.side == Side::CutLine) {
            return Err(defect(say!(DRAWN_CUT, piece = &run.piece)));
        }
        let outline = made.get(&run.piece, size).map_err(|gap| match gap {
            Gap::Defect { .. } | Gap::Unread | Gap::Missing => defect(say!(NO_OUTLINE, piece = &run.piece)),
            other => other.clone(),
        })?;
        whole += row(outline, run).map_err(defect)?;
    }
    match &follow.more {
        None => Ok(whole),
        Some((less, more)) => Ok(added(whole, *less, more)),
    }
}

fn added(whole: f64, less: bool, more: &Quantity) -> f64 {
    let amount = match more.dimension() {
        Dimension::Percent => whole * more.si_f64(),
        _ => more.si_f64() * 1000.0,
    };
    if less { whole - amount } else { whole + amount }
}

/// Length of a row of runs of an outline, mm.
fn row(outline: &Outline, run: &RunRef) -> Result<f64, Phrase> {
    let PathRef::Points(points) = &run.path else { return Err(INSIDE.into()) };
    let name = |point: &PointRef| {
        let id = if point.image { outline.axis_images.get(&point.id) } else { Some(&point.id) };
        id.cloned().ok_or_else(|| say!(NO_POINT, piece = &run.piece, point = point.text()))
    };
    let names = points.iter().map(name).collect::<Result<Vec<String>, Phrase>>()?;
    let mut whole = 0.0;
    for pair in names.windows(2) {
        let [a, b] = pair else { continue };
        let found =
            outline.run_between(a, b).map_err(|error| say!(NO_EDGE, piece = &run.piece, why = shape::run(&error)))?;
        whole += outline.length_of(found.index);
    }
    Ok(whole)
}

/// The lengths of a shape that may follow others.
pub(super) fn lengths(shape: &ShapeSource) -> Vec<&Value<Extent>> {
    match shape {
        ShapeSource::Rectangle { width, height } | ShapeSource::Ellipse { width, height } => vec![width, height],
        ShapeSource::RoundedRectangle { width, height, radius } => vec![width, height, radius],
        ShapeSource::Circle { extent, .. } => vec![extent],
        ShapeSource::Gore { diameter, .. } => vec![diameter],
        _ => Vec::new(),
    }
}

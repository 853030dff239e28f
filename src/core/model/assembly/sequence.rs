//! The order in which added points are placed: each after those that its edge ends at, in whatever order they are written.

use std::collections::BTreeSet;

use crate::geom::Outline;
use crate::model::PlacedPoint;
use crate::source::Span;
use crate::words::{Phrase, say, words};

use super::gap::{Fault, Gap};

words! {
    CIRCLE "sequence.circle" = "the points {points} refer to each other in a circle: {edges}";
    ITSELF "sequence.itself" = "the point {point} refers to itself: {edge}";
    LIES "sequence.lies" = "{point} lies on {edge}";
}

/// The points in an order in which they can be placed on what is drawn.
pub(super) fn placeable<'a>(drawn: &Outline, points: &'a [PlacedPoint]) -> Result<Vec<&'a PlacedPoint>, Gap> {
    let mut waiting: Vec<&PlacedPoint> = points.iter().collect();
    let mut sorted = Vec::new();
    while !waiting.is_empty() {
        // A point that is drawn as well is refused where it is placed, and one that nothing names where it is looked for.
        let open: BTreeSet<&str> = waiting.iter().map(|point| point.id.value.as_str()).collect();
        let waits = |end: &str| open.contains(end) && drawn.point(end).is_none();
        let (later, ready): (Vec<&PlacedPoint>, Vec<&PlacedPoint>) =
            waiting.iter().partition(|point| ends(point).iter().any(|end| waits(end)));
        if let ([], Some(first)) = (ready.as_slice(), later.first()) {
            return Err(circle(first, &later, waits));
        }
        sorted.extend(ready);
        waiting = later;
    }
    Ok(sorted)
}

/// Those that keep their distance in a size, and those that are scaled with what is drawn. A point on an edge that ends at one
/// that keeps its distance keeps its own. Both in the order in which they can be placed.
pub(super) fn kept<'a>(sorted: Vec<&'a PlacedPoint>, size: &str) -> (Vec<&'a PlacedPoint>, Vec<&'a PlacedPoint>) {
    let mut names: BTreeSet<String> = BTreeSet::new();
    sorted.into_iter().partition(|point| {
        let own = point.fixed || point.at.by.contains_key(size);
        let kept = own || ends(point).iter().any(|end| names.contains(*end));
        if kept {
            names.insert(point.id.value.clone());
        }
        kept
    })
}

fn ends(point: &PlacedPoint) -> [&str; 2] {
    [&point.edge.0, &point.edge.1]
}

/// A circle among points that all wait for another.
fn circle(first: &PlacedPoint, waiting: &[&PlacedPoint], waits: impl Fn(&str) -> bool) -> Gap {
    let next = |point: &PlacedPoint| {
        let end = ends(point).into_iter().find(|end| waits(end))?;
        waiting.iter().find(|other| other.id.value == end).copied()
    };
    let mut way = vec![first];
    let mut start = 0;
    while let Some(point) = way.last().and_then(|last| next(last)) {
        if let Some(seen) = way.iter().position(|one| one.id.value == point.id.value) {
            start = seen;
            break;
        }
        way.push(point);
    }
    let way = way.split_off(start);
    let lies =
        |point: &&PlacedPoint| say!(LIES, point = &point.id.value, edge = format!("{}-{}", point.edge.0, point.edge.1));
    let edges = Phrase::list(way.iter().map(lies));
    let message = match way.as_slice() {
        [point] => say!(ITSELF, point = &point.id.value, edge = edges),
        _ => say!(CIRCLE, points = Phrase::and(way.iter().map(|point| point.id.value.clone())), edges),
    };
    let mut places: Vec<(Span, Phrase)> = way.iter().map(|point| (point.id.span, lies(point))).collect();
    let (span, _) = places.remove(0);
    Gap::Defect { span, message, fault: Fault::Circle, also: places }
}

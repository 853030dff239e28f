//! Points placed along the edges of a shape.

use crate::geom::{Outline, Place};
use crate::model::{PlacedPoint, Variant};
use crate::units::Dimension;
use crate::words::{Phrase, say, words};

use super::gap::Gap;
use super::shape;

words! {
    OUTSIDE "point.outside" = "`{point}` lies {asked} mm along {edge}, which is {length} mm long";
}

/// Places the extra points, in an order in which they can be placed. Each edge is measured as drawn, however many points lie
/// on it.
pub(super) fn place(drawn: Outline, points: &[&PlacedPoint], variant: Variant<'_>) -> Result<Outline, Gap> {
    let mut outline = drawn;
    let mut rest: Vec<&PlacedPoint> = points.to_vec();
    let mut passed: Vec<&PlacedPoint> = Vec::new();
    while let Some(first) = rest.first() {
        let edge = first.edge.clone();
        let (along, later): (Vec<&PlacedPoint>, _) = rest.into_iter().partition(|point| same_edge(&point.edge, &edge));
        outline = if outline.run_between(&edge.0, &edge.1).is_ok() {
            place_along(outline, &edge, &along, variant)?
        } else {
            place_fixed(outline, &along, &passed, variant)?
        };
        passed.extend(along);
        rest = later;
    }
    Ok(outline)
}

fn same_edge(one: &(String, String), other: &(String, String)) -> bool {
    one == other || (one.0 == other.1 && one.1 == other.0)
}

/// Places the points of one edge, the farthest from its first end first, so that its first end stays a neighbour.
fn place_along(
    mut outline: Outline,
    edge: &(String, String),
    points: &[&PlacedPoint],
    variant: Variant<'_>,
) -> Result<Outline, Gap> {
    let length = outline.run_between(&edge.0, &edge.1).map(|run| outline.length_of(run.index)).ok();
    let mut placed = Vec::new();
    for point in points {
        let quantity = point.at.of(variant).ok_or(Gap::NoSize)?.known().ok_or(Gap::Withheld)?;
        let asked = match quantity.dimension() {
            Dimension::Percent => quantity.si_f64() * length.unwrap_or(0.0),
            _ => quantity.si_f64() * 1000.0,
        };
        let from_first = if point.edge == *edge { asked } else { length.unwrap_or(0.0) - asked };
        placed.push((from_first, point));
    }
    placed.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut to = edge.1.as_str();
    for (at, point) in placed {
        outline = outline
            .with_point(&point.id.value, &edge.0, to, Place::Distance(at))
            .map_err(|error| Gap::shape(point.id.span, &error))?;
        to = &point.id.value;
    }
    Ok(outline)
}

/// Places the points whose distance holds in this size, on the outline of the size. Points placed before may lie on
/// their edges: an edge is still measured from end to end.
pub(super) fn place_fixed(
    sized: Outline,
    points: &[&PlacedPoint],
    others: &[&PlacedPoint],
    variant: Variant<'_>,
) -> Result<Outline, Gap> {
    let mut outline = sized;
    let mut passed: Vec<&str> = others.iter().map(|point| point.id.value.as_str()).collect();
    for point in points {
        let quantity = point.at.of(variant).ok_or(Gap::NoSize)?.known().ok_or(Gap::Withheld)?;
        let runs = row(&outline, &point.edge, &passed);
        if let Some(error) = outline.run_between(&point.edge.0, &point.edge.1).err().filter(|_| runs.is_empty()) {
            return Err(Gap::defect(point.id.span, shape::run(&error)));
        }
        let whole: f64 = runs.iter().map(|(run, ..)| outline.length_of(*run)).sum();
        let asked = match quantity.dimension() {
            Dimension::Percent => quantity.si_f64() * whole,
            _ => quantity.si_f64() * 1000.0,
        };
        let defect = |message: Phrase| Gap::defect(point.id.span, message);
        let (from, to, rest) = within(&outline, &runs, asked).ok_or_else(|| {
            let (a, b) = &point.edge;
            let (asked, length) = (format!("{asked:.1}"), format!("{whole:.1}"));
            defect(say!(OUTSIDE, point = &point.id.value, asked, edge = format!("{a}-{b}"), length))
        })?;
        outline = outline
            .with_point(&point.id.value, &from, &to, Place::Distance(rest))
            .map_err(|error| defect(shape::shape(&error)))?;
        passed.push(&point.id.value);
    }
    Ok(outline)
}

/// The runs from one end of an edge to the other, through points placed before: index, first and last point.
fn row(outline: &Outline, edge: &(String, String), passed: &[&str]) -> Vec<(usize, String, String)> {
    let count = outline.points.len();
    let Some(start) = outline.points.iter().position(|point| point.id == edge.0) else { return Vec::new() };
    let walk = |forward: bool| {
        let mut runs = Vec::new();
        let mut at = start;
        for _ in 0..count {
            let next = if forward { (at + 1) % count } else { (at + count - 1) % count };
            let (from, to) = (outline.points.get(at)?, outline.points.get(next)?);
            runs.push((if forward { at } else { next }, from.id.clone(), to.id.clone()));
            if to.id == edge.1 {
                return Some(runs);
            }
            if !passed.contains(&to.id.as_str()) {
                return None;
            }
            at = next;
        }
        None
    };
    walk(true).or_else(|| walk(false)).unwrap_or_default()
}

/// The run that a distance along a row falls into, and what is left of the distance there.
fn within(outline: &Outline, runs: &[(usize, String, String)], asked: f64) -> Option<(String, String, f64)> {
    let mut rest = asked;
    for (run, from, to) in runs {
        let length = outline.length_of(*run);
        if rest <= length {
            return (rest >= 0.0).then(|| (from.clone(), to.clone(), rest));
        }
        rest -= length;
    }
    None
}

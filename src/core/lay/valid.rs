//! Whether a lay is one: written against the definition, in whole micrometres, and sharing nothing with the search.
//!
//! - Every piece is there as often as it is wanted, and no other.
//! - Each lies in a turn that is allowed for it; on the fold, if it belongs there.
//! - Each lies inside the fabric less its margins.
//! - The insides of no two pieces meet; they may touch. With a gap no two points of two pieces are nearer than it.

use std::fmt;

use super::instance::Instance;
use super::laid::{Lay, Placed};
use crate::geom::grid::{GridPoint, Polygon, Side, on_edge, orient};

/// What is wrong with a lay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// A piece is not there as often as it is wanted.
    Count {
        /// The piece.
        piece: String,
    },
    /// A turn that the piece is not allowed.
    Turn {
        /// The piece.
        piece: String,
    },
    /// Beyond the fabric or in its margins.
    Outside {
        /// The piece.
        piece: String,
    },
    /// Not on the fold.
    Fold {
        /// The piece.
        piece: String,
    },
    /// Two pieces overlap.
    Overlap {
        /// One piece.
        first: String,
        /// The other.
        second: String,
    },
    /// Two pieces are nearer than the gap.
    Gap {
        /// One piece.
        first: String,
        /// The other.
        second: String,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { piece } => write!(out, "piece {piece} is not laid as often as it is wanted"),
            Self::Turn { piece } => write!(out, "piece {piece} lies in a turn it is not allowed"),
            Self::Outside { piece } => write!(out, "piece {piece} lies outside the usable fabric"),
            Self::Fold { piece } => write!(out, "piece {piece} does not lie on the fold"),
            Self::Overlap { first, second } => write!(out, "pieces {first} and {second} overlap"),
            Self::Gap { first, second } => write!(out, "pieces {first} and {second} are nearer than the gap"),
        }
    }
}

/// Checks a lay against what was asked.
///
/// # Errors
/// The first fault found.
pub fn check(instance: &Instance, lay: &Lay) -> Result<(), Fault> {
    counts(instance, lay)?;
    let mut shapes = Vec::with_capacity(lay.placed.len());
    for placed in &lay.placed {
        shapes.push(standing(instance, lay, placed)?);
    }
    // By their left ends: only pieces whose spans of length come within the gap of each other are compared.
    shapes.sort_by_key(|shape| (shape.low.x, shape.low.y, shape.name.clone()));
    let gap = instance.fabric.gap;
    for (at, one) in shapes.iter().enumerate() {
        for other in shapes[at + 1..].iter().take_while(|other| other.low.x < one.high.x + gap.max(1)) {
            let apart = other.low.y >= one.high.y + gap || one.low.y >= other.high.y + gap;
            if !apart {
                pair(one, other, gap)?;
            }
        }
    }
    Ok(())
}

/// How far along the roll the pieces of a lay reach, in µm; none if a piece is unknown.
pub fn end(instance: &Instance, lay: &Lay) -> Option<i64> {
    let reach = |placed: &Placed| {
        let (_, high) = placed.turn.apply(&instance.pieces.get(placed.piece)?.outline).bbox()?;
        Some(high.x + placed.at.x)
    };
    lay.placed.iter().map(reach).collect::<Option<Vec<i64>>>()?.into_iter().max()
}

struct Shape {
    name: String,
    polygon: Polygon,
    low: GridPoint,
    high: GridPoint,
}

fn counts(instance: &Instance, lay: &Lay) -> Result<(), Fault> {
    for (number, piece) in instance.pieces.iter().enumerate() {
        let mut copies: Vec<usize> =
            lay.placed.iter().filter(|placed| placed.piece == number).map(|placed| placed.copy).collect();
        copies.sort_unstable();
        if !copies.iter().copied().eq(0..piece.demand) {
            return Err(Fault::Count { piece: piece.id.clone() });
        }
    }
    match lay.placed.iter().find(|placed| placed.piece >= instance.pieces.len()) {
        Some(placed) => Err(Fault::Count { piece: format!("number {}", placed.piece) }),
        None => Ok(()),
    }
}

/// The outline of a piece where it lies, if it may lie there by itself.
fn standing(instance: &Instance, lay: &Lay, placed: &Placed) -> Result<Shape, Fault> {
    let Some(piece) = instance.pieces.get(placed.piece) else {
        return Err(Fault::Count { piece: format!("number {}", placed.piece) });
    };
    let name = if piece.demand > 1 { format!("{}/{}", piece.id, placed.copy + 1) } else { piece.id.clone() };
    if !piece.turns.contains(&placed.turn) {
        return Err(Fault::Turn { piece: name });
    }
    let turned = placed.turn.apply(&piece.outline);
    let moved = |p: &GridPoint| GridPoint::new(p.x + placed.at.x, p.y + placed.at.y);
    let polygon = Polygon { points: turned.points.iter().map(moved).collect() };
    let Some((low, high)) = polygon.bbox() else { return Err(Fault::Outside { piece: name }) };
    let fabric = instance.fabric;
    if piece.fold && low.y != 0 {
        return Err(Fault::Fold { piece: name });
    }
    // On folded fabric the fold takes the place of one edge.
    let folded = instance.pieces.iter().any(|piece| piece.fold);
    let bottom = if folded { 0 } else { fabric.edge };
    let inside = low.x >= fabric.end
        && high.x <= lay.length - fabric.end
        && low.y >= bottom
        && high.y <= fabric.width - fabric.edge;
    if inside { Ok(Shape { name, polygon, low, high }) } else { Err(Fault::Outside { piece: name }) }
}

fn pair(one: &Shape, other: &Shape, gap: i64) -> Result<(), Fault> {
    // Lines that keep a distance neither touch nor cross: then the insides meet only if one piece lies in the other.
    let near = gap > 0 && nearer(one, other, gap);
    let meet = match gap > 0 && !near {
        true => within(one, other) || within(other, one),
        false => insides_meet(&one.polygon, &other.polygon),
    };
    let (first, second) = (one.name.clone(), other.name.clone());
    match (meet, near) {
        (true, _) => Err(Fault::Overlap { first, second }),
        (false, true) => Err(Fault::Gap { first, second }),
        (false, false) => Ok(()),
    }
}

/// Whether a piece whose line does not meet that of another lies in it.
fn within(one: &Shape, other: &Shape) -> bool {
    let boxed = other.low.x < one.low.x && one.high.x < other.high.x;
    boxed && one.polygon.points.first().is_some_and(|corner| other.polygon.side(*corner) == Side::Inside)
}

/// Whether the lines of two pieces cross, or come nearer than the gap: the least distance of lines that do not cross is that
/// of a corner of one from an edge of the other, and every corner begins an edge.
fn nearer(one: &Shape, other: &Shape, gap: i64) -> bool {
    let near_one = edges_near(&one.polygon, (other.low, other.high), gap);
    let near_other = edges_near(&other.polygon, (one.low, one.high), gap);
    let close = |a: Edge, b: Edge| point_nearer(a.0, b, gap) || point_nearer(b.0, a, gap) || cross(a, b);
    any_pair(&near_one, near_other, gap, close)
}

/// Whether the insides of two simple, anticlockwise polygons have a point in common.
///
/// They do if two edges cross in inner points of both. If none do, every edge, cut where it touches a corner of the other
/// polygon, runs inside, outside or along the other; the insides meet if one runs inside, or along an edge of the same
/// direction, which has the inside on the same side.
pub fn insides_meet(a: &Polygon, b: &Polygon) -> bool {
    let (Some(box_a), Some(box_b)) = (a.bbox(), b.bbox()) else { return false };
    let (of_a, of_b) = (edges_near(a, box_b, 0), edges_near(b, box_a, 0));
    if any_pair(&of_a, of_b.clone(), 0, cross) {
        return true;
    }
    runs_inside(&of_a, b, &of_b) || runs_inside(&of_b, a, &of_a)
}

/// Whether two edges cross in inner points of both.
fn cross((p, q): Edge, (r, s): Edge) -> bool {
    let apart = |p: i128, q: i128| (p > 0 && q < 0) || (p < 0 && q > 0);
    apart(orient(p, q, r), orient(p, q, s)) && apart(orient(r, s, p), orient(r, s, q))
}

/// Whether one of these edges runs inside `b`, of whose edges those near the other polygon are given too.
fn runs_inside(edges: &[Edge], b: &Polygon, of_b: &[Edge]) -> bool {
    // Twice as fine, so that the middle of two grid points is one.
    let b = Polygon { points: b.points.iter().map(twice).collect() };
    let double = |edges: &[Edge]| edges.iter().map(|(p, q)| (twice(p), twice(q))).collect::<Vec<Edge>>();
    let of_b = double(of_b);
    double(edges).iter().any(|(p, q)| {
        let corners = of_b.iter().flat_map(|(r, s)| [*r, *s]);
        let mut stops: Vec<GridPoint> = corners.filter(|corner| on_edge(*corner, *p, *q)).collect();
        stops.extend([*p, *q]);
        stops.sort_by_key(|stop| (stop.x - p.x).abs() + (stop.y - p.y).abs());
        stops.dedup();
        stops.windows(2).any(|pair| match pair {
            [from, to] => part_inside(*from, *to, &b, &of_b),
            _ => false,
        })
    })
}

fn part_inside(from: GridPoint, to: GridPoint, b: &Polygon, of_b: &[Edge]) -> bool {
    let middle = GridPoint::new(i64::midpoint(from.x, to.x), i64::midpoint(from.y, to.y));
    match b.side(middle) {
        Side::Inside => true,
        Side::Outside => false,
        Side::Edge => of_b.iter().any(|(r, s)| {
            let along = on_edge(from, *r, *s) && on_edge(to, *r, *s);
            let ahead =
                i128::from(s.x - r.x) * i128::from(to.x - from.x) + i128::from(s.y - r.y) * i128::from(to.y - from.y);
            along && ahead > 0
        }),
    }
}

fn twice(p: &GridPoint) -> GridPoint {
    GridPoint::new(2 * p.x, 2 * p.y)
}

/// An edge with both its ends.
type Edge = (GridPoint, GridPoint);

/// The edges whose upright boxes come within `gap` of a box: no other can meet what is in it.
fn edges_near(a: &Polygon, (low, high): (GridPoint, GridPoint), gap: i64) -> Vec<Edge> {
    let (left, right, bottom, top) = (low.x - gap, high.x + gap, low.y - gap, high.y + gap);
    let within =
        |(p, q): &Edge| p.x.min(q.x) <= right && p.x.max(q.x) >= left && p.y.min(q.y) <= top && p.y.max(q.y) >= bottom;
    let Some(last) = a.points.last() else { return Vec::new() };
    let mut from = *last;
    let mut near = Vec::new();
    for point in &a.points {
        let edge = (from, *point);
        if within(&edge) {
            near.push(edge);
        }
        from = *point;
    }
    near
}

/// Whether something holds for two edges whose upright boxes come within `gap` of each other. Only edges whose spans of
/// length do are looked at together.
fn any_pair(some: &[Edge], mut others: Vec<Edge>, gap: i64, holds: impl Fn(Edge, Edge) -> bool) -> bool {
    let left = |(p, q): &Edge| p.x.min(q.x);
    let right = |(p, q): &Edge| p.x.max(q.x);
    others.sort_by_key(left);
    let longest = others.iter().map(|edge| right(edge) - left(edge)).max().unwrap_or(0);
    let beside = |(p, q): &Edge, (r, s): &Edge| {
        p.y.min(q.y) <= r.y.max(s.y) + gap
            && r.y.min(s.y) <= p.y.max(q.y) + gap
            && left(&(*p, *q)) <= right(&(*r, *s)) + gap
    };
    some.iter().any(|one| {
        let first = others.partition_point(|other| left(other) < left(one) - gap - longest);
        let along = others[first..].iter().take_while(|other| left(other) <= right(one) + gap);
        along.into_iter().any(|other| beside(one, other) && holds(*one, *other))
    })
}

/// Whether a point is nearer than the gap to an edge, exactly.
fn point_nearer(p: GridPoint, (q, r): Edge, gap: i64) -> bool {
    let vector = |a: GridPoint, b: GridPoint| (i128::from(b.x - a.x), i128::from(b.y - a.y));
    let square = |v: (i128, i128)| v.0 * v.0 + v.1 * v.1;
    let (along, from) = (vector(q, r), vector(q, p));
    let dot = along.0 * from.0 + along.1 * from.1;
    let gap = i128::from(gap) * i128::from(gap);
    if dot <= 0 {
        square(from) < gap
    } else if dot >= square(along) {
        square(vector(r, p)) < gap
    } else {
        let across = along.0 * from.1 - along.1 * from.0;
        across * across < gap * square(along)
    }
}

//! The farthest that one line lies from another.

use crate::geom::{Path, Point, flatten};

/// The place where one line lies farthest from another.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Farthest {
    /// The distance, mm.
    pub distance: f64,
    /// On the earlier line, as it is laid over the later one.
    pub before: Point,
    /// On the later line.
    pub after: Point,
}

/// The largest distance from any place of either line to the other line, within `accuracy` mm.
///
/// Curves are flattened within a quarter of the accuracy. A straight piece is then halved until what could still lie
/// farther off in it is less than another quarter.
pub fn farthest(before: &Path, after: &Path, accuracy: f64) -> Farthest {
    let quarter = accuracy * 0.25;
    let (a, b) = (corners(before, quarter), corners(after, quarter));
    let there = directed(&a, &b, quarter);
    let back = directed(&b, &a, quarter);
    if there.distance >= back.distance {
        Farthest { distance: there.distance, before: there.at, after: there.foot }
    } else {
        Farthest { distance: back.distance, before: back.foot, after: back.at }
    }
}

fn corners(path: &Path, tolerance: f64) -> Vec<Point> {
    let mut points = flatten(path, tolerance);
    if path.closed() {
        points.extend(points.first().copied());
    }
    points
}

/// A place on one line and what is nearest to it on the other.
#[derive(Debug, Clone, Copy)]
struct Apart {
    distance: f64,
    at: Point,
    foot: Point,
    /// The straight piece that holds the foot.
    edge: (Point, Point),
}

fn directed(these: &[Point], others: &[Point], slack: f64) -> Apart {
    let start = these.first().copied().unwrap_or_default();
    let mut best = nearest(start, others);
    let mut known = best;
    for pair in these.windows(2) {
        let next = nearest(pair[1], others);
        widest(known, next, others, slack, &mut best);
        known = next;
    }
    best
}

/// Takes in a straight piece between two places whose distances are known.
fn widest(a: Apart, b: Apart, others: &[Point], slack: f64, best: &mut Apart) {
    let mut open = vec![(a, b)];
    while let Some((a, b)) = open.pop() {
        for end in [a, b] {
            if end.distance > best.distance {
                *best = end;
            }
        }
        // To a single edge the distance is convex along the piece, so that it is greatest at an end; no place is
        // farther from the line than from one of its edges.
        let from = |edge: (Point, Point)| {
            let off = |place: &Apart| place.at.distance_to_edge(edge.0, edge.1);
            off(&a).max(off(&b))
        };
        if from(a.edge).min(from(b.edge)) > best.distance + slack && a.at.distance(b.at) > slack {
            let middle = nearest(a.at.middle(b.at), others);
            open.push((middle, b));
            open.push((a, middle));
        }
    }
}

fn nearest(at: Point, others: &[Point]) -> Apart {
    let only = others.first().copied().unwrap_or(at);
    let mut best = Apart { distance: at.distance(only), at, foot: only, edge: (only, only) };
    for pair in others.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let along = b - a;
        let square = along.dot(along);
        let share = if square > 0.0 { ((at - a).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
        let foot = a.lerp(b, share);
        let distance = at.distance(foot);
        if distance < best.distance || best.edge.0 == best.edge.1 {
            best = Apart { distance, at, foot, edge: (a, b) };
        }
    }
    best
}

/// Distance from a point to a line, mm.
pub fn off(point: Point, path: &Path, accuracy: f64) -> f64 {
    nearest(point, &corners(path, accuracy * 0.25)).distance
}

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
/// farther off in it is less than another quarter: the distance to a line cannot change faster than the place does.
pub fn farthest(before: &Path, after: &Path, accuracy: f64) -> Farthest {
    let quarter = accuracy * 0.25;
    let (a, b) = (corners(before, quarter), corners(after, quarter));
    let there = directed(&a, &b, quarter);
    let back = directed(&b, &a, quarter);
    if there.0 >= back.0 {
        Farthest { distance: there.0, before: there.1, after: there.2 }
    } else {
        Farthest { distance: back.0, before: back.2, after: back.1 }
    }
}

fn corners(path: &Path, tolerance: f64) -> Vec<Point> {
    let mut points = flatten(path, tolerance);
    if path.closed() {
        points.extend(points.first().copied());
    }
    points
}

/// Distance, the place on these, and the place on the others nearest to it.
type Apart = (f64, Point, Point);

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
            if end.0 > best.0 {
                *best = end;
            }
        }
        let length = a.1.distance(b.1);
        if (a.0 + b.0 + length) * 0.5 > best.0 + slack {
            let middle = nearest(a.1.middle(b.1), others);
            open.push((middle, b));
            open.push((a, middle));
        }
    }
}

fn nearest(point: Point, others: &[Point]) -> Apart {
    let mut best = (f64::INFINITY, point, point);
    for pair in others.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let along = b - a;
        let square = along.dot(along);
        let share = if square > 0.0 { ((point - a).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
        let foot = a.lerp(b, share);
        let distance = point.distance(foot);
        if distance < best.0 {
            best = (distance, point, foot);
        }
    }
    match others {
        [only] => (point.distance(*only), point, *only),
        [] => (0.0, point, point),
        _ => best,
    }
}

/// Distance from a point to a line, mm.
pub fn off(point: Point, path: &Path, accuracy: f64) -> f64 {
    nearest(point, &corners(path, accuracy * 0.25)).0
}

//! Curves into straight pieces, the same ones on every platform.
//!
//! Curves are halved until they are flat enough. Halving and the test use `+ - *` only, both are
//! symmetric, so a curve run backwards or mirrored is cut at the same places.

use super::path::{Path, Segment};
use super::point::Point;

/// Deepest halving: 65,536 pieces a segment, far below the grid for anything that fits 20 m.
const DEEPEST: u32 = 16;

/// The corners of a polyline within `tolerance` mm of the path. An open path gives its end too;
/// a closed one gives its start once.
pub fn flatten(path: &Path, tolerance: f64) -> Vec<Point> {
    let mut points: Vec<Point> = flatten_indexed(path, tolerance).into_iter().map(|(point, _)| point).collect();
    if !path.closed() {
        points.push(path.end());
    }
    points
}

/// The start of each straight piece with the index of the segment it belongs to.
pub fn flatten_indexed(path: &Path, tolerance: f64) -> Vec<(Point, usize)> {
    let mut points = Vec::new();
    for (index, (start, segment)) in path.pieces().enumerate() {
        points.push((start, index));
        flatten_segment(start, segment, tolerance, &mut |point| points.push((point, index)));
    }
    points
}

/// Reports the inner corners of one flattened segment, without its ends.
pub fn flatten_segment(start: Point, segment: &Segment, tolerance: f64, report: &mut impl FnMut(Point)) {
    if let Segment::Cubic(a, b, end) = *segment {
        halve([start, a, b, end], tolerance * tolerance, 0, report);
    }
}

fn halve([p0, p1, p2, p3]: [Point; 4], square: f64, depth: u32, report: &mut impl FnMut(Point)) {
    if depth == DEEPEST || is_flat([p0, p1, p2, p3], square) {
        return;
    }
    let (a, b, c) = (p0.middle(p1), p1.middle(p2), p2.middle(p3));
    let (ab, bc) = (a.middle(b), b.middle(c));
    let middle = ab.middle(bc);
    halve([p0, a, ab, middle], square, depth + 1, report);
    report(middle);
    halve([middle, bc, c, p3], square, depth + 1, report);
}

/// A chord is off by at most an eighth of the greatest second derivative, which for a cubic is
/// six times its greatest second difference of control points.
fn is_flat([p0, p1, p2, p3]: [Point; 4], square: f64) -> bool {
    let (a, b) = (p0 + p2 - p1 * 2.0, p1 + p3 - p2 * 2.0);
    let worst = a.dot(a).max(b.dot(b));
    0.5625 * worst <= square
}

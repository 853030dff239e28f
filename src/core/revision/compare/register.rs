//! How one outline is laid on another by the points that have the same name.

use crate::geom::{Affine, Outline, Point};

/// Points that agree within this, mm, lie on each other: twice the step at which drawings are read.
const AGREE: f64 = 0.02;
/// Points nearer to each other than this, mm, give no direction that could be trusted.
const NEAR: f64 = 1.0;

/// How an outline is laid on another: moved and turned, never scaled or mirrored.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Registration {
    /// The motion of the earlier outline.
    pub map: Affine,
    /// Largest distance left between two points of one name, mm.
    pub left: f64,
}

/// Lays one outline on another by the points of one name. If more than half of them, at least two, can lie on each other
/// at once, these do, and the others have moved; otherwise the sum of squares of all distances is least. A single common
/// point is laid on its like and the grain on the grain, and without one the centroids.
pub fn register(before: &Outline, after: &Outline, grains: (Point, Point)) -> Registration {
    let common = before.points.iter().filter_map(|point| Some((before.point(&point.id)?, after.point(&point.id)?)));
    let pairs: Vec<(Point, Point)> = common.collect();
    let all = (pairs.len() > 1).then(|| rigid(&pairs)).flatten();
    let map = match all {
        Some(map) if left(&map, &pairs) <= AGREE => map,
        Some(map) => agreeing(&pairs).and_then(|some| rigid(&some)).unwrap_or(map),
        None => {
            let ends = pairs.first().copied().unwrap_or((before.centroid(), after.centroid()));
            turned(grains, ends)
        }
    };
    Registration { map, left: left(&map, &pairs) }
}

fn left(map: &Affine, pairs: &[(Point, Point)]) -> f64 {
    pairs.iter().map(|(from, to)| map.apply(*from).distance(*to)).fold(0.0, f64::max)
}

/// The motion that makes the sum of squares least; none where all points of a side coincide, so that no turn is better
/// than another. The turn has sine and cosine in the ratio of the sums of vector and scalar products about the
/// centroids, so that no trigonometry is needed.
fn rigid(pairs: &[(Point, Point)]) -> Option<Affine> {
    let count = pairs.len() as f64;
    let middle = |pick: fn(&(Point, Point)) -> Point| {
        pairs.iter().map(pick).fold(Point::default(), |sum, point| sum + point) * (1.0 / count)
    };
    let (p, q) = (middle(|pair| pair.0), middle(|pair| pair.1));
    let (mut along, mut across) = (0.0, 0.0);
    for (from, to) in pairs {
        along += (*from - p).dot(*to - q);
        across += (*from - p).cross(*to - q);
    }
    let turn = Point::new(along, across);
    (turn.norm() > NEAR * NEAR).then(|| turn.unit()).flatten().map(|direction| motion(direction, p, q))
}

/// The turn by a direction that takes `p` to `q`.
fn motion(direction: Point, p: Point, q: Point) -> Affine {
    let (cos, sin) = (direction.x, direction.y);
    let turn = Affine { xx: cos, xy: -sin, yx: sin, yy: cos, dx: 0.0, dy: 0.0 };
    let moved = q - turn.apply(p);
    Affine { dx: moved.x, dy: moved.y, ..turn }
}

/// The motion that lays one direction on another and one point on another.
fn turned((from, to): (Point, Point), (p, q): (Point, Point)) -> Affine {
    let direction = Point::new(from.dot(to), from.cross(to)).unit().unwrap_or(Point::new(1.0, 0.0));
    motion(direction, p, q)
}

/// The most points that can lie on their likes at once, if they are more than half.
fn agreeing(pairs: &[(Point, Point)]) -> Option<Vec<(Point, Point)>> {
    let mut best: Vec<(Point, Point)> = Vec::new();
    let step = (pairs.len() / 60).max(1);
    for (n, one) in pairs.iter().enumerate() {
        for other in pairs.iter().skip(n + 1).step_by(step) {
            let lengths = (one.0.distance(other.0), one.1.distance(other.1));
            if lengths.0 < NEAR || (lengths.0 - lengths.1).abs() > 2.0 * AGREE {
                continue;
            }
            let Some(map) = rigid(&[*one, *other]) else { continue };
            let some: Vec<_> = pairs.iter().filter(|(p, q)| map.apply(*p).distance(*q) <= AGREE).copied().collect();
            if some.len() > best.len() {
                best = some;
            }
        }
    }
    (best.len() >= 2 && best.len() * 2 > pairs.len()).then_some(best)
}

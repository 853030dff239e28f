//! Whether two cut lines are one shape, turned and moved, as they are or as mirror images: then one die cuts both.

use crate::compute::contour::Shape;
use crate::geom::{Affine, Path, Point, flatten};

/// How far two lines may be apart to be one for a die, mm: less than steel rule is bent to (*common practice*).
const APART: f64 = 0.2;
/// Curves become straight pieces within this, mm.
const FLAT: f64 = 0.05;
/// A corner that stands out less than this is left out, mm.
const STRAIGHT: f64 = 0.01;
/// Turns that are tried at most.
const TRIES: usize = 64;

/// Whether one shape, or its mirror image, is the other.
pub fn same(one: &Shape, other: &Shape, mirrored: bool) -> bool {
    let long = one.perimeter.max(other.perimeter);
    let near = |a: f64, b: f64, least: f64| (a - b).abs() <= least;
    // Lines within APART of each other differ by no more than that times their length in area.
    if one.paths.len() != other.paths.len() || !near(one.area, other.area, APART * long) {
        return false;
    }
    if !near(one.perimeter, other.perimeter, long * 0.01) {
        return false;
    }
    let (one, other) = (Lines::of(one, mirrored), Lines::of(other, false));
    if !near(one.reach(), other.reach(), 2.0 * APART) {
        return false;
    }
    one.turns(&other).into_iter().take(TRIES).any(|angle| {
        let turned = one.turned(angle);
        turned.beside(&other) && other.beside(&turned)
    })
}

/// The closed lines of a shape about the middle of its outer one.
struct Lines(Vec<Vec<Point>>);

impl Lines {
    fn of(shape: &Shape, mirrored: bool) -> Self {
        let mirror = Affine { xx: -1.0, xy: 0.0, yx: 0.0, yy: 1.0, dx: 0.0, dy: 0.0 };
        let line =
            |path: &Path| thinned(flatten(&if mirrored { path.transformed(&mirror) } else { path.clone() }, FLAT));
        let lines: Vec<Vec<Point>> = shape.paths.iter().map(line).collect();
        let middle = lines.first().map_or(Point::new(0.0, 0.0), |outer| moments(outer).0);
        Lines(lines.into_iter().map(|line| line.into_iter().map(|p| p - middle).collect()).collect())
    }

    fn outer(&self) -> &[Point] {
        self.0.first().map_or(&[], Vec::as_slice)
    }

    /// How far its outer line goes from its middle.
    fn reach(&self) -> f64 {
        self.outer().iter().map(|p| p.norm()).fold(0.0, f64::max)
    }

    /// Angles by which this may become the other: its far corners on theirs, its long way on theirs.
    fn turns(&self, other: &Self) -> Vec<f64> {
        let corner = |lines: &Self| -> Vec<f64> {
            let far = lines.reach();
            let at = lines.outer().iter().filter(|p| p.norm() >= far - APART);
            at.map(|p| libm::atan2(p.y, p.x)).collect()
        };
        let mine = corner(self).into_iter().next().unwrap_or_default();
        let long = moments(other.outer()).1 - moments(self.outer()).1;
        let axes = [long, long + std::f64::consts::PI];
        axes.into_iter().chain(corner(other).into_iter().map(|theirs| theirs - mine)).collect()
    }

    fn turned(&self, angle: f64) -> Self {
        let (sin, cos) = libm::sincos(angle);
        let turn = |p: &Point| Point::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
        Lines(self.0.iter().map(|line| line.iter().map(turn).collect()).collect())
    }

    /// Whether every corner lies on the other's lines.
    fn beside(&self, other: &Self) -> bool {
        let edges: Vec<(Point, Point)> = other
            .0
            .iter()
            .flat_map(|line| line.iter().copied().zip(line.iter().copied().cycle().skip(1)).take(line.len()))
            .collect();
        let on = |p: &Point| edges.iter().any(|(a, b)| p.distance_to_edge(*a, *b) <= APART);
        self.0.iter().flatten().all(on)
    }
}

/// A line without the corners that are nearly straight, of which a cut line has very many: what is dropped lies within a few times
/// [`STRAIGHT`] of what is left.
fn thinned(line: Vec<Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for (at, p) in line.iter().enumerate() {
        let next = line.get(at + 1);
        let straight = |last: &Point, next: &Point| p.distance_to_edge(*last, *next) <= STRAIGHT;
        if !kept.last().zip(next).is_some_and(|(last, next)| straight(last, next)) {
            kept.push(*p);
        }
    }
    kept
}

/// The middle of the area inside a closed line, and the angle of its long way.
fn moments(line: &[Point]) -> (Point, f64) {
    let (mut area, mut middle) = (0.0, Point::new(0.0, 0.0));
    let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
    for (a, b) in line.iter().zip(line.iter().cycle().skip(1)) {
        let turn = a.cross(*b);
        area += turn / 2.0;
        middle = middle + (*a + *b) * (turn / 6.0);
        xx += turn * (a.x * a.x + a.x * b.x + b.x * b.x) / 12.0;
        yy += turn * (a.y * a.y + a.y * b.y + b.y * b.y) / 12.0;
        xy += turn * (a.x * b.y + 2.0 * a.x * a.y + 2.0 * b.x * b.y + b.x * a.y) / 24.0;
    }
    if area == 0.0 {
        return (Point::new(0.0, 0.0), 0.0);
    }
    let middle = middle * (1.0 / area);
    let (xx, yy) = (xx / area - middle.x * middle.x, yy / area - middle.y * middle.y);
    let xy = xy / area - middle.x * middle.y;
    (middle, libm::atan2(2.0 * xy, xx - yy) / 2.0)
}

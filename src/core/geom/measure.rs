//! Lengths, areas, centroids and boxes of paths, by Gauss-Legendre sums with fixed panels.
//!
//! The number of panels never depends on the curve, so that one bit of difference between two
//! platforms cannot change the number of terms.

use super::path::{Path, Segment};
use super::point::{Point, Rect};

/// Nodes (positive half) and weights of the 8-point Gauss-Legendre rule, exact for polynomials
/// up to degree 15. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4.
const RULE: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
];

/// Panels for integrands that one panel does not sum exactly.
pub(super) const PANELS: u32 = 8;

/// Places on 0..1 with their weights, for sums over a fixed number of equal panels.
pub(super) fn nodes(panels: u32) -> impl Iterator<Item = (f64, f64)> {
    let half = 0.5 / f64::from(panels);
    (0..panels).flat_map(move |i| {
        let middle = half * f64::from(2 * i + 1);
        let pair = move |&(node, weight): &(f64, f64)| {
            [(middle - half * node, weight * half), (middle + half * node, weight * half)]
        };
        RULE.iter().flat_map(pair)
    })
}

/// Sums `f` from `from` to `to` over a fixed number of equal panels.
pub(super) fn integrate(from: f64, to: f64, panels: u32, f: impl Fn(f64) -> f64) -> f64 {
    let half = (to - from) / f64::from(panels) * 0.5;
    let panel = |i: u32| {
        let middle = from + half * f64::from(2 * i + 1);
        let term = |&(node, weight): &(f64, f64)| weight * (f(middle - half * node) + f(middle + half * node));
        RULE.iter().map(term).sum::<f64>()
    };
    half * (0..panels).map(panel).sum::<f64>()
}

/// Length of one segment from its start, in mm.
pub fn segment_length(start: Point, segment: &Segment) -> f64 {
    length_until(start, segment, 1.0)
}

/// Length of a segment up to parameter `t`, in mm.
pub fn length_until(start: Point, segment: &Segment, t: f64) -> f64 {
    match segment {
        Segment::Line(end) => start.distance(*end) * t,
        Segment::Cubic(..) => integrate(0.0, t, PANELS, |u| segment.derivative_at(start, u).norm()),
    }
}

/// Parameter at which a segment has run `distance` mm; held inside 0..=1.
pub fn parameter_at(start: Point, segment: &Segment, distance: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    if let Segment::Line(end) = segment {
        let length = start.distance(*end);
        return if length > 0.0 { (distance / length).clamp(0.0, 1.0) } else { 0.0 };
    }
    // Bisection down to the last bit of the interval; 52 halvings exhaust an f64 in 0..1.
    for _ in 0..52 {
        let middle = (low + high) * 0.5;
        if length_until(start, segment, middle) < distance {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) * 0.5
}

/// Length of a path, in mm.
pub fn length(path: &Path) -> f64 {
    path.pieces().map(|(start, segment)| segment_length(start, segment)).sum()
}

/// Area enclosed by a closed path, in mm²: positive anticlockwise. Exact for lines and cubics
/// but for rounding, since their integrands are polynomials.
pub fn signed_area(path: &Path) -> f64 {
    let origin = path.start;
    let piece = |(start, segment): (Point, &Segment)| match segment {
        Segment::Line(end) => (start - origin).cross(*end - origin) * 0.5,
        Segment::Cubic(..) => integrate(0.0, 1.0, 1, |t| {
            (segment.point_at(start, t) - origin).cross(segment.derivative_at(start, t)) * 0.5
        }),
    };
    path.pieces().map(piece).sum()
}

/// Centroid of the area enclosed by a closed path; none if it encloses nothing.
pub fn centroid(path: &Path) -> Option<Point> {
    let area = signed_area(path);
    let origin = path.start;
    let first = |pick: fn(Point) -> f64| -> f64 {
        path.pieces().map(|(start, segment)| moment(origin, start, segment, pick)).sum()
    };
    let moments = Point::new(first(|p| p.x), first(|p| p.y));
    (area != 0.0).then(|| origin + moments * (1.0 / area))
}

/// First moment of the triangle fan from `origin` over one segment.
fn moment(origin: Point, start: Point, segment: &Segment, pick: fn(Point) -> f64) -> f64 {
    // A fan triangle with sides p and p + dp has area p × dp / 2 and its centroid at 2/3 p.
    integrate(0.0, 1.0, 1, |t| {
        let p = segment.point_at(start, t) - origin;
        pick(p) * p.cross(segment.derivative_at(start, t)) / 3.0
    })
}

/// The smallest upright box round a path.
pub fn bbox(path: &Path) -> Rect {
    let mut bounds = Rect { min: path.start, max: path.start };
    for (start, segment) in path.pieces() {
        bounds = bounds.with(segment.end());
        for t in extremes(start, segment) {
            bounds = bounds.with(segment.point_at(start, t));
        }
    }
    bounds
}

/// Parameters inside a curve where x or y stops growing.
fn extremes(start: Point, segment: &Segment) -> Vec<f64> {
    let Segment::Cubic(a, b, end) = *segment else {
        return Vec::new();
    };
    let (d0, d1, d2) = (a - start, b - a, end - b);
    let mut found = quadratic(d0.x, d1.x, d2.x);
    found.extend(quadratic(d0.y, d1.y, d2.y));
    found.retain(|t| *t > 0.0 && *t < 1.0);
    found
}

/// Roots of the Bernstein quadratic `p(1-t)² + 2q t(1-t) + r t²`.
fn quadratic(p: f64, q: f64, r: f64) -> Vec<f64> {
    let (a, b, c) = (p - 2.0 * q + r, q - p, p);
    if a == 0.0 {
        return if b == 0.0 { Vec::new() } else { vec![-c / (2.0 * b)] };
    }
    let square = b * b - a * c;
    if square < 0.0 {
        return Vec::new();
    }
    // The sum without cancellation; the other root follows from the product of both.
    let sum = if b < 0.0 { -b + square.sqrt() } else { -b - square.sqrt() };
    let mut roots = vec![sum / a];
    if sum != 0.0 {
        roots.push(c / sum);
    }
    roots
}

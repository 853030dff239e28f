//! The rounding grid: whole micrometres, on which everything is exact.
//!
//! Geometry lands here before it is printed, compared or hashed. Coordinates fit ±1,000 m, so
//! that every product of two differences fits an `i128` with room to spare.

use super::point::Point;

/// Grid steps in a millimetre.
pub const STEPS: f64 = 1_000.0;
/// Largest coordinate, in steps.
pub const LIMIT: i64 = 1_000_000_000;

/// The grid line nearest to a coordinate in mm, halves away from zero. Coordinates beyond
/// ±1,000 m are held at the limit, and what is no number becomes 0: outlines are checked
/// for both before they come here.
pub fn snap(mm: f64) -> i64 {
    let steps = (mm * STEPS).round();
    let limit = LIMIT as f64;
    // In range by the clamp; NaN casts to 0.
    steps.clamp(-limit, limit) as i64
}

/// A grid line's coordinate, in mm.
pub fn millimetres(steps: i64) -> f64 {
    steps as f64 / STEPS
}

/// A point of the grid, in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct GridPoint {
    /// Micrometres to the right.
    pub x: i64,
    /// Micrometres up.
    pub y: i64,
}

impl GridPoint {
    /// The point at (`x`, `y`) micrometres.
    pub const fn new(x: i64, y: i64) -> Self {
        Self { x, y }
    }

    /// The grid point nearest to a point in mm.
    pub fn nearest(point: Point) -> Self {
        Self::new(snap(point.x), snap(point.y))
    }

    /// The point in mm.
    pub fn point(self) -> Point {
        Point::new(millimetres(self.x), millimetres(self.y))
    }
}

/// Twice the signed area of the triangle a, b, c in µm²: positive if c lies to the left of a-b.
pub fn orient(a: GridPoint, b: GridPoint, c: GridPoint) -> i128 {
    let (bx, by) = (i128::from(b.x) - i128::from(a.x), i128::from(b.y) - i128::from(a.y));
    let (cx, cy) = (i128::from(c.x) - i128::from(a.x), i128::from(c.y) - i128::from(a.y));
    bx * cy - by * cx
}

/// Whether `p` lies on the straight piece from `a` to `b`, ends included.
pub fn on_edge(p: GridPoint, a: GridPoint, b: GridPoint) -> bool {
    let within = |p: i64, a: i64, b: i64| p >= a.min(b) && p <= a.max(b);
    within(p.x, a.x, b.x) && within(p.y, a.y, b.y) && orient(a, b, p) == 0
}

/// Where a point lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Inside.
    Inside,
    /// On an edge or a corner.
    Edge,
    /// Outside.
    Outside,
}

/// A closed polygon on the grid; its last corner is joined to its first.
#[derive(Debug, Clone, PartialEq, Eq, Default, Hash)]
pub struct Polygon {
    /// The corners in order.
    pub points: Vec<GridPoint>,
}

impl Polygon {
    /// The polygon through points in mm, without repeated corners and corners on a straight edge.
    pub fn from_points(points: &[Point]) -> Self {
        Self { points: points.iter().map(|point| GridPoint::nearest(*point)).collect() }.tidied()
    }

    /// Without repeated corners and corners in the middle of a straight edge.
    pub fn tidied(mut self) -> Self {
        self.points.dedup();
        while self.points.len() > 1 && self.points.first() == self.points.last() {
            self.points.pop();
        }
        // Corners between distinct neighbours on one line lie in order, so that all of them can
        // go at once.
        let before = self.points.iter().cycle().skip(self.points.len().saturating_sub(1));
        let after = self.points.iter().cycle().skip(1);
        let needed = |((a, b), c): ((&GridPoint, &GridPoint), &GridPoint)| (!on_edge(*b, *a, *c)).then_some(*b);
        let points = before.zip(&self.points).zip(after).filter_map(needed).collect();
        Self { points }
    }

    /// Each edge with both its ends.
    pub fn edges(&self) -> impl Iterator<Item = (GridPoint, GridPoint)> + '_ {
        self.points.iter().copied().zip(self.points.iter().copied().cycle().skip(1))
    }

    /// Twice the signed area in µm², exact: positive anticlockwise.
    pub fn area2(&self) -> i128 {
        let product =
            |(a, b): (GridPoint, GridPoint)| i128::from(a.x) * i128::from(b.y) - i128::from(a.y) * i128::from(b.x);
        self.edges().map(product).sum()
    }

    /// Area in mm².
    pub fn area(&self) -> f64 {
        self.area2().unsigned_abs() as f64 / (2.0 * STEPS * STEPS)
    }

    /// Perimeter in mm.
    pub fn perimeter(&self) -> f64 {
        self.edges().map(|(a, b)| a.point().distance(b.point())).sum()
    }

    /// The lower left and the upper right corner of the upright box; none without corners.
    pub fn bbox(&self) -> Option<(GridPoint, GridPoint)> {
        let xs = || self.points.iter().map(|point| point.x);
        let ys = || self.points.iter().map(|point| point.y);
        let low = GridPoint::new(xs().min()?, ys().min()?);
        Some((low, GridPoint::new(xs().max()?, ys().max()?)))
    }

    /// Where a point lies, exactly; for a crossing polygon by the even-odd rule.
    pub fn side(&self, p: GridPoint) -> Side {
        let mut inside = false;
        for (a, b) in self.edges() {
            if on_edge(p, a, b) {
                return Side::Edge;
            }
            let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
            if low.y <= p.y && p.y < high.y && orient(low, high, p) > 0 {
                inside = !inside;
            }
        }
        if inside { Side::Inside } else { Side::Outside }
    }

    /// The corners in mm.
    pub fn to_points(&self) -> Vec<Point> {
        self.points.iter().map(|point| point.point()).collect()
    }

    /// The same corners the other way round.
    pub fn reversed(&self) -> Self {
        Self { points: self.points.iter().rev().copied().collect() }
    }
}

//! Points and vectors of the plane, in millimetres.

use std::ops::{Add, Mul, Neg, Sub};

/// A point or a vector of the plane, in millimetres; x to the right, y up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Millimetres to the right.
    pub x: f64,
    /// Millimetres up.
    pub y: f64,
}

impl Point {
    /// The point at (`x`, `y`) millimetres.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Scalar product, in mm².
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Vector product, in mm²: positive where `other` lies to the left of `self`.
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Length of the vector, in mm. Only `*`, `+` and the square root are used,
    /// so that every platform finds the same bits.
    pub fn norm(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// Distance to another point, in mm.
    pub fn distance(self, other: Self) -> f64 {
        (self - other).norm()
    }

    /// The vector of length 1 in the same direction; none for the zero vector.
    pub fn unit(self) -> Option<Self> {
        let norm = self.norm();
        (norm > 0.0 && norm.is_finite()).then(|| self * (1.0 / norm))
    }

    /// The vector turned a quarter to the left.
    pub fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// The vector turned a quarter to the right.
    pub fn right(self) -> Self {
        Self::new(self.y, -self.x)
    }

    /// The point a share `t` of the way to `other`.
    pub fn lerp(self, other: Self, t: f64) -> Self {
        Self::new(self.x + (other.x - self.x) * t, self.y + (other.y - self.y) * t)
    }

    /// The point half-way to `other`; the same bits from either end.
    pub fn middle(self, other: Self) -> Self {
        Self::new((self.x + other.x) * 0.5, (self.y + other.y) * 0.5)
    }

    /// Whether both coordinates are finite numbers.
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    /// Distance to the straight line piece from `a` to `b`, in mm.
    pub fn distance_to_edge(self, a: Self, b: Self) -> f64 {
        let along = b - a;
        let square = along.dot(along);
        if square <= 0.0 {
            return self.distance(a);
        }
        let t = ((self - a).dot(along) / square).clamp(0.0, 1.0);
        self.distance(a.lerp(b, t))
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}

impl Neg for Point {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

/// An upright box, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// The lower left corner.
    pub min: Point,
    /// The upper right corner.
    pub max: Point,
}

impl Rect {
    /// The smallest box round the points; none if there are none.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let mut points = points.into_iter();
        let first = points.next()?;
        let start = Self { min: first, max: first };
        Some(points.fold(start, |bounds, point| bounds.with(point)))
    }

    /// The smallest box round this one and a point.
    pub fn with(self, point: Point) -> Self {
        Self {
            min: Point::new(self.min.x.min(point.x), self.min.y.min(point.y)),
            max: Point::new(self.max.x.max(point.x), self.max.y.max(point.y)),
        }
    }

    /// Width, in mm.
    pub fn width(self) -> f64 {
        self.max.x - self.min.x
    }

    /// Height, in mm.
    pub fn height(self) -> f64 {
        self.max.y - self.min.y
    }

    /// Distance of a point from the box, in mm; 0 inside.
    pub fn distance(self, point: Point) -> f64 {
        let beyond = |low: f64, value: f64, high: f64| (low - value).max(value - high).max(0.0);
        let x = beyond(self.min.x, point.x, self.max.x);
        Point::new(x, beyond(self.min.y, point.y, self.max.y)).norm()
    }

    /// The middle of the box.
    pub fn middle(self) -> Point {
        self.min.middle(self.max)
    }
}

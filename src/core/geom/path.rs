//! Paths of straight lines and cubic curves.

use super::affine::Affine;
use super::point::{Point, Rect};

/// One piece of a path, from wherever the piece before it ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// A straight line to the point.
    Line(Point),
    /// A cubic Bézier curve: two control points, then the end.
    Cubic(Point, Point, Point),
}

impl Segment {
    /// Where the segment ends.
    pub fn end(&self) -> Point {
        match *self {
            Self::Line(end) | Self::Cubic(_, _, end) => end,
        }
    }

    /// A box that holds the segment: that of its control points.
    pub fn hull(&self, start: Point) -> Rect {
        let bounds = Rect { min: start, max: start };
        match *self {
            Self::Line(end) => bounds.with(end),
            Self::Cubic(a, b, end) => bounds.with(a).with(b).with(end),
        }
    }

    /// The same segment ending elsewhere, for closing a gap below the grid.
    pub(super) fn ending(self, end: Point) -> Self {
        match self {
            Self::Line(_) => Self::Line(end),
            Self::Cubic(a, b, _) => Self::Cubic(a, b, end),
        }
    }

    /// The same curve run backwards, given where it started; its control points keep their bits.
    pub fn reversed(&self, start: Point) -> Self {
        match *self {
            Self::Line(_) => Self::Line(start),
            Self::Cubic(a, b, _) => Self::Cubic(b, a, start),
        }
    }

    /// The image under an affine map.
    pub fn transformed(&self, map: &Affine) -> Self {
        match *self {
            Self::Line(end) => Self::Line(map.apply(end)),
            Self::Cubic(a, b, end) => Self::Cubic(map.apply(a), map.apply(b), map.apply(end)),
        }
    }

    /// The point at parameter `t` from 0 to 1, given where the segment starts.
    pub fn point_at(&self, start: Point, t: f64) -> Point {
        match *self {
            Self::Line(end) => start.lerp(end, t),
            Self::Cubic(a, b, end) => {
                let s = 1.0 - t;
                start * (s * s * s) + a * (3.0 * s * s * t) + b * (3.0 * s * t * t) + end * (t * t * t)
            }
        }
    }

    /// The derivative by the parameter at `t`, in mm.
    pub fn derivative_at(&self, start: Point, t: f64) -> Point {
        match *self {
            Self::Line(end) => end - start,
            Self::Cubic(a, b, end) => {
                let s = 1.0 - t;
                (a - start) * (3.0 * s * s) + (b - a) * (6.0 * s * t) + (end - b) * (3.0 * t * t)
            }
        }
    }

    /// Curvature at `t` in 1/mm: positive where the segment turns left, 0 for a line and where it stands still.
    pub fn curvature_at(&self, start: Point, t: f64) -> f64 {
        let Self::Cubic(a, b, end) = *self else { return 0.0 };
        let first = self.derivative_at(start, t);
        let second = (b - a - (a - start)) * (6.0 * (1.0 - t)) + (end - b - (b - a)) * (6.0 * t);
        let speed = first.norm();
        if speed > 0.0 { first.cross(second) / (speed * speed * speed) } else { 0.0 }
    }

    /// Direction at the start (a vector of length 1); none for a segment without length.
    /// Control points that lie on the start are passed over.
    pub fn start_direction(&self, start: Point) -> Option<Point> {
        match *self {
            Self::Line(end) => (end - start).unit(),
            Self::Cubic(a, b, end) => {
                (a - start).unit().or_else(|| (b - start).unit()).or_else(|| (end - start).unit())
            }
        }
    }

    /// Direction at the end (a vector of length 1); none for a segment without length.
    pub fn end_direction(&self, start: Point) -> Option<Point> {
        self.reversed(start).start_direction(self.end()).map(|back| -back)
    }

    /// Cuts the segment at parameter `t`.
    pub fn split(&self, start: Point, t: f64) -> (Self, Self) {
        match *self {
            Self::Line(end) => (Self::Line(start.lerp(end, t)), Self::Line(end)),
            Self::Cubic(a, b, end) => {
                let (ab, bc, cd) = (start.lerp(a, t), a.lerp(b, t), b.lerp(end, t));
                let (abc, bcd) = (ab.lerp(bc, t), bc.lerp(cd, t));
                let middle = abc.lerp(bcd, t);
                (Self::Cubic(ab, abc, middle), Self::Cubic(bcd, cd, end))
            }
        }
    }

    /// Whether every coordinate is a finite number.
    pub fn is_finite(&self) -> bool {
        match *self {
            Self::Line(end) => end.is_finite(),
            Self::Cubic(a, b, end) => a.is_finite() && b.is_finite() && end.is_finite(),
        }
    }
}

/// A row of segments from a start, open or closed, in millimetres.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path {
    /// Where the path begins.
    pub start: Point,
    /// The segments in order.
    pub segments: Vec<Segment>,
}

impl Path {
    /// A path from a start and its segments.
    pub fn new(start: Point, segments: Vec<Segment>) -> Self {
        Self { start, segments }
    }

    /// The straight-edged path through the points, open; empty at the origin without points.
    pub fn polyline(points: impl IntoIterator<Item = Point>) -> Self {
        let mut points = points.into_iter();
        let start = points.next().unwrap_or_default();
        Self { start, segments: points.map(Segment::Line).collect() }
    }

    /// Where the path ends.
    pub fn end(&self) -> Point {
        self.segments.last().map_or(self.start, Segment::end)
    }

    /// Whether the path ends exactly where it began and has a segment at all.
    pub fn closed(&self) -> bool {
        !self.segments.is_empty() && self.end() == self.start
    }

    /// Each segment with the point it starts from.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, &Segment)> {
        let ends = self.segments.iter().map(Segment::end);
        std::iter::once(self.start).chain(ends).zip(&self.segments)
    }

    /// The same curve run backwards.
    pub fn reversed(&self) -> Self {
        let mut segments: Vec<_> = self.pieces().map(|(start, segment)| segment.reversed(start)).collect();
        segments.reverse();
        Self { start: self.end(), segments }
    }

    /// The image under an affine map.
    pub fn transformed(&self, map: &Affine) -> Self {
        Self {
            start: map.apply(self.start),
            segments: self.segments.iter().map(|segment| segment.transformed(map)).collect(),
        }
    }

    /// A closed path begun at the segment of that index instead; an open one is returned unchanged.
    pub fn rotated(&self, first: usize) -> Self {
        if !self.closed() || first >= self.segments.len() {
            return self.clone();
        }
        let mut segments = self.segments.clone();
        segments.rotate_left(first);
        let start = segments.last().map_or(self.start, Segment::end);
        Self { start, segments }
    }

    /// Whether every coordinate is a finite number.
    pub fn is_finite(&self) -> bool {
        self.start.is_finite() && self.segments.iter().all(Segment::is_finite)
    }
}

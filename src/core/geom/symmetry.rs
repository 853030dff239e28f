//! Is a shape its own mirror image, and at which axis?

use super::affine::Affine;
use super::flatten::flatten;
use super::measure::{PANELS, nodes};
use super::outline::Outline;
use super::point::Point;
use std::collections::BTreeMap;

/// Accuracy at which images of points are recognised, in mm.
const SAME_PLACE: f64 = 0.01;
/// Highest order of the moments looked at; a shape without any up to here is a circle for fabric.
const ORDERS: u32 = 24;

impl Outline {
    /// Whether the shape is its own mirror image at some axis within `tolerance` mm; points are
    /// left out of account.
    pub fn is_symmetric(&self, tolerance: f64) -> bool {
        let corners = flatten(&self.path, (tolerance * 0.1).max(1e-4));
        self.axes().iter().any(|axis| folds_on_itself(&corners, axis, tolerance))
    }

    /// The image of every named point, if the shape is its own mirror image within `tolerance` mm
    /// with its points, lines, marks and grain; none otherwise.
    pub fn point_images(&self, tolerance: f64) -> Option<BTreeMap<String, String>> {
        let corners = flatten(&self.path, (tolerance * 0.1).max(1e-4));
        let fits = |axis: &Affine| {
            folds_on_itself(&corners, axis, tolerance)
                && self.grain_folds(axis, tolerance)
                && self.lines_fold(axis, tolerance)
                && self.marks_fold(axis, tolerance)
        };
        let mut axes = self.axes();
        axes.extend(self.point_axes());
        axes.iter().filter(|axis| fits(axis)).find_map(|axis| self.images_at(axis, tolerance))
    }

    /// Whether the recorded images are mirror images at one axis of the shape as it is now.
    pub(super) fn images_hold(&self) -> bool {
        if self.axis_images.is_empty() {
            return true;
        }
        let Some(axis) = self.image_axis() else {
            return false;
        };
        let corners = flatten(&self.path, SAME_PLACE * 0.1);
        let pair = |(id, image): (&String, &String)| match (self.point(id), self.point(image)) {
            (Some(a), Some(b)) => axis.apply(a).distance(b) <= SAME_PLACE,
            _ => false,
        };
        self.axis_images.iter().all(pair) && folds_on_itself(&corners, &axis, SAME_PLACE)
    }

    /// The mirror map that the recorded images speak of: at the middle between a point and its
    /// image, or through two points that are their own image.
    pub(super) fn image_axis(&self) -> Option<Affine> {
        let pairs: Vec<_> =
            self.axis_images.iter().filter_map(|(id, image)| Some((self.point(id)?, self.point(image)?))).collect();
        let apart = pairs.iter().find(|(a, b)| a.distance(*b) > SAME_PLACE);
        if let Some((a, b)) = apart {
            return Some(bisector(*a, *b));
        }
        let mut own = pairs.iter().map(|(a, _)| *a);
        let (a, b) = (own.next()?, own.next()?);
        Some(Affine::reflection(a, b))
    }

    /// Mirror maps that can carry the named points onto themselves: the first point to any.
    fn point_axes(&self) -> Vec<Affine> {
        let centre = self.centroid();
        let places: Vec<Point> = self.points.iter().filter_map(|named| self.point(&named.id)).collect();
        let Some(first) = places.first().copied() else {
            return Vec::new();
        };
        let through = |other: &Point| {
            if other.distance(first) > SAME_PLACE { bisector(first, *other) } else { Affine::reflection(centre, first) }
        };
        places.iter().map(through).collect()
    }

    /// Images of all points at one axis, if each falls on a point.
    fn images_at(&self, axis: &Affine, tolerance: f64) -> Option<BTreeMap<String, String>> {
        let near = |place: Point| {
            let at = |id: &&super::outline::Named| self.point(&id.id).is_some_and(|p| p.distance(place) <= tolerance);
            self.points.iter().find(at).map(|named| named.id.clone())
        };
        self.points.iter().map(|named| Some((named.id.clone(), near(axis.apply(self.point(&named.id)?))?))).collect()
    }

    /// The pile must lie the same way after mirroring: the grain is parallel to the axis.
    fn grain_folds(&self, axis: &Affine, tolerance: f64) -> bool {
        self.grain.is_none_or(|(a, b)| {
            let moved = axis.apply(b) - axis.apply(a);
            moved.distance(b - a) <= tolerance
        })
    }

    fn lines_fold(&self, axis: &Affine, tolerance: f64) -> bool {
        let flat: Vec<Vec<Point>> = self.lines.iter().map(|line| flatten(&line.path, tolerance * 0.1)).collect();
        let on = |point: Point, line: &Vec<Point>| {
            let edges = line.iter().zip(line.iter().skip(1));
            edges.map(|(a, b)| point.distance_to_edge(*a, *b)).fold(f64::INFINITY, f64::min) <= tolerance
        };
        flat.iter().all(|line| flat.iter().any(|other| line.iter().all(|point| on(axis.apply(*point), other))))
    }

    fn marks_fold(&self, axis: &Affine, tolerance: f64) -> bool {
        let there = |place: Point| self.marks.iter().any(|mark| mark.at.distance(place) <= tolerance);
        self.marks.iter().all(|mark| there(axis.apply(mark.at)))
    }

    /// All mirror maps that the shape can have, from its complex moments.
    ///
    /// Mirroring at an axis of angle a through the centroid turns the moment of order k,
    /// ∫ z^k dA, into its conjugate times e^(2ika): so the moment of a symmetric shape has the
    /// angle ka or ka + π, which leaves k axes for the order whose moment stands out most.
    fn axes(&self) -> Vec<Affine> {
        let centre = self.centroid();
        let size = self.bbox().width().max(self.bbox().height());
        let mut best = (0, 0.0, 0.0);
        for (order, moment) in self.moments(centre, size) {
            let magnitude = moment.norm();
            if magnitude > best.1 * 10.0 {
                best = (order, magnitude, libm::atan2(moment.y, moment.x));
            }
        }
        let (order, _, angle) = best;
        let axis = |j: u32| {
            let turn = (angle + std::f64::consts::PI * f64::from(j)) / f64::from(order);
            Affine::reflection(centre, centre + Point::new(libm::cos(turn), libm::sin(turn)))
        };
        (0..order).map(axis).chain([Affine::reflection(centre, centre)]).collect()
    }

    /// ∫ z^k dA about `centre` in units of `size` by order k, as ∮ z^k conj(z) dz / 2i round the outline: one walk
    /// round it for all orders, since each power is the last one times z.
    fn moments(&self, centre: Point, size: f64) -> Vec<(u32, Point)> {
        let scale = 1.0 / size;
        let mut sums: Vec<(u32, Point)> = (2..=ORDERS).map(|order| (order, Point::default())).collect();
        for (start, segment) in self.path.pieces() {
            for (t, weight) in nodes(PANELS) {
                let z = (segment.point_at(start, t) - centre) * scale;
                let dz = segment.derivative_at(start, t) * scale;
                // Dividing by 2i turns (x, y) into (y, -x) / 2.
                let rest = times(Point::new(z.x, -z.y), dz) * (weight * 0.5);
                let mut power = times(z, Point::new(rest.y, -rest.x));
                for (_, sum) in &mut sums {
                    power = times(power, z);
                    *sum = *sum + power;
                }
            }
        }
        sums
    }
}

/// Product of two complex numbers.
fn times(a: Point, b: Point) -> Point {
    Point::new(a.x * b.x - a.y * b.y, a.x * b.y + a.y * b.x)
}

/// Mirrors `a` onto `b`.
fn bisector(a: Point, b: Point) -> Affine {
    let middle = a.middle(b);
    Affine::reflection(middle, middle + (b - a).left())
}

/// Whether every corner of the mirrored polygon lies on the polygon. Mirroring is its own
/// inverse, so one direction is enough.
fn folds_on_itself(corners: &[Point], axis: &Affine, tolerance: f64) -> bool {
    let count = corners.len();
    let edge = |at: usize| corners.get(at % count).zip(corners.get((at + 1) % count));
    // The image runs the other way round: the next corner is looked for from the edge behind the last one on.
    let mut last = 0;
    corners.iter().all(|corner| {
        let image = axis.apply(*corner);
        let on = |at: &usize| edge(*at).is_some_and(|(a, b)| image.distance_to_edge(*a, *b) <= tolerance);
        let found = (0..count).map(|step| (last + count + 1 - step) % count).find(on);
        last = found.unwrap_or(last);
        found.is_some()
    })
}

//! Shapes given by their measures: nobody should have to draw a rectangle.

use super::cross::refuse_crossing;
use super::error::{Measure, ShapeError};
use super::outline::{Outline, positive};
use super::path::{Path, Segment};
use super::point::Point;
use std::f64::consts::PI;

/// Most gores that a ball is cut into.
const MOST_GORES: u32 = 1_000;
/// Largest error of a gore's edge against the sine curve, in mm.
const GORE_ERROR: f64 = 0.000_01;

/// A rectangle `width` × `height` mm round the origin, with the corners nw, ne, se, sw.
///
/// # Errors
/// A side that is not above 0 or is above 20 m.
pub fn rectangle(width: f64, height: f64) -> Result<Outline, ShapeError> {
    positive(Measure::Width, width)?;
    positive(Measure::Height, height)?;
    let (x, y) = (width * 0.5, height * 0.5);
    let corners = [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y));
    let path = closed_polyline(&corners);
    assemble(path, &[("sw", 0), ("se", 1), ("ne", 2), ("nw", 3)], &RECTANGLE_IMAGES)
}

const RECTANGLE_IMAGES: [(&str, &str); 4] = [("nw", "ne"), ("ne", "nw"), ("sw", "se"), ("se", "sw")];
const COMPASS_IMAGES: [(&str, &str); 4] = [("n", "n"), ("s", "s"), ("e", "w"), ("w", "e")];

/// A rectangle with round corners; nw, ne, se, sw are the middles of the corner arcs.
///
/// # Errors
/// A measure that is not above 0 or is above 20 m; a radius above half the shorter side.
pub fn rounded_rectangle(width: f64, height: f64, radius: f64) -> Result<Outline, ShapeError> {
    positive(Measure::Width, width)?;
    positive(Measure::Height, height)?;
    positive(Measure::CornerRadius, radius)?;
    let limit = width.min(height) * 0.5;
    if radius > limit {
        return Err(ShapeError::RadiusTooLarge { radius, limit });
    }
    let (x, y) = (width * 0.5 - radius, height * 0.5 - radius);
    let corners = [(-x, -y, 2), (x, -y, 3), (x, y, 0), (-x, y, 1)];
    let mut path = Path::new(Point::new(-x - radius, -y), Vec::new());
    let mut middles = Vec::new();
    for (cx, cy, quadrant) in corners {
        line_to(&mut path, Point::new(cx, cy) + compass(quadrant, radius));
        let arc = quarter(Point::new(cx, cy), radius, quadrant, 4);
        middles.push(path.segments.len() + arc.len() / 2);
        path.segments.extend(arc);
    }
    close(&mut path);
    let names = ["sw", "se", "ne", "nw"];
    let named: Vec<_> = names.into_iter().zip(middles).collect();
    assemble(path, &named, &RECTANGLE_IMAGES)
}

/// A circle round the origin; n, e, s, w are its ends.
///
/// # Errors
/// A diameter that is not above 0 or is above 20 m.
pub fn circle(diameter: f64) -> Result<Outline, ShapeError> {
    positive(Measure::Diameter, diameter)?;
    ellipse(diameter, diameter)
}

/// An ellipse `width` × `height` mm round the origin; n, e, s, w are its ends.
///
/// # Errors
/// An axis that is not above 0 or is above 20 m.
pub fn ellipse(width: f64, height: f64) -> Result<Outline, ShapeError> {
    positive(Measure::Width, width)?;
    positive(Measure::Height, height)?;
    let mut path = Path::new(Point::new(1.0, 0.0), Vec::new());
    for quadrant in 0..4 {
        path.segments.extend(quarter(Point::default(), 1.0, quadrant, 4));
    }
    close(&mut path);
    let stretch = super::affine::Affine { xx: width * 0.5, yy: height * 0.5, ..super::affine::Affine::IDENTITY };
    assemble(path.transformed(&stretch), &[("e", 0), ("n", 4), ("w", 8), ("s", 12)], &COMPASS_IMAGES)
}

/// One of `count` gores of a ball: n and s are the tips, e and w the widest places.
///
/// Half the width at the latitude φ is (πr / count) cos φ, and the length is πr, so that all
/// gores together have the area 4πr² of the sphere.
///
/// # Errors
/// A diameter that is not above 0 or is above 20 m; fewer than 2 or more than 1,000 gores.
pub fn gore(count: u32, diameter: f64) -> Result<Outline, ShapeError> {
    positive(Measure::Diameter, diameter)?;
    if count < 2 {
        return Err(ShapeError::TooFewGores { found: count });
    }
    if count > MOST_GORES {
        let (value, limit) = (f64::from(count), f64::from(MOST_GORES));
        return Err(ShapeError::TooLarge { what: Measure::Gores, value, limit });
    }
    let (half, radius) = (PI * diameter * 0.5 / f64::from(count), diameter * 0.5);
    let east = sine_edge(half, radius);
    let quarter = east.segments.len() / 2;
    let west = east.transformed(&super::affine::Affine::MIRROR).reversed();
    let mut path = east;
    path.segments.extend(west.segments);
    let named = [("s", 0), ("e", quarter), ("n", 2 * quarter), ("w", 3 * quarter)];
    assemble(path, &named, &COMPASS_IMAGES)
}

/// The curve x = half · cos(y / radius) from the south tip to the north tip, as Hermite cubics.
fn sine_edge(half: f64, radius: f64) -> Path {
    let count = gore_segments(half);
    let step = PI / f64::from(count);
    let point = |i: u32| {
        let angle = step * f64::from(i) - PI * 0.5;
        let tip = i == 0 || i == count;
        Point::new(if tip { 0.0 } else { half * libm::cos(angle) }, radius * angle)
    };
    let slope = |i: u32| -half / radius * libm::sin(step * f64::from(i) - PI * 0.5);
    let third = radius * step / 3.0;
    let segment = |i: u32| {
        let (a, b) = (point(i), point(i + 1));
        let ahead = Point::new(a.x + slope(i) * third, a.y + third);
        let back = Point::new(b.x - slope(i + 1) * third, b.y - third);
        Segment::Cubic(ahead, back, b)
    };
    Path::new(point(0), (0..count).map(segment).collect())
}

/// Enough cubics for the edge of a gore: the error of a Hermite cubic is h⁴ max|f''''| / 384,
/// here half · (π / count)⁴ / 384. An even number, so that the widest place is a joint.
fn gore_segments(half: f64) -> u32 {
    let error = |count: u32| {
        let step = PI / f64::from(count);
        half * step * step * step * step / 384.0
    };
    (2..=128).map(|pairs| pairs * 2).find(|count| error(*count) <= GORE_ERROR).unwrap_or(256)
}

/// A polygon through the named points, in either direction round.
///
/// # Errors
/// Fewer than three points; a name twice; points nearer than 0.5 mm; edges that cross or touch.
pub fn polygon(points: &[(String, Point)]) -> Result<Outline, ShapeError> {
    if points.len() < 3 {
        return Err(ShapeError::TooFewPoints { found: points.len() });
    }
    if !points.iter().all(|(_, point)| point.is_finite()) {
        return Err(ShapeError::NotFinite);
    }
    for ((other, a), (id, b)) in points.iter().zip(points.iter().cycle().skip(1)) {
        if id == other {
            return Err(ShapeError::IdTaken { id: id.clone() });
        }
        let distance = a.distance(*b);
        if distance < 0.5 {
            return Err(ShapeError::TooClose { id: id.clone(), other: other.clone(), distance });
        }
    }
    let corners: Vec<Point> = points.iter().map(|(_, point)| *point).collect();
    let named = points.iter().enumerate().map(|(at, (id, _))| (id.clone(), at)).collect();
    let path = closed_polyline(&corners);
    refuse_crossing(&path, &points.iter().map(|(id, _)| id.clone()).collect::<Vec<_>>())?;
    Outline::assemble(path, named)
}

fn assemble(path: Path, named: &[(&str, usize)], images: &[(&str, &str)]) -> Result<Outline, ShapeError> {
    let named = named.iter().map(|(id, at)| ((*id).to_owned(), *at)).collect();
    let mut outline = Outline::assemble(path, named)?;
    outline.axis_images = images.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
    Ok(outline)
}

/// The closed path through the corners.
pub(super) fn closed_polyline(corners: &[Point]) -> Path {
    let back = corners.first().copied();
    Path::polyline(corners.iter().copied().chain(back))
}

fn line_to(path: &mut Path, to: Point) {
    if path.end() != to {
        path.segments.push(Segment::Line(to));
    }
}

/// Ends the last segment on the very bits of the start.
fn close(path: &mut Path) {
    let start = path.start;
    if path.end().distance(start) > 1e-6 {
        path.segments.push(Segment::Line(start));
    } else if let Some(last) = path.segments.pop() {
        path.segments.push(last.ending(start));
    }
}

/// The vector to the end of an axis: 0 east, 1 north, 2 west, 3 south. Exact.
fn compass(quadrant: u32, radius: f64) -> Point {
    match quadrant % 4 {
        0 => Point::new(radius, 0.0),
        1 => Point::new(0.0, radius),
        2 => Point::new(-radius, 0.0),
        _ => Point::new(0.0, -radius),
    }
}

/// A quarter circle anticlockwise from the end of an axis, as `parts` cubics: with four, the
/// radius is off by less than 1e-7 of itself.
fn quarter(centre: Point, radius: f64, quadrant: u32, parts: u32) -> Vec<Segment> {
    let step = PI * 0.5 / f64::from(parts);
    let reach = 4.0 / 3.0 * libm::tan(step * 0.25);
    let (u, v) = (compass(quadrant, radius), compass(quadrant + 1, radius));
    let on = |i: u32| match i {
        0 => u,
        _ if i == parts => v,
        _ => u * libm::cos(step * f64::from(i)) + v * libm::sin(step * f64::from(i)),
    };
    let segment = |i: u32| {
        let (a, b) = (on(i), on(i + 1));
        Segment::Cubic(centre + a + a.left() * reach, centre + b - b.left() * reach, centre + b)
    };
    (0..parts).map(segment).collect()
}

//! Elliptical arcs as cubic curves, with the platform's trigonometry nowhere in it.

use std::f64::consts::PI;

use crate::geom::{Affine, Point, Segment};

/// Curves to a quarter of an ellipse: their error is below 1e-7 of the radius.
const TO_A_QUARTER: f64 = 4.0;

/// An arc as SVG writes it.
#[derive(Debug, Clone, Copy)]
pub struct Arc {
    /// Radii.
    pub radii: (f64, f64),
    /// Turn of the first radius from the x axis, degrees.
    pub turn: f64,
    /// Whether it is the longer way round.
    pub large: bool,
    /// Whether angles grow along it.
    pub sweep: bool,
}

impl Arc {
    /// The curves from `start` to `end`: SVG 2, appendix B.2.4 and B.2.5.
    pub fn curves(self, start: Point, end: Point) -> Vec<Segment> {
        let (rx, ry) = (self.radii.0.abs(), self.radii.1.abs());
        if start == end {
            return Vec::new();
        }
        if rx == 0.0 || ry == 0.0 || !rx.is_finite() || !ry.is_finite() {
            return vec![Segment::Line(end)];
        }
        let turned = turning(self.turn);
        let back = Affine { xy: turned.yx, yx: turned.xy, ..turned };
        // In units of the radii the ellipse is a circle of radius 1 round `centre`.
        let unit = |p: Point| {
            let p = back.apply(p);
            Point::new(p.x / rx, p.y / ry)
        };
        let (a, b) = (unit(start), unit(end));
        let half = (b - a) * 0.5;
        let reach = half.norm();
        // Radii too small to span the chord grow until they do.
        let (grow, off) = if reach >= 1.0 { (reach, 0.0) } else { (1.0, (1.0 - reach * reach).sqrt() / reach) };
        let side = if self.large == self.sweep { -off } else { off };
        let centre = a + half + half.left() * side;
        let angle = |p: Point| libm::atan2(p.y - centre.y, p.x - centre.x);
        let first = angle(a);
        let mut swept = angle(b) - first;
        if self.sweep && swept <= 0.0 {
            swept += 2.0 * PI;
        } else if !self.sweep && swept >= 0.0 {
            swept -= 2.0 * PI;
        }
        let stretch = Affine { xx: rx, yy: ry, ..Affine::IDENTITY };
        let shape = Affine { xx: grow, yy: grow, dx: centre.x, dy: centre.y, ..Affine::IDENTITY };
        let map = shape.then(stretch).then(turned);
        let mut curves: Vec<Segment> = circle(first, swept).iter().map(|curve| curve.transformed(&map)).collect();
        if let Some(Segment::Cubic(_, _, last)) = curves.last_mut() {
            *last = end;
        }
        curves
    }
}

/// A rotation by degrees, exact for quarter turns.
pub fn turning(degrees: f64) -> Affine {
    let quarter = |sin: f64, cos: f64| Affine { xx: cos, xy: -sin, yx: sin, yy: cos, dx: 0.0, dy: 0.0 };
    match degrees.rem_euclid(360.0) {
        0.0 => Affine::IDENTITY,
        90.0 => quarter(1.0, 0.0),
        180.0 => quarter(0.0, -1.0),
        270.0 => quarter(-1.0, 0.0),
        _ => Affine::rotation(degrees.to_radians()),
    }
}

/// An arc of the unit circle round the origin from an angle on, over an angle with its sign.
pub fn circle(first: f64, swept: f64) -> Vec<Segment> {
    // A hair less, so that a rounded quarter is still a quarter.
    let count = (swept.abs() / (PI * 0.5) * TO_A_QUARTER - 1e-9).ceil().max(1.0);
    let step = swept / count;
    let arm = 4.0 / 3.0 * libm::tan(step * 0.25);
    let mut curves = Vec::new();
    let mut at = 0.0;
    while at < count {
        let (p, q) = (on_circle(first + step * at), on_circle(first + step * (at + 1.0)));
        curves.push(Segment::Cubic(p + p.left() * arm, q - q.left() * arm, q));
        at += 1.0;
    }
    curves
}

fn on_circle(angle: f64) -> Point {
    Point::new(libm::cos(angle), libm::sin(angle))
}

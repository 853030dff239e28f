//! Curves through the corners of a flattened line: arcs where there were arcs.

use super::path::{Path, Segment};
use super::point::Point;

/// Cosine of 25°: a corner that turns further is one.
const CORNER: f64 = 0.906_307_787_036_65;
/// Fewer straight pieces than this are left straight.
const LEAST: usize = 4;
/// Cosine of 45°: a wider arc is made of several cubics, each within a 200,000th of its radius.
const WIDEST: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// A closed path of lines and curves whose distance from every corner of a closed polyline is within `tolerance` mm, and
/// from every straight piece within twice that. Corners that turn by more than 25° stay corners.
pub fn fitted(ring: &[Point], tolerance: f64) -> Path {
    let count = ring.len();
    let start = (0..count).find(|at| turns(ring, *at)).unwrap_or(0);
    let turned: Vec<Point> = ring.iter().cycle().skip(start).take(count + 1).copied().collect();
    let Some(first) = turned.first() else { return Path::default() };
    let mut segments = Vec::new();
    let mut from = 0;
    while from + 1 < turned.len() {
        let end = (from + 1..turned.len()).find(|at| turns(ring, (start + at) % count.max(1))).unwrap_or(count);
        let stretch = turned.get(from..=end).unwrap_or_default();
        let (to, arc) = longest(stretch, tolerance);
        match arc {
            Some(arc) => arc.segments(&mut segments),
            None => segments.extend(stretch.get(1).map(|point| Segment::Line(*point))),
        }
        from += to.max(1);
    }
    Path::new(*first, segments)
}

/// Whether a ring turns at a corner.
fn turns(ring: &[Point], at: usize) -> bool {
    let point = |at: usize| ring.get(at % ring.len().max(1)).copied().unwrap_or_default();
    let before = (point(at) - point(at + ring.len().saturating_sub(1))).unit();
    let after = (point(at + 1) - point(at)).unit();
    before.zip(after).is_some_and(|(before, after)| before.dot(after) < CORNER)
}

/// How many straight pieces from the start of a stretch one arc can stand for, and the arc; 1 and none for a line.
fn longest(stretch: &[Point], tolerance: f64) -> (usize, Option<Arc>) {
    let all = stretch.len().saturating_sub(1);
    let fits = |to: usize| stretch.get(..=to).and_then(|part| Arc::through(part, tolerance));
    let (mut good, mut arc) = (1, None);
    let mut step = LEAST;
    // Twice as far while it fits, then half as far back.
    while step > 0 && good < all {
        let to = (good + step).min(all);
        match fits(to).filter(|_| to >= LEAST) {
            Some(found) => {
                (good, arc) = (to, Some(found));
                step *= 2;
            }
            None if arc.is_none() => break,
            None => step /= 2,
        }
    }
    (good, arc)
}

/// Part of a circle, less than half of it.
struct Arc {
    centre: Point,
    from: Point,
    to: Point,
    left: bool,
}

impl Arc {
    /// The arc through the first, the middle and the last point, if it passes all others within the tolerance and every
    /// straight piece within twice it.
    fn through(points: &[Point], tolerance: f64) -> Option<Self> {
        let (from, to) = (*points.first()?, *points.last()?);
        let middle = *points.get(points.len() / 2)?;
        let (u, v) = (middle - from, to - from);
        let twice = 2.0 * u.cross(v);
        if twice == 0.0 {
            return None;
        }
        let (uu, vv) = (u.dot(u), v.dot(v));
        let centre = from + Point::new(v.y * uu - u.y * vv, u.x * vv - v.x * uu) * (1.0 / twice);
        let radius = from.distance(centre);
        let arc = Self { centre, from, to, left: twice > 0.0 };
        let near = |point: Point, allowed: f64| (point.distance(centre) - radius).abs() <= allowed;
        let pieces = || points.iter().zip(points.iter().skip(1));
        let round = pieces().all(|(a, b)| {
            let ahead = (*a - centre).cross(*b - centre);
            (ahead > 0.0) == arc.left && near(a.middle(*b), 2.0 * tolerance)
        });
        let half = (from - centre).cross(to - centre);
        // Beyond half a circle the middle would not tell which way round.
        let below_half = (half > 0.0) == arc.left && (from - centre).dot(to - centre) > -0.9 * radius * radius;
        (round && below_half && points.iter().all(|point| near(*point, tolerance))).then_some(arc)
    }

    /// The arc as cubics of at most 45°.
    fn segments(&self, out: &mut Vec<Segment>) {
        self.halved(self.from - self.centre, self.to - self.centre, 0, out);
        if let Some(Segment::Cubic(_, _, end)) = out.last_mut() {
            *end = self.to;
        }
    }

    fn halved(&self, a: Point, b: Point, depth: u32, out: &mut Vec<Segment>) {
        let radius = a.norm();
        let cos = a.dot(b) / (radius * b.norm());
        if cos < WIDEST && depth < 8 {
            let middle = (a + b).unit().map(|way| way * radius).unwrap_or(a);
            self.halved(a, middle, depth + 1, out);
            self.halved(middle, b, depth + 1, out);
            return;
        }
        // 4/3 · tan of a quarter of the angle, by two half-angle steps: tan(x/2) = (√(1 + t²) − 1) / t with t = tan x,
        // written so that nothing cancels.
        let half = ((1.0 - cos).max(0.0) / (1.0 + cos)).sqrt();
        let quarter = half / (1.0 + (1.0 + half * half).sqrt());
        let reach = 4.0 / 3.0 * quarter;
        let along = |p: Point| if self.left { p.left() } else { p.right() };
        let (first, second) = (a + along(a) * reach, b - along(b) * reach);
        out.push(Segment::Cubic(self.centre + first, self.centre + second, self.centre + b));
    }
}

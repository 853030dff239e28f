//! Fewer corners, only outward: the result holds the outline and is hardly larger.

use crate::geom::grid::{GridPoint, Polygon, orient};

/// Outlines with no more corners than this stay as they are.
const FEW: usize = 16;
/// Largest distance one step goes outward, in parts of the square root of the area, and in µm.
const STEP: (f64, f64) = (0.003, 300.0);
/// Area added in all, in parts of the area.
const ADDED: f64 = 0.003;

/// An outline of fewer corners that holds the given simple, anticlockwise one.
pub fn grown_simple(outline: &Polygon) -> Polygon {
    let area2 = outline.area2() as f64;
    let far = ((area2 / 2.0).sqrt() * STEP.0).min(STEP.1);
    let mut points = outline.points.clone();
    let mut cuts: Vec<Option<Cut>> = (0..points.len()).map(|at| Cut::at(&points, at, far)).collect();
    let mut left = area2 * ADDED;
    while points.len() > FEW {
        let Some((at, cut)) = least(&cuts).filter(|(_, cut)| cut.added <= left) else { break };
        left -= cut.added;
        let at = cut.apply(&mut points, &mut cuts, at);
        // A cut looks at the corner before it and at two behind.
        let n = points.len();
        for near in (n + at - 3..=n + at + 1).map(|near| near % n) {
            cuts[near] = Cut::at(&points, near, far);
        }
    }
    let out = Polygon { points }.tidied();
    if out.crossing().is_some() { outline.clone() } else { out }
}

/// The cut that adds least, the first of equals, with its corner.
fn least(cuts: &[Option<Cut>]) -> Option<(usize, Cut)> {
    let all = cuts.iter().enumerate().filter_map(|(at, cut)| Some((at, (*cut)?)));
    all.min_by(|(_, a), (_, b)| a.added.total_cmp(&b.added))
}

/// A step that takes one corner away.
#[derive(Clone, Copy)]
struct Cut {
    /// Where its corner and the next become one; none if a hollow corner is bridged.
    tip: Option<GridPoint>,
    /// Area added, doubled, in µm².
    added: f64,
}

impl Cut {
    /// The cut at a corner that moves the line by no more than `far`.
    fn at(points: &[GridPoint], at: usize, far: f64) -> Option<Self> {
        let n = points.len();
        let [p, q, r, s] = [points[(at + n - 1) % n], points[at], points[(at + 1) % n], points[(at + 2) % n]];
        let turn = orient(p, q, r);
        if turn <= 0 {
            let added = -turn as f64;
            let base = length(p, r);
            return (added <= far * base).then_some(Self { tip: None, added });
        }
        if orient(q, r, s) <= 0 {
            return None;
        }
        let tip = meeting(p, q, r, s)?;
        let added = orient(q, tip, r) as f64;
        let near = added <= far * length(q, r);
        near.then_some(Self { tip: Some(tip), added })
    }

    /// Takes the corner away, with what was found there, and says where the line goes on.
    fn apply(self, points: &mut Vec<GridPoint>, cuts: &mut Vec<Option<Self>>, at: usize) -> usize {
        let gone = match self.tip {
            None => at,
            Some(tip) => {
                points[at] = tip;
                (at + 1) % points.len()
            }
        };
        points.remove(gone);
        cuts.remove(gone);
        if gone < at { at - 1 } else { at % points.len() }
    }
}

fn length(p: GridPoint, q: GridPoint) -> f64 {
    let (x, y) = ((q.x - p.x) as f64, (q.y - p.y) as f64);
    (x * x + y * y).sqrt()
}

/// A grid point at or just beyond where p-q and s-r, run on, meet: with it the outline still holds q and r.
fn meeting(p: GridPoint, q: GridPoint, r: GridPoint, s: GridPoint) -> Option<GridPoint> {
    let (ux, uy) = ((q.x - p.x) as f64, (q.y - p.y) as f64);
    let (vx, vy) = ((r.x - s.x) as f64, (r.y - s.y) as f64);
    let across = ux * vy - uy * vx;
    // Both lines run on towards each other only if they turn less than half a circle together.
    if across >= 0.0 {
        return None;
    }
    let t = ((r.x - q.x) as f64 * vy - (r.y - q.y) as f64 * vx) / across;
    let (x, y) = (libm::round(q.x as f64 + t * ux) as i64, libm::round(q.y as f64 + t * uy) as i64);
    let around = (-2..=2).flat_map(|dx| (-2..=2).map(move |dy| GridPoint::new(x + dx, y + dy)));
    let holds = |tip: &GridPoint| orient(p, *tip, q) >= 0 && orient(*tip, s, r) >= 0;
    around.filter(holds).min_by_key(|tip| (orient(q, *tip, r), tip.x, tip.y))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_keeps_its_points_inside_and_loses_corners() {
        let corner = |k: i32| {
            let (sin, cos) = libm::sincos(f64::from(k) * std::f64::consts::PI / 180.0);
            GridPoint::new((60_000.0 * cos) as i64, (60_000.0 * sin) as i64)
        };
        let circle = Polygon { points: (0..360).map(corner).collect() }.tidied();
        let out = grown_simple(&circle);
        assert!(out.points.len() < 60, "{}", out.points.len());
        let held = |p: &GridPoint| out.side(*p) != crate::geom::grid::Side::Outside;
        assert!(circle.points.iter().all(held));
        assert!(out.area2() as f64 <= circle.area2() as f64 * (1.0 + ADDED));
    }
}

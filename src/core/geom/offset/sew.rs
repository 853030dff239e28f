//! The sew line inside a cut line, with the points of the outline on it.

use super::super::flatten::flatten;
use super::super::grid::GridPoint;
use super::super::outline::{Mark, Outline};
use super::super::point::{Point, Rect};
use super::super::shape::closed_polyline;
use super::vanish::{SAME, samples};
use super::{Corners, OffsetError, band, inset};
use std::collections::BTreeMap;

/// Turns below this are none, in degrees.
const SMOOTH: f64 = 0.5;

/// The sew line inside a cut line as an outline of its own: straight pieces on the grid, with the
/// same named points, each where the edges beside it meet now.
///
/// # Errors
/// As for [`inset`]; allowances that leave several parts or part two edges.
pub fn sew_line(outline: &Outline, allowances: &[f64], corners: impl Into<Corners>) -> Result<Outline, OffsetError> {
    let inside = inset(outline, allowances, corners)?;
    let contour = inside.single().ok_or(OffsetError::Parts { found: inside.contours.len() })?;
    let mut corners = contour.to_points();
    let mut smooth = BTreeMap::new();
    for index in 0..outline.points.len() {
        // Where the curve is tighter than the allowance its neighbours meet in a corner instead.
        let goal = smooth_goal(outline, allowances, index);
        if let Some(place) = goal.and_then(|goal| insert(&mut corners, goal)) {
            smooth.insert(index, place);
        }
    }
    let labels = labels(outline, allowances, &corners);
    let mut named = Vec::new();
    for (index, point) in outline.points.iter().enumerate() {
        let old = outline.point(&point.id).unwrap_or_default();
        let at = match smooth.get(&index) {
            Some(place) => corners.iter().position(|corner| corner == place),
            None => meeting(index, outline.points.len(), &labels, &corners, old),
        };
        named.push((point.id.clone(), at.ok_or_else(|| OffsetError::Parted { id: point.id.clone() })?));
    }
    let parts = OffsetError::Parts { found: 0 };
    let sewn = Outline::assemble(closed_polyline(&corners), named).map_err(|_| parts)?;
    Ok(with_notches(sewn.dressed_like(outline), outline))
}

/// A notch at a named point of the drawn line stays at that point, which lies elsewhere on the sew line.
fn with_notches(mut sewn: Outline, drawn: &Outline) -> Outline {
    let at_point = |at: Point| sewn.point(&drawn.point_near(at)?.id);
    let moved = sewn.notches.iter().map(|mark| Mark { at: at_point(mark.at).unwrap_or(mark.at), ..mark.clone() });
    sewn.notches = moved.collect();
    sewn
}

/// Where a named point comes to lie on which the outline runs on smoothly at one allowance:
/// square to it. None for corners.
fn smooth_goal(outline: &Outline, allowances: &[f64], index: usize) -> Option<Point> {
    let count = outline.points.len();
    let width = |run: usize| allowances.get(run % count).copied();
    let named = outline.points.get(index)?;
    let (before, after) = (width(index + count - 1)?, width(index)?);
    let turn = outline.turn_at(&named.id)?.abs();
    let (start, segment) = outline.path.pieces().nth(named.at)?;
    let normal = segment.start_direction(start)?.right();
    ((before - after).abs() < 0.000_5 && turn < SMOOTH).then(|| start - normal * after)
}

/// Makes a corner of the place on the contour nearest to a point; none if that is farther than
/// the accuracy.
fn insert(corners: &mut Vec<Point>, goal: Point) -> Option<Point> {
    let edges = corners.iter().zip(corners.iter().cycle().skip(1)).enumerate();
    let off = edges.map(|(at, (a, b))| (at, goal.distance_to_edge(*a, *b)));
    let (at, _) = off.min_by(|a, b| a.1.total_cmp(&b.1)).filter(|(_, off)| *off <= SAME)?;
    let place = GridPoint::nearest(goal).point();
    let ends = [at, (at + 1) % corners.len()];
    let there = ends.iter().filter_map(|end| corners.get(*end)).find(|corner| corner.distance(place) < 0.002);
    if let Some(corner) = there.copied() {
        return Some(corner);
    }
    corners.insert(at + 1, place);
    Some(place)
}

/// The run whose allowance each edge of a contour keeps, if any.
fn labels(outline: &Outline, allowances: &[f64], corners: &[Point]) -> Vec<Option<usize>> {
    let edges: Vec<(Point, Point)> = corners.iter().copied().zip(corners.iter().copied().cycle().skip(1)).collect();
    let mut labels = kept_along(outline, allowances, &edges);
    // An edge that runs past its own run at both ends keeps the distance only in its middle.
    let unseen: Vec<usize> = (0..allowances.len()).filter(|run| !labels.contains(&Some(*run))).collect();
    for (index, allowance) in allowances.iter().enumerate().filter(|(index, _)| unseen.contains(index)) {
        for (point, normal) in samples(outline, index) {
            let place = point - normal * *allowance;
            let level = |(a, b): (Point, Point)| (b - a).dot(normal).abs() < 0.05 * a.distance(b);
            let on = |edge: &&(Point, Point)| place.distance_to_edge(edge.0, edge.1) <= SAME && level(**edge);
            let free = |(label, _): &(&mut Option<usize>, &(Point, Point))| label.is_none();
            let found = labels.iter_mut().zip(&edges).filter(free).find(|(_, edge)| on(edge));
            if let Some((label, _)) = found {
                *label = Some(index);
            }
        }
    }
    labels
}

/// Labels of the edges that keep their distance from one run all along.
fn kept_along(outline: &Outline, allowances: &[f64], edges: &[(Point, Point)]) -> Vec<Option<usize>> {
    let runs: Vec<Line> = outline.runs().iter().map(|run| Line::new(flatten(&run.path(), band::FINE))).collect();
    let label = |(a, b): &(Point, Point)| {
        let off = |(index, line): (usize, &Line)| {
            let width = allowances.get(index).copied().unwrap_or(0.0);
            let miss = |t: f64| (line.distance(a.lerp(*b, t)) - width).abs();
            // Three places: an edge that only crosses the distance does not keep it.
            (index, miss(0.25).max(miss(0.5)).max(miss(0.75)))
        };
        let best = runs.iter().enumerate().map(off).min_by(|a, b| a.1.total_cmp(&b.1))?;
        (best.1 <= SAME).then_some(best.0)
    };
    edges.iter().map(label).collect()
}

/// The corner of the contour where the run before a named point gives way to the run after it:
/// of the corners between the last edge of the one and the first of the other, the one nearest
/// to where these edges would meet; to where the point was if they lie in one line.
fn meeting(index: usize, count: usize, labels: &[Option<usize>], corners: &[Point], old: Point) -> Option<usize> {
    let before = (index + count - 1) % count;
    let edges = labels.len();
    let gap = |start: usize| {
        let after = |step: &usize| labels.get((start + step) % edges).copied().flatten().is_some();
        let steps = (1..=edges).find(after)?;
        (labels.get((start + steps) % edges) == Some(&Some(index))).then_some((start, steps))
    };
    let corner = |at: usize| corners.get(at % edges).copied().unwrap_or(old);
    let starts = (0..edges).filter(|start| labels.get(*start) == Some(&Some(before)));
    let nearest = |(start, steps): (usize, usize)| {
        let last = (corner(start), corner(start + 1));
        let first = (corner(start + steps), corner(start + steps + 1));
        let goal = lines_meet(last, first).unwrap_or(old);
        let between = (1..=steps).map(|step| (start + step) % edges);
        between.min_by(|a, b| corner(*a).distance(goal).total_cmp(&corner(*b).distance(goal)))
    };
    let found = starts.filter_map(gap).filter_map(nearest);
    found.min_by(|a, b| corner(*a).distance(old).total_cmp(&corner(*b).distance(old)))
}

/// Where two lines through two points each meet; none if they turn by less than 20°.
fn lines_meet((a, b): (Point, Point), (c, d): (Point, Point)) -> Option<Point> {
    let (u, v) = ((b - a).unit()?, (d - c).unit()?);
    let sin = u.cross(v);
    (sin.abs() > 0.342).then(|| a + u * ((c - a).cross(v) / sin))
}

/// A polyline that answers distances quickly: in stretches with a box round each.
struct Line {
    stretches: Vec<(Rect, Vec<Point>)>,
}

impl Line {
    fn new(points: Vec<Point>) -> Self {
        let starts = (0..points.len().saturating_sub(1)).step_by(32);
        let stretch = |start: usize| points.iter().skip(start).take(33).copied().collect::<Vec<_>>();
        let boxed = |points: Vec<Point>| Rect::around(points.iter().copied()).map(|bounds| (bounds, points));
        Self { stretches: starts.map(stretch).filter_map(boxed).collect() }
    }

    fn distance(&self, point: Point) -> f64 {
        let mut best = f64::INFINITY;
        for (bounds, points) in &self.stretches {
            if bounds.distance(point) < best {
                let edges = points.iter().zip(points.iter().skip(1));
                best = edges.map(|(a, b)| point.distance_to_edge(*a, *b)).fold(best, f64::min);
            }
        }
        best
    }
}

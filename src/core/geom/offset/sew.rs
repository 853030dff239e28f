//! The sew line inside a cut line, with the points of the outline on it.

use super::super::error::Ends;
use super::super::flatten::flatten;
use super::super::grid::Polygon;
use super::super::measure;
use super::super::outline::Outline;
use super::super::path::Path;
use super::super::point::Point;
use super::super::shape::closed_polyline;
use super::{Corner, CutLine, OffsetError, band, inset};

/// Two lines this near are one, in mm.
const SAME: f64 = 0.01;

/// The sew line inside a cut line as an outline of its own: straight pieces on the grid, with the
/// same named points, each where the edges beside it meet now.
///
/// # Errors
/// As for [`inset`]; allowances that leave several parts or part two edges.
pub fn sew_line(outline: &Outline, allowances: &[f64], corner: Corner) -> Result<Outline, OffsetError> {
    let inside = inset(outline, allowances, corner)?;
    let contour = inside.single().ok_or(OffsetError::Parts { found: inside.contours.len() })?;
    let labels = labels(outline, allowances, contour);
    let corners = contour.to_points();
    let mut named = Vec::new();
    for (index, point) in outline.points.iter().enumerate() {
        let old = outline.point(&point.id).unwrap_or_default();
        let at = meeting(index, outline.points.len(), &labels, &corners, old);
        named.push((point.id.clone(), at.ok_or_else(|| OffsetError::Parted { id: point.id.clone() })?));
    }
    let parts = OffsetError::Parts { found: 0 };
    let sewn = Outline::assemble(closed_polyline(&corners), named).map_err(|_| parts)?;
    Ok(sewn.dressed_like(outline))
}

/// The run whose allowance each edge of a contour keeps, if any.
fn labels(outline: &Outline, allowances: &[f64], contour: &Polygon) -> Vec<Option<usize>> {
    let runs = flat_runs(outline);
    let label = |(a, b): (Point, Point)| {
        let off = |(index, (_, line)): (usize, &(Ends, Vec<Point>))| {
            let width = allowances.get(index).copied().unwrap_or(0.0);
            let miss = |p: Point| (distance(p, line) - width).abs();
            // Both ends and the middle: an edge that only crosses the distance does not keep it.
            (index, miss(a.middle(b)).max(miss(a.lerp(b, 0.25)).max(miss(a.lerp(b, 0.75)))))
        };
        let best = runs.iter().enumerate().map(off).min_by(|a, b| a.1.total_cmp(&b.1))?;
        (best.1 <= SAME).then_some(best.0)
    };
    contour.edges().map(|(a, b)| label((a.point(), b.point()))).collect()
}

/// The corner of the contour where the run before a named point gives way to the run after it:
/// of the corners between the last edge of the one and the first of the other, the one nearest
/// to where the point was.
fn meeting(index: usize, count: usize, labels: &[Option<usize>], corners: &[Point], old: Point) -> Option<usize> {
    let before = (index + count - 1) % count;
    let edges = labels.len();
    let gap = |start: usize| {
        let after = |step: &usize| labels.get((start + step) % edges).copied().flatten().is_some();
        let steps = (1..=edges).find(after)?;
        (labels.get((start + steps) % edges) == Some(&Some(index))).then_some((start, steps))
    };
    let starts = (0..edges).filter(|start| labels.get(*start) == Some(&Some(before)));
    let between = starts.filter_map(gap).flat_map(|(start, steps)| (1..=steps).map(move |step| (start + step) % edges));
    let away = |at: &usize| corners.get(*at).map_or(f64::INFINITY, |corner| corner.distance(old));
    between.min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// Refuses a line on which nothing is left of some run at its allowance.
pub(super) fn refuse_vanished(outline: &Outline, allowances: &[f64], inside: &CutLine) -> Result<(), OffsetError> {
    let runs = outline.runs();
    for (index, (run, allowance)) in runs.iter().zip(allowances).enumerate() {
        let length = measure::length(&run.path());
        let samples = ((length * 2.0) as usize).clamp(32, 1_000);
        let seen = |i: usize| {
            let share = (i as f64 + 0.5) / samples as f64;
            let spot = outline.along_run(index, length * share);
            spot.is_some_and(|(point, normal)| on_line(point - normal * *allowance, inside))
        };
        if !(0..samples).any(seen) {
            return Err(OffsetError::Vanished { run: run.ends(), allowance: *allowance });
        }
    }
    if runs.is_empty() && inside.contours.is_empty() {
        let allowance = allowances.first().copied().unwrap_or(0.0);
        return Err(OffsetError::Vanished { run: Ends::default(), allowance });
    }
    Ok(())
}

fn on_line(point: Point, line: &CutLine) -> bool {
    let near = |(a, b): (super::super::grid::GridPoint, super::super::grid::GridPoint)| {
        point.distance_to_edge(a.point(), b.point()) <= SAME
    };
    line.contours.iter().flat_map(Polygon::edges).any(near)
}

fn flat_runs(outline: &Outline) -> Vec<(Ends, Vec<Point>)> {
    let flat = |path: Path| flatten(&path, band::FINE);
    outline.runs().iter().map(|run| (run.ends(), flat(run.path()))).collect()
}

fn distance(point: Point, line: &[Point]) -> f64 {
    let edges = line.iter().zip(line.iter().skip(1));
    edges.map(|(a, b)| point.distance_to_edge(*a, *b)).fold(f64::INFINITY, f64::min)
}

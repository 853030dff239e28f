//! Edges of which nothing is left inside the allowances.

use super::super::error::Ends;
use super::super::grid::{GridPoint, Polygon};
use super::super::measure;
use super::super::outline::{Outline, Run};
use super::super::place;
use super::super::point::Point;
use super::line::{CutLine, OffsetError};

/// Refuses a line on which nothing is left of some run at its allowance.
pub(super) fn refuse_vanished(outline: &Outline, allowances: &[f64], inside: &CutLine) -> Result<(), OffsetError> {
    let runs = outline.runs();
    for (index, (run, allowance)) in runs.iter().zip(allowances).enumerate() {
        let left = samples(outline, index).any(|(point, normal)| on_line(point - normal * *allowance, inside));
        if !left {
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
    let near = |(a, b): (GridPoint, GridPoint)| point.distance_to_edge(a.point(), b.point()) <= SAME;
    line.contours.iter().flat_map(Polygon::edges).any(near)
}

/// Two lines this near are one, in mm.
pub(super) const SAME: f64 = 0.01;

/// Points every half millimetre along a run, at least 32 and at most 1,000, with their normals.
pub(super) fn samples(outline: &Outline, run: usize) -> impl Iterator<Item = (Point, Point)> {
    let path = outline.runs().get(run).map(Run::path).unwrap_or_default();
    let length = measure::length(&path);
    let count = ((length * 2.0) as u32).clamp(32, 1_000);
    (0..count).filter_map(move |i| place::on_path(&path, length * (f64::from(i) + 0.5) / f64::from(count)))
}

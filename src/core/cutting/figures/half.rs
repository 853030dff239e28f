//! Half of a piece that is its own image about the roll's axis: cut on the fold of folded fabric it comes out whole.

use crate::geom::grid::{GridPoint, Polygon};
use crate::lay::Turn;

/// How far a corner may lie from the image of the outline, µm: what drawing and rounding leave.
const SAME: f64 = 60.0;

/// The half above the axis that halves the height of the outline, moved so that the axis is y = 0; none if the outline
/// is not its own image about it, or if the half falls apart.
pub(crate) fn half(outline: &Polygon) -> Option<Polygon> {
    let (low, high) = outline.bbox()?;
    // Half a step of the grid is lost upward, so that the half is never too narrow.
    let axis = i64::midpoint(low.y, high.y);
    let sum = low.y + high.y;
    let near = |p: &GridPoint| {
        let image = GridPoint::new(p.x, sum - p.y).point();
        let far = |(a, b): (GridPoint, GridPoint)| image.distance_to_edge(a.point(), b.point());
        outline.edges().map(far).fold(f64::INFINITY, f64::min) * 1e3 <= SAME
    };
    if !outline.points.iter().all(near) {
        return None;
    }
    let mut points = Vec::new();
    for (a, b) in outline.edges() {
        if a.y >= axis {
            points.push(GridPoint::new(a.x, a.y - axis));
        }
        if (a.y > axis && b.y < axis) || (a.y < axis && b.y > axis) {
            points.push(GridPoint::new(crossing(a, b, axis), 0));
        }
    }
    let half = Polygon { points }.tidied();
    let whole = half.points.len() >= 3 && half.area2() > 0 && half.crossing().is_none();
    // One stretch on the fold, or the half is in several parts.
    let on_fold = half.edges().filter(|(a, b)| a.y == 0 && b.y == 0).count();
    (whole && on_fold == 1).then_some(half)
}

/// Where an edge passes a height, rounded to the grid.
fn crossing(a: GridPoint, b: GridPoint, y: i64) -> i64 {
    let (run, rise) = (i128::from(b.x - a.x), i128::from(b.y - a.y));
    let (twice, base) = (2 * run * i128::from(y - a.y), 2 * rise);
    let rounded = (twice + if (twice < 0) == (base < 0) { rise } else { -rise }) / base;
    a.x + i64::try_from(rounded).unwrap_or(0)
}

/// Turns of a half that keep its axis on the fold: as it lies and, where the fabric lets it, end for end.
pub(crate) fn turns(either: bool) -> Vec<Turn> {
    let ahead = [Turn::NONE];
    let back = Turn { degrees: 180.0, mirrored: true };
    ahead.into_iter().chain(either.then_some(back)).collect()
}

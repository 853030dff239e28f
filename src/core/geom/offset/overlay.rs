//! Unions and differences of polygons, exact on integers.

use super::super::grid::{GridPoint, Polygon, STEPS};
use super::super::point::Point;
use super::line::CutLine;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::core::solver::Solver;
use i_overlay::i_float::int::point::IntPoint;

/// Working steps in a micrometre: crossing points are rounded far below the grid.
const FINER: i64 = 1_024;
/// Contours smaller than this are rounding, in µm²: a hundredth of a square millimetre, doubled.
const SLIVER: u128 = 20_000;
/// Corners nearer than this to the line without them are left out, in working steps: 2 µm.
const NEAR: f64 = 2.0 * FINER as f64;

/// The union of a piece and its bands.
pub(super) fn join(piece: &[Point], bands: &[Vec<Point>]) -> CutLine {
    let mut overlay = Overlay::<i64>::new(piece.len() + bands.len() * 4);
    overlay.add_contour(&fine(piece), ShapeType::Subject);
    for band in bands {
        overlay.add_contour(&fine(band), ShapeType::Subject);
    }
    landed(overlay.overlay(OverlayRule::Subject, FillRule::NonZero))
}

/// A piece without its bands.
pub(super) fn cut(piece: &[Point], bands: &[Vec<Point>]) -> CutLine {
    let mut overlay = Overlay::<i64>::new(piece.len() + bands.len() * 4);
    overlay.add_contour(&fine(piece), ShapeType::Subject);
    for band in bands {
        overlay.add_contour(&fine(band), ShapeType::Clip);
    }
    landed(overlay.overlay(OverlayRule::Difference, FillRule::NonZero))
}

fn fine(points: &[Point]) -> Vec<IntPoint<i64>> {
    let steps = |mm: f64| (mm * STEPS * FINER as f64).round() as i64;
    points.iter().map(|point| IntPoint::new(steps(point.x), steps(point.y))).collect()
}

/// Onto the grid of whole micrometres: without slivers, the largest contour first, each begun at
/// its lowest left corner, so that equal regions are equal values.
fn landed(shapes: Vec<Vec<Vec<IntPoint<i64>>>>) -> CutLine {
    let step = |fine: i64| (fine + FINER / 2).div_euclid(FINER);
    let coarse = |contour: Vec<GridPoint>| contour.iter().map(|p| GridPoint::new(step(p.x), step(p.y))).collect();
    let kept = |contour: Vec<IntPoint<i64>>| simplified(polygon(contour).points);
    let landed = |points: Vec<GridPoint>| Polygon { points: coarse(points) }.tidied();
    let mut contours: Vec<Polygon> = shapes.into_iter().flatten().map(kept).map(landed).collect();
    // Rounding can push a corner over an edge that passes within half a micrometre.
    if contours.iter().any(|contour| contour.crossing().is_some()) {
        contours = untangled(&contours);
    }
    contours.retain(|contour| contour.area2().unsigned_abs() > SLIVER);
    contours.sort_by(|a, b| b.area2().cmp(&a.area2()).then_with(|| a.points.cmp(&b.points)));
    CutLine { contours: contours.into_iter().map(begun_lowest).collect() }
}

/// Without corners that lie within [`NEAR`] of the line through the others: where two bands join
/// in one line, and where a curve has more corners than it needs. The lowest corner and the one
/// farthest from it stay, and of each stretch between two that stay the one farthest off.
fn simplified(points: Vec<GridPoint>) -> Vec<GridPoint> {
    let mut points = begun_lowest(Polygon { points }).points;
    let Some(first) = points.first().copied() else {
        return points;
    };
    points.push(first);
    let mut stays = vec![false; points.len()];
    let mut open = vec![(0, points.len() - 1)];
    while let Some((from, to)) = open.pop() {
        for end in [from, to] {
            if let Some(flag) = stays.get_mut(end) {
                *flag = true;
            }
        }
        if let Some((at, off)) = farthest(&points, from, to).filter(|(_, off)| *off > NEAR) {
            debug_assert!(off.is_finite() && at > from && at < to);
            open.extend([(from, at), (at, to)]);
        }
    }
    points.pop();
    points.into_iter().zip(stays).filter(|(_, stays)| *stays).map(|(point, _)| point).collect()
}

/// The corner between two others that is farthest from the straight piece between them.
fn farthest(points: &[GridPoint], from: usize, to: usize) -> Option<(usize, f64)> {
    let (a, b) = (points.get(from)?, points.get(to)?);
    let inner = points.iter().enumerate().take(to).skip(from + 1);
    let off = |(at, p): (usize, &GridPoint)| (at, float(*p).distance_to_edge(float(*a), float(*b)));
    inner.map(off).max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
}

/// Working steps as they are; differences of less than 2^53 of them are exact.
fn float(point: GridPoint) -> Point {
    Point::new(point.x as f64, point.y as f64)
}

fn polygon(contour: Vec<IntPoint<i64>>) -> Polygon {
    Polygon { points: contour.iter().map(|point| GridPoint::new(point.x, point.y)).collect() }.tidied()
}

/// The same region without crossings, worked out on the grid itself.
fn untangled(contours: &[Polygon]) -> Vec<Polygon> {
    let options = IntOverlayOptions { ogc: true, ..IntOverlayOptions::default() };
    let mut overlay = Overlay::<i64>::new_custom(contours.len() * 4, options, Solver::default());
    for contour in contours {
        let points: Vec<_> = contour.points.iter().map(|point| IntPoint::new(point.x, point.y)).collect();
        overlay.add_contour(&points, ShapeType::Subject);
    }
    overlay.overlay(OverlayRule::Subject, FillRule::Positive).into_iter().flatten().map(polygon).collect()
}

fn begun_lowest(mut polygon: Polygon) -> Polygon {
    let lowest = polygon.points.iter().enumerate().min_by_key(|(_, point)| (point.y, point.x));
    if let Some(index) = lowest.map(|(index, _)| index) {
        polygon.points.rotate_left(index);
    }
    polygon
}

//! Unions and differences of polygons, exact on integers.

use super::super::grid::{GridPoint, Polygon, STEPS, orient};
use super::super::point::Point;
use super::CutLine;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::core::solver::Solver;
use i_overlay::i_float::int::point::IntPoint;

/// Working steps in a micrometre: crossing points are rounded far below the grid.
const FINER: i64 = 1_024;
/// Contours smaller than this are rounding, in µm²: a hundredth of a square millimetre, doubled.
const SLIVER: u128 = 20_000;
/// How far off a straight line two bands can join, in working steps: 0.02 µm.
const HAIR: i128 = 20;

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
    let kept = |contour: Vec<IntPoint<i64>>| straightened(&polygon(contour).points);
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

/// Without the corners where two bands join in one line, which rounding to the working grid
/// leaves a hair off it. Never more than two in a row, the ends of one strip, so that no curve is
/// worn away.
fn straightened(points: &[GridPoint]) -> Vec<GridPoint> {
    let before = points.iter().cycle().skip(points.len().saturating_sub(1));
    let after = points.iter().cycle().skip(1);
    let mut triples = before.zip(points).zip(after);
    let Some(first) = triples.position(|((a, b), c)| !near_line(*a, *b, *c)) else {
        return points.to_vec();
    };
    let ring = || points.iter().cycle().skip(first).copied();
    let mut kept: Vec<GridPoint> = Vec::with_capacity(points.len());
    let mut row = 0;
    for (b, c) in ring().zip(ring().skip(1)).take(points.len()) {
        row = if row < 2 && kept.last().is_some_and(|a| near_line(*a, b, c)) { row + 1 } else { 0 };
        if row == 0 {
            kept.push(b);
        }
    }
    kept
}

/// Whether `b` lies within a hair of the line from `a` to `c`, on its way.
fn near_line(a: GridPoint, b: GridPoint, c: GridPoint) -> bool {
    let (x, y) = (i128::from(c.x - a.x), i128::from(c.y - a.y));
    let off = orient(a, b, c);
    let between = i128::from(b.x - a.x) * x + i128::from(b.y - a.y) * y > 0;
    between && off * off <= HAIR * HAIR * (x * x + y * y)
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

//! Unions and differences of polygons, exact on integers.

use super::super::grid::{GridPoint, Polygon, STEPS};
use super::super::point::Point;
use super::CutLine;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

/// Working steps in a micrometre: crossing points are rounded far below the grid.
const FINER: i64 = 1_024;
/// Contours smaller than this are rounding, in µm²: a hundredth of a square millimetre, doubled.
const SLIVER: u128 = 20_000;

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
    let polygon = |contour: Vec<IntPoint<i64>>| {
        let points = contour.iter().map(|point| GridPoint::new(step(point.x), step(point.y))).collect();
        begun_lowest(Polygon { points }.tidied())
    };
    let mut contours: Vec<Polygon> = shapes.into_iter().flatten().map(polygon).collect();
    contours.retain(|contour| contour.area2().unsigned_abs() > SLIVER);
    contours.sort_by(|a, b| b.area2().cmp(&a.area2()).then_with(|| a.points.cmp(&b.points)));
    CutLine { contours }
}

fn begun_lowest(mut polygon: Polygon) -> Polygon {
    let lowest = polygon.points.iter().enumerate().min_by_key(|(_, point)| (point.y, point.x));
    if let Some(index) = lowest.map(|(index, _)| index) {
        polygon.points.rotate_left(index);
    }
    polygon
}

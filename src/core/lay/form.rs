//! Pieces made ready for the search: every allowed way of lying worked out once, grown by half the gap, and with no more
//! corners than it needs.

use super::instance::Turn;
use super::{reach, simple};
use crate::geom::grid::{GridPoint, Polygon};

/// Corners of the disc that rounds a grown outline, and of one so small that the grid would dent it, up to a radius in µm.
const DISC: usize = 24;
const SMALL: (usize, i64) = (8, 500);
/// Added to half the gap for rounding, in µm.
const SPARE: i64 = 2;

/// A place or a step, in whole micrometres: sums, differences and products of two are exact in `f64`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spot {
    /// Along the roll.
    pub x: f64,
    /// Across the roll.
    pub y: f64,
}

/// The nearest whole number, for any length here: beside 1.5 · 2⁵² there is no room for parts. Many times as fast as a call.
pub fn whole(value: f64) -> f64 {
    const LARGE: f64 = 6_755_399_441_055_744.0;
    value + LARGE - LARGE
}

/// An outline as it lies, its box at the origin.
#[derive(Debug)]
pub struct Form {
    /// What must not meet another's: holds the piece and half the gap.
    pub polygon: Polygon,
    /// Its corners as numbers for the search.
    pub spots: Vec<Spot>,
    /// Lower left corner of its box.
    pub low: Spot,
    /// Upper right corner of its box.
    pub high: Spot,
    /// Width and height of the piece itself, which must lie on the fabric.
    pub size: Spot,
}

impl Form {
    /// Makes a turned outline ready.
    pub fn new(outline: &Polygon, gap: i64) -> Self {
        let (_, high) = outline.bbox().unwrap_or_default();
        let polygon = simple::grown_simple(&grown(outline, gap));
        let spot = |p: &GridPoint| Spot { x: p.x as f64, y: p.y as f64 };
        let (low, top) = polygon.bbox().unwrap_or_default();
        Self {
            spots: polygon.points.iter().map(spot).collect(),
            low: spot(&low),
            high: spot(&top),
            size: spot(&high),
            polygon,
        }
    }
}

/// The outline and everything within half the gap, a little more at corners; hollows that close are filled.
fn grown(outline: &Polygon, gap: i64) -> Polygon {
    if gap == 0 {
        return outline.clone();
    }
    let inner = (gap + 1) / 2 + SPARE;
    let count = if inner <= SMALL.1 { SMALL.0 } else { DISC };
    let radius = inner as f64 / libm::cos(std::f64::consts::PI / count as f64);
    let corner = |k: usize| {
        let (sin, cos) = libm::sincos((k as f64 + 0.5) * 2.0 * std::f64::consts::PI / count as f64);
        let away = |value: f64| (if value < 0.0 { libm::floor(value) } else { libm::ceil(value) }) as i64;
        GridPoint::new(away(radius * cos), away(radius * sin))
    };
    let disc = Polygon { points: (0..count).map(corner).collect() };
    let contours = reach::forbidden(outline, &disc).into_iter().map(|points| Polygon { points });
    contours.max_by_key(Polygon::area2).map_or_else(|| outline.clone(), Polygon::tidied)
}

/// One way a piece may lie.
#[derive(Debug, Clone, Copy)]
pub struct Way {
    /// The form, by number.
    pub form: usize,
    /// The turn.
    pub turn: Turn,
    /// From the piece's own origin, turned, to the lower left corner of its box.
    pub shift: GridPoint,
}

/// A piece's ways, without those that look the same.
#[derive(Debug)]
pub struct Kind {
    /// At least one.
    pub ways: Vec<Way>,
    /// Lies on the fold.
    pub fold: bool,
    /// Area in µm².
    pub area: f64,
}

/// The outline with its box at the origin and begun at its lowest left corner, and where its box was.
pub fn at_origin(outline: &Polygon) -> (Polygon, GridPoint) {
    let (low, _) = outline.bbox().unwrap_or_default();
    let mut points: Vec<GridPoint> = outline.points.iter().map(|p| GridPoint::new(p.x - low.x, p.y - low.y)).collect();
    let first = points.iter().enumerate().min_by_key(|(_, p)| (p.y, p.x)).map_or(0, |(at, _)| at);
    points.rotate_left(first);
    (Polygon { points }, low)
}

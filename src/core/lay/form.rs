//! Pieces made ready for the search: every allowed way of lying worked out once, grown by half the gap, and with no more
//! corners than it needs.

use std::sync::OnceLock;

use super::field::{Facing, Field};
use super::instance::{Instance, Turn};
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
    /// Width and height of the piece itself, which must lie on the cloth.
    pub size: Spot,
}

impl Form {
    fn new(outline: &Polygon, gap: i64) -> Self {
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

/// All forms of an instance and the fields of their pairs, worked out when first asked for.
#[derive(Debug)]
pub struct Table {
    /// Every form once.
    pub forms: Vec<Form>,
    /// By piece.
    pub kinds: Vec<Kind>,
    fields: Vec<OnceLock<Field>>,
}

impl Table {
    /// Makes the pieces of a checked instance ready.
    pub fn new(instance: &Instance) -> Self {
        let mut outlines: Vec<Polygon> = Vec::new();
        let mut kinds = Vec::new();
        for piece in &instance.pieces {
            let mut ways: Vec<Way> = Vec::new();
            for (turn, outline) in piece.fitting(instance.cloth) {
                let (outline, shift) = at_origin(&outline);
                let form = outlines.iter().position(|known| *known == outline).unwrap_or(outlines.len());
                if form == outlines.len() {
                    outlines.push(outline);
                }
                if ways.iter().all(|way| way.form != form) {
                    ways.push(Way { form, turn, shift });
                }
            }
            let area = piece.outline.area2().abs() as f64 / 2.0;
            kinds.push(Kind { ways, fold: piece.fold, area });
        }
        let forms: Vec<Form> = outlines.iter().map(|outline| Form::new(outline, instance.cloth.gap)).collect();
        let fields = (0..forms.len() * (forms.len() + 1) / 2).map(|_| OnceLock::new()).collect();
        Self { forms, kinds, fields }
    }

    /// How far form `b` has to go, standing by (`dx`, `dy`) from form `a`, until it is free of it, in µm.
    pub fn depth(&self, a: usize, b: usize, dx: f64, dy: f64) -> f64 {
        let (a, b, dx, dy) = if a <= b { (a, b, dx, dy) } else { (b, a, -dx, -dy) };
        self.field(a, b).depth(&self.forms[a], &self.forms[b], dx, dy)
    }

    /// Which way form `b`, standing by (`dx`, `dy`) from form `a`, would be free of it soonest.
    pub fn facing(&self, a: usize, b: usize, dx: f64, dy: f64) -> Option<Facing> {
        if a <= b {
            return self.field(a, b).facing(dx, dy);
        }
        let Facing { x, y, depth } = self.field(b, a).facing(-dx, -dy)?;
        Some(Facing { x: -x, y: -y, depth })
    }

    fn field(&self, a: usize, b: usize) -> &Field {
        self.fields[b * (b + 1) / 2 + a].get_or_init(|| Field::new(&self.forms[a], &self.forms[b]))
    }
}

/// The outline with its box at the origin and begun at its lowest left corner, and where its box was.
fn at_origin(outline: &Polygon) -> (Polygon, GridPoint) {
    let (low, _) = outline.bbox().unwrap_or_default();
    let mut points: Vec<GridPoint> = outline.points.iter().map(|p| GridPoint::new(p.x - low.x, p.y - low.y)).collect();
    let first = points.iter().enumerate().min_by_key(|(_, p)| (p.y, p.x)).map_or(0, |(at, _)| at);
    points.rotate_left(first);
    (Polygon { points }, low)
}

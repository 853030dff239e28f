//! A lay on its roll: every piece with its code and the way its pile runs.

use std::collections::BTreeMap;

use crate::geom::Point;
use crate::geom::fit::fitted;
use crate::geom::grid::{GridPoint, Polygon, millimetres};
use crate::lay::{Instance, Lay, Placed};
use crate::words::{say, words};

use super::marks::{PILE_ARROW, arrow, crossings, dimension, pile, scale_bar};
use super::place::{extent, text_width};
use super::{Across, Along, At, Fill, Label, Line, Scene, Segment};

words! {
    ALT "drawing.lay" = "Lay of {pieces} pieces, {length} mm of fabric {width} mm wide";
}

/// Paper for a lay by itself, mm: along and across the roll.
pub const LAY_PAPER: [f64; 2] = [400.0, 240.0];
/// Room round the fabric, mm; left of it is its width, below it its length.
const ROOM: f64 = 1.0;
const LEFT: f64 = 9.0;
const BELOW: f64 = 8.0;
/// Room for the scale and its bar below that, mm.
const BAR: f64 = 11.0;
/// Room that the arrows of a length need beside its text, mm.
const ARROWS: f64 = 5.0;
/// How near curves pass the corners of a cut line, mm of paper.
const FINE: f64 = 0.03;
/// The scale and its bar need this width, mm.
const LEAST_WIDTH: f64 = 60.0;
/// Denominators of the scales, enlargements first.
const SCALES: [f64; 14] = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
/// Pieces narrower than this on paper get neither code nor arrow, mm; a code stands only where it fits.
const LEAST: f64 = 2.5;
/// Room for the arrow that says how all pieces of a lay lie, mm.
const WAY: f64 = 5.0;
/// A piece holds code and arrow from this width on, mm; a shorter arrow says nothing.
const BOTH: f64 = 8.0;
/// A piece holds an upright code beside its arrow from this width on, mm.
const UPRIGHT: f64 = 6.0;
/// Share of a piece that its code may take up.
const FILLED: f64 = 0.95;

/// What is written in the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Codes {
    /// Their names.
    Names,
    /// Their numbers in the instance, from 1: for small scales, beside a list of the names.
    Numbers,
}

/// Which way the roll runs over the paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Roll {
    /// From left to right.
    Across,
    /// From top to bottom.
    Down,
}

/// A fabric on paper: how the roll runs, the denominator of the scale, the room for the arrow beside it, where it begins.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Paper {
    roll: Roll,
    scale: f64,
    arrow: f64,
    start: At,
}

impl Paper {
    /// The roll the way it is drawn larger on a room, wide and high.
    fn of(length: f64, width: f64, room: At, arrow: f64) -> Paper {
        let scale = |along: f64, across: f64| {
            let fits = |scale: &&f64| length / **scale <= along && width / **scale <= across;
            SCALES.iter().find(fits).copied().unwrap_or(1000.0)
        };
        let across = scale(room[0] - LEFT - ROOM, room[1] - arrow - BELOW - BAR);
        let down = scale(room[1] - ROOM - BELOW - BAR, room[0] - LEFT - arrow);
        let (roll, scale) = if down < across { (Roll::Down, down) } else { (Roll::Across, across) };
        Paper::at_scale(width, roll, scale, arrow)
    }

    /// A fabric of a width, its roll one way, at a scale.
    fn at_scale(width: f64, roll: Roll, scale: f64, arrow: f64) -> Paper {
        let start = match roll {
            Roll::Across => [LEFT, arrow + width / scale],
            Roll::Down => [LEFT, ROOM],
        };
        Paper { roll, scale, arrow, start }
    }

    /// Size of a fabric on paper, and the room above it and at its right.
    fn size(&self, length: f64, width: f64) -> (At, [f64; 2]) {
        match self.roll {
            Roll::Across => ([length / self.scale, width / self.scale], [self.arrow, ROOM]),
            Roll::Down => ([width / self.scale, length / self.scale], [ROOM, self.arrow]),
        }
    }

    /// A way along and across the roll, mm of fabric.
    fn way(&self, x: f64, y: f64) -> At {
        match self.roll {
            Roll::Across => [x / self.scale, -y / self.scale],
            Roll::Down => [y / self.scale, x / self.scale],
        }
    }

    fn at(&self, p: GridPoint) -> At {
        let [x, y] = self.way(millimetres(p.x), millimetres(p.y));
        [self.start[0] + x, self.start[1] + y]
    }
}

/// Draws a lay with the names of its pieces and a bar of its scale, at the largest scale at which the fabric fits the paper, wide
/// and high in mm, the roll from left to right or from top to bottom. An arrow shows where the grain or pile of the piece (its own
/// +x) points. The texts are those of the length and of the width.
#[must_use]
pub fn lay(instance: &Instance, lay: &Lay, paper: [f64; 2], texts: [&str; 2]) -> Scene {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let paper = Paper::of(length, width, paper, beside(instance));
    let mut scene = drawn(instance, lay, &paper, texts, Codes::Names);
    let bar = round(length.max(width) / 5.0);
    let foot = scene.height - BELOW;
    scene.height += BAR;
    scene.width = scene.width.max(LEAST_WIDTH);
    scale_bar(&mut scene, [LEFT, foot + 14.0], bar / paper.scale, &format!("{bar} mm, {}", ratio(paper.scale)));
    scene
}

/// Draws a lay at a scale, its roll one way, with the numbers of its pieces. The lengths beside it are its bars.
#[must_use]
pub fn lay_at(instance: &Instance, lay: &Lay, (roll, scale): (Roll, f64), texts: [&str; 2]) -> Scene {
    let paper = Paper::at_scale(millimetres(instance.fabric.width), roll, scale, beside(instance));
    drawn(instance, lay, &paper, texts, Codes::Numbers)
}

/// How wide and high that drawing is, mm.
#[must_use]
pub fn lay_size(instance: &Instance, lay: &Lay, (roll, scale): (Roll, f64)) -> [f64; 2] {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let (size, [top, right]) = Paper::at_scale(width, roll, scale, beside(instance)).size(length, width);
    [LEFT + size[0] + right, top + size[1] + BELOW]
}

/// Whether all pieces lie one way, so that one arrow says how.
fn is_one_way(instance: &Instance) -> bool {
    instance.pieces.iter().all(|piece| piece.turns.len() == 1)
}

/// Room beside a lay for that arrow.
fn beside(instance: &Instance) -> f64 {
    if is_one_way(instance) { WAY } else { ROOM }
}

/// `1:20`, or `2:1` of what is enlarged.
#[must_use]
pub fn ratio(scale: f64) -> String {
    if scale < 1.0 { format!("{}:1", 1.0 / scale) } else { format!("1:{scale}") }
}

fn drawn(instance: &Instance, lay: &Lay, paper: &Paper, [along, across]: [&str; 2], codes: Codes) -> Scene {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let alt = say!(ALT, pieces = lay.placed.len(), length = length.to_string(), width = width.to_string());
    let one_way = is_one_way(instance);
    let (size, [top, right]) = paper.size(length, width);
    let texts = if paper.roll == Roll::Across { [along, across] } else { [across, along] };
    let mut scene = Scene::new(LEFT + size[0] + right, size[1] + top + BELOW, alt);
    scene.rect(Some(Line::Outline), Fill::None, [LEFT, top], size[0], size[1]);
    let mut curves = Curves::new();
    for placed in &lay.placed {
        draw(&mut scene, (instance, codes), placed, paper, one_way, &mut curves);
    }
    let foot = top + size[1];
    if one_way {
        let at = match paper.roll {
            Roll::Across => [LEFT + (size[0] / 2.0).max(PILE_ARROW / 2.0), WAY / 2.0],
            Roll::Down => [LEFT + size[0] + WAY / 2.0 + 0.3, top + (size[1] / 2.0).max(PILE_ARROW / 2.0)],
        };
        pile(&mut scene, at, paper.way(paper.scale, 0.0));
    }
    // On a sheet the text says the lengths too, so one that finds no room beside the fabric is left to it.
    let told = |side: f64, text: &str| codes == Codes::Names || side >= text_width(text, Label::SIZE, false) + ARROWS;
    if told(size[0], texts[0]) {
        dimension(&mut scene, [LEFT, foot], [LEFT + size[0], foot], -6.0, texts[0]);
    }
    if told(size[1], texts[1]) {
        dimension(&mut scene, [LEFT, foot], [LEFT, top], 6.0, texts[1]);
    }
    scene
}

/// Outlines as curves, by piece and turn, in mm of paper from the piece's own origin: every copy has the same.
type Curves = BTreeMap<(usize, u64, bool), Vec<Segment>>;

/// A cut line of hundreds of corners as a few curves, which draw the same and keep pages and files small.
fn curved(outline: &Polygon, paper: &Paper) -> Vec<Segment> {
    let local = |p: &GridPoint| {
        let [x, y] = paper.way(millimetres(p.x), millimetres(p.y));
        Point::new(x, y)
    };
    let corners: Vec<Point> = outline.points.iter().map(local).collect();
    let path = fitted(&corners, FINE);
    let at = |p: &Point| [p.x, p.y];
    let mut out = vec![Segment::Move(at(&path.start))];
    out.extend(path.segments.iter().map(|segment| match segment {
        crate::geom::Segment::Line(end) => Segment::Line(at(end)),
        crate::geom::Segment::Cubic(a, b, end) => Segment::Cubic(at(a), at(b), at(end)),
    }));
    out.push(Segment::Close);
    out
}

/// The same curves elsewhere.
fn shifted(segments: &[Segment], [dx, dy]: At) -> Vec<Segment> {
    let at = |[x, y]: At| [x + dx, y + dy];
    let moved = |segment: &Segment| match *segment {
        Segment::Move(p) => Segment::Move(at(p)),
        Segment::Line(p) => Segment::Line(at(p)),
        Segment::Cubic(a, b, p) => Segment::Cubic(at(a), at(b), at(p)),
        Segment::Close => Segment::Close,
    };
    segments.iter().map(moved).collect()
}

/// One piece: its cut line, its code in the middle of its box, the arrow below.
fn draw(
    scene: &mut Scene,
    (instance, codes): (&Instance, Codes),
    placed: &Placed,
    paper: &Paper,
    one_way: bool,
    curves: &mut Curves,
) {
    let Some(piece) = instance.pieces.get(placed.piece) else { return };
    let outline = placed.turn.apply(&piece.outline);
    let moved = |p: &GridPoint| paper.at(GridPoint::new(p.x + placed.at.x, p.y + placed.at.y));
    let corners: Vec<At> = outline.points.iter().map(moved).collect();
    let key = (placed.piece, placed.turn.degrees.to_bits(), placed.turn.mirrored);
    let curve = curves.entry(key).or_insert_with(|| curved(&outline, paper));
    scene.path(Some(Line::Placement), Fill::Tint, shifted(curve, paper.at(placed.at)));
    let Some((low, high)) = extent(&corners) else { return };
    let room = (high[0] - low[0]).min(high[1] - low[1]);
    if room < LEAST {
        return;
    }
    let ([x, y], room_across) = inside(&corners, low, high);
    let code = match codes {
        Codes::Names => piece.id.clone(),
        Codes::Numbers => (placed.piece + 1).to_string(),
    };
    let wide = text_width(&code, Label::SIZE, false);
    let label = Label::new(code, [x, y]).bare();
    let mut arrow_at = [x, y + 1.5];
    // All ways are one and drawn beside the lay, or there is no room for an arrow that says something.
    if one_way || room < BOTH {
        if wide <= room_across * FILLED {
            scene.label(label);
        }
        return;
    }
    if wide <= room_across * FILLED {
        scene.label(label.anchor(Along::Middle, Across::Base));
    } else if wide <= (high[1] - low[1]) * FILLED && high[0] - low[0] >= UPRIGHT {
        let beside = Label { at: [x - 1.2, y], ..label };
        scene.label(beside.turned(-90.0));
        arrow_at = [x + 2.0, y];
    }
    let (sin, cos) = libm::sincos(placed.turn.degrees * std::f64::consts::PI / 180.0);
    let half = (room * 0.2).min(5.0);
    let [dx, dy] = paper.way(cos * half * paper.scale, sin * half * paper.scale);
    let [x, y] = arrow_at;
    arrow(scene, Line::Notch, [x - dx, y - dy], [x + dx, y + dy]);
}

/// A point well inside an outline, the middle of the widest stretch at one of a few heights, and how wide it is.
fn inside(corners: &[At], low: At, high: At) -> (At, f64) {
    let mut best = (0.0, [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])]);
    for part in [4.0, 5.0, 3.0, 6.0, 2.0] {
        let y = low[1] + (high[1] - low[1]) * part / 8.0;
        for [from, to] in crossings(corners, y).as_chunks::<2>().0 {
            // The middle height is taken unless another is clearly wider.
            if to - from > best.0 * 1.25 {
                best = (to - from, [f64::midpoint(*from, *to), y]);
            }
        }
    }
    (best.1, best.0)
}

/// A round length not above one in mm: 1, 2 or 5 times a power of ten.
fn round(mm: f64) -> f64 {
    let mut power = 0.001;
    while power * 10.0 <= mm {
        power *= 10.0;
    }
    let steps = [5.0, 2.0, 1.0].map(|step| step * power);
    steps.into_iter().find(|step| *step <= mm).map_or(power, |step| (step * 1e3).round() / 1e3)
}

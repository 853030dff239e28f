//! A lay on its roll: every piece with its code and the way its pile runs.

mod ply;

pub use ply::{Marks, ply_at, ply_size, true_scale};

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::Point;
use crate::geom::fit::fitted;
use crate::geom::grid::{GridPoint, Polygon, millimetres};
use crate::lay::{Instance, Lay, Piece, Placed, Turn};
use crate::words::{say, words};

use super::marks::{PILE_ARROW, arrow, crossings, dimension, grain, pile, scale_bar};
use super::place::{extent, text_width, within};
use super::{Across, Along, At, Fill, Label, Line, Scene, Segment, circle};

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
/// Room above a fabric for the numbers of small pieces, and beside each of them, mm.
const STRIP: f64 = 5.0;
const BETWEEN: f64 = 1.6;
/// What a millimetre aside counts against one further down, where a piece for a leader is chosen.
const ASIDE: f64 = 0.3;
/// Where a leader ends in a small piece: the radius of its dot, mm.
const DOT: f64 = 0.45;

/// How the pieces of a lay lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ways {
    /// All one way, which a bold arrow beside the lay shows.
    One,
    /// Along the roll, either way round, which a thin arrow with two heads shows.
    Parallel,
    /// Each its own way, with an arrow of its own.
    Own,
}

impl Ways {
    fn of(instance: &Instance) -> Ways {
        let pieces = &instance.pieces;
        let lies = |piece: &Piece, angle: f64| piece.turns.iter().any(|turn| turn.degrees == angle);
        let along = |piece: &Piece| piece.turns.iter().all(|turn| [0.0, 180.0].contains(&turn.degrees));
        if pieces.iter().all(|piece| piece.turns.len() == 1) {
            Ways::One
        } else if pieces.iter().all(|piece| along(piece) && lies(piece, 0.0) && lies(piece, 180.0)) {
            Ways::Parallel
        } else {
            Ways::Own
        }
    }

    /// Room beside a lay for its arrow.
    fn room(self) -> f64 {
        if self == Ways::Own { ROOM } else { WAY }
    }
}

/// What is written in the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Codes {
    /// Their names.
    Names,
    /// Their numbers in the instance, from 1: for small scales, beside a list of the names.
    Numbers,
    /// Nothing, where every piece bears a mark of its own.
    None,
}

/// Which way the roll runs over the paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Roll {
    /// From left to right.
    Across,
    /// From top to bottom.
    Down,
}

/// A fabric on paper: how the roll runs, the denominator of the scale, the room for the arrow beside it and for numbers
/// above it, where it begins.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Paper {
    roll: Roll,
    scale: f64,
    arrow: f64,
    strip: f64,
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
        Paper { roll, scale, arrow, strip: 0.0, start }
    }

    /// The same with room for numbers above the fabric.
    fn with_strip(self) -> Paper {
        Paper { strip: STRIP, start: [self.start[0], self.start[1] + STRIP], ..self }
    }

    /// Size of a fabric on paper, and the room above it and at its right.
    fn size(&self, length: f64, width: f64) -> (At, [f64; 2]) {
        match self.roll {
            Roll::Across => ([length / self.scale, width / self.scale], [self.arrow + self.strip, ROOM]),
            Roll::Down => ([width / self.scale, length / self.scale], [ROOM + self.strip, self.arrow]),
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
    let paper = Paper::of(length, width, paper, Ways::of(instance).room());
    let mut scene = drawn(instance, lay, &paper, texts, Codes::Names);
    let bar = round(length.max(width) / 5.0);
    let foot = scene.height - BELOW;
    scene.height += BAR;
    scene.width = scene.width.max(LEAST_WIDTH);
    scale_bar(&mut scene, [LEFT, foot + 14.0], bar / paper.scale, &format!("{bar} mm, {}", ratio(paper.scale)));
    scene
}

/// Draws a lay at a scale, its roll one way, with the numbers of its pieces. The lengths beside it are its bars. A kind of piece
/// that is too small for its number has it above the fabric, with a leader to one of them.
#[must_use]
pub fn lay_at(instance: &Instance, lay: &Lay, how: (Roll, f64), texts: [&str; 2]) -> Scene {
    let (paper, bare) = numbered(instance, lay, how);
    let mut scene = drawn(instance, lay, &paper, texts, Codes::Numbers);
    outside(&mut scene, instance, lay, &paper, &bare);
    scene
}

/// How wide and high that drawing is, mm.
#[must_use]
pub fn lay_size(instance: &Instance, lay: &Lay, how: (Roll, f64)) -> [f64; 2] {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let (paper, bare) = numbered(instance, lay, how);
    let (size, [top, right]) = paper.size(length, width);
    [LEFT + size[0].max(row_width(&bare)) + right, top + size[1] + BELOW]
}

/// The paper of a lay, and the kinds of pieces whose numbers are above it.
fn numbered(instance: &Instance, lay: &Lay, (roll, scale): (Roll, f64)) -> (Paper, Vec<usize>) {
    let paper = Paper::at_scale(millimetres(instance.fabric.width), roll, scale, Ways::of(instance).room());
    let mut shapes = Shapes::new();
    let all: BTreeSet<usize> = lay.placed.iter().map(|one| one.piece).collect();
    for one in &lay.placed {
        shapes.entry(key(one)).or_insert_with(|| writing(instance, one, &paper, Codes::Numbers));
    }
    let bears = |piece: &usize| shapes.iter().any(|((own, _, _), shape)| own == piece && shape.label.is_some());
    let bare: Vec<usize> = all.into_iter().filter(|piece| !bears(piece)).collect();
    (if bare.is_empty() { paper } else { paper.with_strip() }, bare)
}

/// The room a number takes in the row above a fabric, and that of some in a row, mm.
fn slot(piece: usize) -> f64 {
    text_width(&code(piece), Label::SIZE, false) + BETWEEN
}

/// See [`slot`].
fn row_width(pieces: &[usize]) -> f64 {
    pieces.iter().map(|piece| slot(*piece)).sum()
}

/// The number of a kind of piece.
fn code(piece: usize) -> String {
    (piece + 1).to_string()
}

/// Numbers above the fabric, each with a leader to that of its pieces which is nearest; the leaders keep apart where they can.
fn outside(scene: &mut Scene, instance: &Instance, lay: &Lay, paper: &Paper, bare: &[usize]) {
    let spot = |one: &Placed| {
        let [x, y] = writing(instance, one, paper, Codes::Numbers).spot;
        let at = paper.at(one.at);
        [at[0] + x, at[1] + y]
    };
    let (size, [top, _]) = paper.size(millimetres(lay.length), millimetres(instance.fabric.width));
    let nearest = |(n, piece): (usize, &usize)| {
        let over = LEFT + size[0] * (n as f64 + 0.5) / bare.len() as f64;
        let far = |at: &At| at[1] + ASIDE * (at[0] - over).abs();
        let spots = lay.placed.iter().filter(|one| one.piece == *piece).map(spot);
        Some((*piece, spots.min_by(|a, b| far(a).total_cmp(&far(b)))?))
    };
    let mut found: Vec<(usize, At)> = bare.iter().enumerate().filter_map(nearest).collect();
    found.sort_by(|(_, a), (_, b)| a[0].total_cmp(&b[0]));
    let wanted: Vec<[f64; 2]> = found.iter().map(|(piece, at)| [at[0], slot(*piece)]).collect();
    let reach = LEFT + size[0].max(row_width(bare));
    scene.width = scene.width.max(reach);
    for ((piece, spot), x) in found.iter().zip(in_row(&wanted, LEFT, reach)) {
        let label = Label::new(code(*piece), [x, top - STRIP * 0.6]).bare();
        scene.line(Line::Callout, [x, top - STRIP * 0.28], *spot);
        scene.path(None, Fill::Ink, circle(*spot, DOT));
        scene.label(label);
    }
}

/// Middles of things in a row between two ends, each as near as may be to where it is wanted: the wanted middle, the width.
fn in_row(wanted: &[[f64; 2]], low: f64, high: f64) -> Vec<f64> {
    let mut from = low;
    let mut middles: Vec<f64> = Vec::new();
    for [middle, width] in wanted {
        let at = middle.max(from + width / 2.0);
        from = at + width / 2.0;
        middles.push(at);
    }
    let mut to = high;
    for (at, [_, width]) in middles.iter_mut().zip(wanted).rev() {
        *at = at.min(to - width / 2.0);
        to = *at - width / 2.0;
    }
    middles
}

/// `1:20`, or `2:1` of what is enlarged.
#[must_use]
pub fn ratio(scale: f64) -> String {
    if scale < 1.0 { format!("{}:1", 1.0 / scale) } else { format!("1:{scale}") }
}

fn drawn(instance: &Instance, lay: &Lay, paper: &Paper, [along, across]: [&str; 2], codes: Codes) -> Scene {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let alt = say!(ALT, pieces = lay.placed.len(), length = length.to_string(), width = width.to_string());
    let ways = Ways::of(instance);
    let (size, [top, right]) = paper.size(length, width);
    let texts = if paper.roll == Roll::Across { [along, across] } else { [across, along] };
    let mut scene = Scene::new(LEFT + size[0] + right, size[1] + top + BELOW, alt);
    scene.rect(Some(Line::Outline), Fill::None, [LEFT, top], size[0], size[1]);
    let (mut curves, mut shapes) = (Curves::new(), Shapes::new());
    for placed in &lay.placed {
        draw(&mut scene, (instance, codes), placed, paper, (&mut curves, &mut shapes));
    }
    let foot = top + size[1];
    let at = match paper.roll {
        Roll::Across => [LEFT + (size[0] / 2.0).max(PILE_ARROW / 2.0), WAY / 2.0],
        Roll::Down => [LEFT + size[0] + WAY / 2.0 + 0.3, top + (size[1] / 2.0).max(PILE_ARROW / 2.0)],
    };
    let [dx, dy] = paper.way(paper.scale * PILE_ARROW / 2.0, 0.0);
    match ways {
        Ways::One => pile(&mut scene, at, [dx, dy]),
        Ways::Parallel => grain(&mut scene, [at[0] - dx, at[1] - dy], [at[0] + dx, at[1] + dy]),
        Ways::Own => {}
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

/// A piece and its turn: every copy has the same curves and the same writing, in mm of paper from the piece's own origin.
type Key = (usize, u64, bool);
/// Outlines as curves.
type Curves = BTreeMap<Key, Vec<Segment>>;
/// What is written in pieces.
type Shapes = BTreeMap<Key, Writing>;

fn key(placed: &Placed) -> Key {
    let Turn { degrees, mirrored } = placed.turn;
    (placed.piece, degrees.to_bits(), mirrored)
}

/// What a piece bears, where there is room for it, and a place well inside it.
#[derive(Debug, Clone, Default, PartialEq)]
struct Writing {
    label: Option<Label>,
    arrow: Option<[At; 2]>,
    spot: At,
}

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

/// One piece: its cut line, its code and its arrow.
fn draw(
    scene: &mut Scene,
    (instance, codes): (&Instance, Codes),
    placed: &Placed,
    paper: &Paper,
    (curves, shapes): (&mut Curves, &mut Shapes),
) {
    let Some(piece) = instance.pieces.get(placed.piece) else { return };
    let at = paper.at(placed.at);
    let curve = curves.entry(key(placed)).or_insert_with(|| curved(&placed.turn.apply(&piece.outline), paper));
    scene.path(Some(Line::Placement), Fill::Tint, shifted(curve, at));
    let shape = shapes.entry(key(placed)).or_insert_with(|| writing(instance, placed, paper, codes));
    let moved = |[x, y]: At| [at[0] + x, at[1] + y];
    if let Some(label) = &shape.label {
        scene.label(Label { at: moved(label.at), ..label.clone() });
    }
    if let Some([from, to]) = shape.arrow {
        arrow(scene, Line::Notch, moved(from), moved(to));
    }
}

/// What is written in a piece: its code in the middle, and its arrow below or beside that. The arrow is kept where both have no
/// room.
fn writing(instance: &Instance, placed: &Placed, paper: &Paper, codes: Codes) -> Writing {
    let Some(piece) = instance.pieces.get(placed.piece) else { return Writing::default() };
    let local = |p: &GridPoint| paper.way(millimetres(p.x), millimetres(p.y));
    let corners: Vec<At> = placed.turn.apply(&piece.outline).points.iter().map(local).collect();
    let Some((low, high)) = extent(&corners) else { return Writing::default() };
    let (spot, across) = inside(&corners, low, high);
    let room = (high[0] - low[0]).min(high[1] - low[1]);
    let code = match codes {
        Codes::Names => piece.id.clone(),
        Codes::Numbers => code(placed.piece),
        Codes::None => return Writing { spot, ..Writing::default() },
    };
    let label = Label::new(code, spot).bare();
    let wide = text_width(&label.text, Label::SIZE, false);
    let fits = room >= LEAST && wide <= across * FILLED;
    // All ways are one and drawn beside the lay, or there is no room for an arrow that says something.
    if Ways::of(instance) != Ways::Own || room < BOTH {
        return Writing { label: fits.then_some(label), arrow: None, spot };
    }
    let (sin, cos) = libm::sincos(placed.turn.degrees * std::f64::consts::PI / 180.0);
    let half = (room * 0.2).min(5.0);
    let arm = paper.way(cos * half * paper.scale, sin * half * paper.scale);
    let (reach, [x, y]) = (arm[0].abs().max(0.6), spot);
    let both = wide + 1.0 + 2.0 * reach;
    let tall = wide <= (high[1] - low[1]) * FILLED && high[0] - low[0] >= UPRIGHT;
    let upright = Label { at: [x - 1.2, y], ..label.clone() }.turned(-90.0);
    let beside = Label { at: [x - both / 2.0 + wide / 2.0, y], ..label.clone() };
    let ways = [
        (fits, label.anchor(Along::Middle, Across::Base), [x, y + 1.5 + arm[1].abs()]),
        (both <= across * FILLED, beside, [x + both / 2.0 - reach, y]),
        (tall, upright, [x + 0.8 + reach, y]),
    ];
    let drawn = |[x, y]: At| [[x - arm[0], y - arm[1]], [x + arm[0], y + arm[1]]];
    let holds = |at: At| drawn(at).iter().all(|end| within(&corners, *end));
    let found = ways.into_iter().find(|(fits, _, at)| *fits && holds(*at));
    let (label, at) = found.map_or((None, spot), |(_, label, at)| (Some(label), at));
    Writing { label, arrow: Some(drawn(at)), spot }
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

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the second is pushed right by the first, the last back by the end.
    #[test]
    fn numbers_in_a_row_keep_apart_and_inside() {
        assert_eq!(in_row(&[[5.0, 4.0], [6.0, 4.0], [20.0, 4.0]], 0.0, 20.0), [5.0, 9.0, 18.0]);
        assert_eq!(in_row(&[[9.0, 5.0], [9.0, 5.0]], 0.0, 10.0), [2.5, 7.5]);
    }
}

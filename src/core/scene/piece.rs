//! The drawing of one piece at a stated scale: cut line, sew line, points, notches, grain, pile, size.

use super::marks::{along, comb, dimension, grain, notch, opening, ring, scale_bar, unit};
use super::{At, Fill, Label, Line, Scene, Segment, grid};

/// One piece in its own true millimetres, y down, every text final.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PieceOutline {
    /// The code written in the middle of the piece.
    pub code: String,
    /// The cut line.
    pub cut: Vec<Segment>,
    /// The sew line; empty for a piece whose edges are all raw.
    pub sew: Vec<Segment>,
    /// Folds, stitching, placements and other lines inside the piece.
    pub inner: Vec<(Line, Vec<Segment>)>,
    /// Named points on the sew line.
    pub points: Vec<PiecePoint>,
    /// Notches, each from the sew line to the cut line.
    pub notches: Vec<[At; 2]>,
    /// Openings left in the sew line: their two ends and their length as written, `"120"`.
    pub openings: Vec<([At; 2], String)>,
    /// Direction of the grain, if the piece has one.
    pub grain: Option<At>,
    /// Direction in which the pile lies, if there is any.
    pub pile: Option<At>,
    /// Cut width as written at the dimension line, `"504"`.
    pub width_text: String,
    /// Cut height as written at the dimension line.
    pub height_text: String,
    /// What the scale bar is labelled with, `"50 mm"`.
    pub bar_text: String,
    /// True length that the scale bar stands for, mm.
    pub bar: f64,
    /// The description of the drawing.
    pub alt: String,
}

/// A named point of a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct PiecePoint {
    /// Its letter.
    pub name: String,
    /// Where it is, in true millimetres.
    pub at: At,
}

/// Space round the outline for names and dimensions, mm of paper: left, top, right, bottom.
const ROOM: [f64; 4] = [12.0, 6.0, 6.0, 16.0];
/// The least width, mm of paper: the scale bar and its text must fit.
const LEAST_WIDTH: f64 = 38.0;

/// The scales of ISO 5455 for reduction that a sheet of A4 has use for, and full size.
const SCALES: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];

/// The denominator of the largest standard scale at which the drawing of a piece fits into a room in mm of
/// paper; 100 if none does.
#[must_use]
pub fn scale_for(outline: &PieceOutline, width: f64, height: f64) -> f64 {
    let (low, high) = extent(&outline.cut);
    let fits = |scale: &f64| {
        let (w, h) = ((high[0] - low[0]) / scale, (high[1] - low[1]) / scale);
        ROOM[0] + w + ROOM[2] <= width && ROOM[1] + h + ROOM[3] <= height
    };
    SCALES.into_iter().find(fits).unwrap_or(100.0)
}

/// Draws a piece at 1:`denominator`.
#[must_use]
pub fn piece(outline: &PieceOutline, denominator: f64) -> Scene {
    let (low, high) = extent(&outline.cut);
    let size = [(high[0] - low[0]) / denominator, (high[1] - low[1]) / denominator];
    let width = (ROOM[0] + size[0] + ROOM[2]).max(LEAST_WIDTH);
    let x0 = f64::midpoint(ROOM[0], width - ROOM[2] - size[0]);
    let paper = |p: At| [grid(x0 + (p[0] - low[0]) / denominator), grid(ROOM[1] + (p[1] - low[1]) / denominator)];
    let mut scene = Scene::new(width, ROOM[1] + size[1] + ROOM[3], outline.alt.clone());
    lines(&mut scene, outline, &paper);
    let (near, far) = (paper(low), paper(high));
    sizes(&mut scene, outline, near, far);
    directions(&mut scene, outline, near, far);
    names(&mut scene, outline, &paper, [f64::midpoint(near[0], far[0]), f64::midpoint(near[1], far[1])], size);
    let bar = outline.bar / denominator;
    scale_bar(&mut scene, [x0, far[1] + 12.5], bar, &outline.bar_text);
    scene
}

fn lines(scene: &mut Scene, outline: &PieceOutline, paper: &impl Fn(At) -> At) {
    scene.path(Some(Line::Cut), Fill::None, moved(&outline.cut, paper));
    if !outline.sew.is_empty() {
        scene.stroke(Line::Sew, moved(&outline.sew, paper));
    }
    for (line, segments) in &outline.inner {
        scene.stroke(*line, moved(segments, paper));
    }
    for ([from, to], text) in &outline.openings {
        opening(scene, paper(*from), paper(*to), text);
    }
    for [on_sew, on_cut] in &outline.notches {
        notch(scene, paper(*on_sew), paper(*on_cut));
    }
}

fn sizes(scene: &mut Scene, outline: &PieceOutline, near: At, far: At) {
    let (bottom_left, top_left) = ([near[0], far[1]], near);
    dimension(scene, bottom_left, far, -6.5, &outline.width_text);
    dimension(scene, bottom_left, top_left, 7.0, &outline.height_text);
}

/// Ways from a point to its name as turns of the way outwards: cosine and sine, none first.
const TURNS: [At; 7] = [[1.0, 0.0], [0.8, 0.6], [0.8, -0.6], [0.6, 0.8], [0.6, -0.8], [0.0, 1.0], [0.0, -1.0]];

/// Rings at the named points; each name stands outwards of it, corner names diagonally, clear of the cut line. Where
/// the name of a neighbour stands there already, it moves aside.
fn names(scene: &mut Scene, outline: &PieceOutline, paper: &impl Fn(At) -> At, centre: At, size: At) {
    let edge: Vec<At> = sampled(&outline.cut).into_iter().map(paper).collect();
    let rings: Vec<At> = outline.points.iter().map(|point| paper(point.at)).collect();
    let mut taken: Vec<(At, f64)> = Vec::new();
    for (point, &at) in outline.points.iter().zip(&rings) {
        let away = unit([(at[0] - centre[0]) / size[0], (at[1] - centre[1]) / size[1]]);
        // Half the width of the name in bold 7.5 pt.
        let half = 0.85 * f64::from(u8::try_from(point.name.chars().count()).unwrap_or(u8::MAX));
        let apart = |p: At| {
            taken.iter().all(|(q, other)| (p[0] - q[0]).abs() >= half + other + 0.8 || (p[1] - q[1]).abs() >= 3.2)
        };
        // A name that stood nearer to another ring would be read as that one's.
        let own = |p: At| rings.iter().all(|ring| square(*ring, p) >= square(at, p) - 1e-9);
        let places = name_places(at, away, half, &edge);
        let straight = places.first().filter(|(_, p)| apart(*p) && own(*p));
        let near = |fits: &dyn Fn(At) -> bool| places.iter().filter(|(_, p)| fits(*p)).min_by_key(|(step, _)| *step);
        let beside = || near(&|p| apart(p) && own(p)).or_else(|| near(&apart));
        let place = straight.or_else(beside).or(places.first()).map_or_else(|| along(at, away, 3.5), |(_, p)| *p);
        taken.push((place, half));
        ring(scene, at, &point.name, place);
    }
}

/// The square of the distance of two points.
fn square(a: At, b: At) -> f64 {
    let (across, along) = (a[0] - b[0], a[1] - b[1]);
    across * across + along * along
}

/// Every place near a point that is clear of the cut line, with its distance in quarters of a mm: way by way, the nearest
/// first.
fn name_places(at: At, away: At, half: f64, edge: &[At]) -> Vec<(u8, At)> {
    // With room for the extension line of a dimension.
    let clear = 2.2_f64.max(1.45 * (half + 0.5));
    let free = |p: At| edge.iter().all(|e| square(*e, p) >= clear * clear);
    let ways = TURNS.map(|[c, s]| [c * away[0] - s * away[1], s * away[0] + c * away[1]]);
    let places = |way: At| (8..80_u8).map(move |step| (step, along(at, way, f64::from(step) * 0.25)));
    ways.into_iter().flat_map(places).filter(|(_, p)| free(*p)).collect()
}

/// Code, grain and pile stand in a row inside a wide piece, in a column inside a tall one. A piece too small
/// for them has its code and directions on its card.
fn directions(scene: &mut Scene, outline: &PieceOutline, near: At, far: At) {
    let centre = [f64::midpoint(near[0], far[0]), f64::midpoint(near[1], far[1])];
    let (width, height) = (far[0] - near[0], far[1] - near[1]);
    let (least, most) = (width.min(height), width.max(height));
    if least < 9.0 || most < 26.0 {
        return;
    }
    let apart = (most * 0.2).min(16.0);
    let place = |step: f64| match width >= height {
        true => [centre[0] + step * apart, centre[1]],
        false => [centre[0], centre[1] + step * apart],
    };
    scene.label(Label::new(&outline.code, place(-1.0)).size(10.5).strong());
    let reach = (least * 0.34).min(9.0).min(if width >= height { 9.0 } else { apart * 0.8 });
    if let Some(direction) = outline.grain {
        let d = unit(direction);
        grain(scene, along(place(0.2), d, -reach), along(place(0.2), d, reach));
    }
    if let Some(direction) = outline.pile {
        comb(scene, place(1.2), direction);
    }
}

/// Points along a path: its ends and 64 places on each segment.
fn sampled(segments: &[Segment]) -> Vec<At> {
    let mut out = Vec::new();
    let (mut last, mut first) = ([0.0; 2], [0.0; 2]);
    for segment in segments {
        let (a, b, end) = match *segment {
            Segment::Move(p) => (p, p, p),
            Segment::Line(p) => (last, p, p),
            Segment::Cubic(a, b, p) => (a, b, p),
            Segment::Close => (last, first, first),
        };
        if let Segment::Move(p) = segment {
            (last, first) = (*p, *p);
        }
        out.extend((0..=64_u8).map(|step| bezier(last, a, b, end, f64::from(step) / 64.0)));
        last = end;
    }
    out
}

fn moved(segments: &[Segment], paper: &impl Fn(At) -> At) -> Vec<Segment> {
    segments
        .iter()
        .map(|s| match *s {
            Segment::Move(p) => Segment::Move(paper(p)),
            Segment::Line(p) => Segment::Line(paper(p)),
            Segment::Cubic(a, b, p) => Segment::Cubic(paper(a), paper(b), paper(p)),
            Segment::Close => Segment::Close,
        })
        .collect()
}

/// The bounding box of the sampled path, which is enough to lay a drawing out.
fn extent(segments: &[Segment]) -> (At, At) {
    let points = sampled(segments);
    let fold = |start: f64, pick: fn(f64, f64) -> f64, axis: usize| points.iter().map(|p| p[axis]).fold(start, pick);
    if points.is_empty() {
        return ([0.0; 2], [0.0; 2]);
    }
    let low = [0, 1].map(|axis| fold(f64::INFINITY, f64::min, axis));
    let high = [0, 1].map(|axis| fold(f64::NEG_INFINITY, f64::max, axis));
    (low, high)
}

fn bezier(p0: At, p1: At, p2: At, p3: At, t: f64) -> At {
    let s = 1.0 - t;
    let of = |i: usize| s * s * s * p0[i] + 3.0 * s * s * t * p1[i] + 3.0 * s * t * t * p2[i] + t * t * t * p3[i];
    [of(0), of(1)]
}

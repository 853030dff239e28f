//! The drawing of one piece at a stated scale: cut line, sew line, points, notches, grain, pile, size.

use super::marks::{comb, dimension, grain, notch, ring, scale_bar};
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
const ROOM: [f64; 4] = [11.0, 6.0, 6.0, 16.0];
/// The least width, mm of paper: the scale bar and its text must fit.
const LEAST_WIDTH: f64 = 38.0;

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
    let centre = [f64::midpoint(near[0], far[0]), f64::midpoint(near[1], far[1])];
    for point in &outline.points {
        let at = paper(point.at);
        ring(&mut scene, at, &point.name, [at[0] - centre[0], at[1] - centre[1]]);
    }
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
    for [on_sew, on_cut] in &outline.notches {
        notch(scene, paper(*on_sew), paper(*on_cut));
    }
}

fn sizes(scene: &mut Scene, outline: &PieceOutline, near: At, far: At) {
    let (bottom_left, top_left) = ([near[0], far[1]], near);
    dimension(scene, bottom_left, far, -6.5, &outline.width_text);
    dimension(scene, bottom_left, top_left, 7.0, &outline.height_text);
}

/// Code, grain and pile stand inside a piece that has the room, else the two directions are left to its card.
fn directions(scene: &mut Scene, outline: &PieceOutline, near: At, far: At) {
    let centre = [f64::midpoint(near[0], far[0]), f64::midpoint(near[1], far[1])];
    let least = (far[0] - near[0]).min(far[1] - near[1]);
    if least < 12.0 {
        return;
    }
    scene.label(Label::new(&outline.code, [centre[0], centre[1] - 4.0]).size(10.5).strong());
    let reach = (least * 0.3).min(10.0);
    if let Some(direction) = outline.grain {
        let d = super::marks::unit(direction);
        let side = super::marks::left(d);
        let middle = super::marks::along([centre[0], centre[1] + 3.0], side, (least * 0.18).min(7.0));
        grain(scene, super::marks::along(middle, d, -reach), super::marks::along(middle, d, reach));
    }
    if let Some(direction) = outline.pile {
        let offset = (least * 0.18).min(7.0);
        comb(scene, [centre[0] + offset, centre[1] + 3.0], direction);
    }
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

/// The bounding box of a path; curves are sampled at 64 places, which is enough to lay a drawing out.
fn extent(segments: &[Segment]) -> (At, At) {
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    let mut last = [0.0; 2];
    for segment in segments {
        let (a, b, end) = match *segment {
            Segment::Move(p) => (p, p, p),
            Segment::Line(p) => (last, p, p),
            Segment::Cubic(a, b, p) => (a, b, p),
            Segment::Close => continue,
        };
        let start = if matches!(segment, Segment::Move(_)) { end } else { last };
        for step in 0..=64_u8 {
            let p = bezier(start, a, b, end, f64::from(step) / 64.0);
            for axis in 0..2 {
                low[axis] = low[axis].min(p[axis]);
                high[axis] = high[axis].max(p[axis]);
            }
        }
        last = end;
    }
    if low[0] > high[0] { ([0.0; 2], [0.0; 2]) } else { (low, high) }
}

fn bezier(p0: At, p1: At, p2: At, p3: At, t: f64) -> At {
    let s = 1.0 - t;
    let of = |i: usize| s * s * s * p0[i] + 3.0 * s * s * t * p1[i] + 3.0 * s * t * t * p2[i] + t * t * t * p3[i];
    [of(0), of(1)]
}

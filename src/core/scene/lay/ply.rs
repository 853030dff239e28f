//! A lay whose pieces bear what their bundles are called: on a sheet, and at true scale for the table.

use std::collections::BTreeMap;

use crate::geom::grid::millimetres;
use crate::lay::{Instance, Lay, Placed};
use crate::words::say;

use super::super::marks::{grain, pile};
use super::super::place::{extent, text_width, within};
use super::super::{Across, Along, At, Fill, Label, Line, Scene};
use super::{ALT, Codes, Curves, Key, Paper, Roll, Shapes, Ways, draw, drawn, inside, key};

/// Height of capitals in parts of the size of type, and millimetres in a point.
const CAPITAL: f64 = 0.733;
const POINT: f64 = 25.4 / 72.0;
/// Air round a mark inside its piece, in parts of its height.
const AIR: f64 = 0.2;
/// Sizes of type on a sheet, and at true scale, pt; the largest that a piece holds is taken.
const ON_SHEET: [f64; 1] = [Label::SIZE];
const AT_TRUE_SCALE: [f64; 6] = [48.0, 32.0, 22.0, 15.0, 10.0, Label::SIZE];
/// Type of what is said below a lay at true scale, pt, and from one line to the next in parts of it.
const SAID: [f64; 4] = [24.0, 16.0, 11.0, Label::SIZE];
const APART: f64 = 1.4;
/// Room for the arrow at true scale, mm.
const WAY: f64 = 12.0;

/// Marks of the placed pieces in their order, each with shorter ones behind it for where it finds no room.
pub type Marks = [Vec<String>];

/// Draws a lay on a sheet at a scale, its roll one way, with a mark in each piece that has room for one.
#[must_use]
pub fn ply_at(instance: &Instance, lay: &Lay, how: (Roll, f64), texts: [&str; 2], marks: &Marks) -> Scene {
    let paper = paper(instance, how);
    let mut scene = drawn(instance, lay, &paper, texts, Codes::None);
    let (labels, _) = written(instance, lay, &paper, marks, &ON_SHEET);
    labels.into_iter().for_each(|label| scene.label(label));
    scene
}

/// Width and height of that drawing, mm, and which pieces find no room for any mark, by their place in the lay.
#[must_use]
pub fn ply_size(instance: &Instance, lay: &Lay, how: (Roll, f64), marks: &Marks) -> ([f64; 2], Vec<usize>) {
    let paper = paper(instance, how);
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let (size, [top, right]) = paper.size(length, width);
    let (_, bare) = written(instance, lay, &paper, marks, &ON_SHEET);
    ([super::LEFT + size[0] + right, top + size[1] + super::BELOW], bare)
}

/// The lay at true scale, exactly as wide as it is long; below it what is said of it.
#[must_use]
pub fn true_scale(instance: &Instance, lay: &Lay, marks: &Marks, said: &[String]) -> Scene {
    let (length, width) = (millimetres(lay.length), millimetres(instance.fabric.width));
    let widest = |size: f64| said.iter().map(|line| text_width(line, size, false)).fold(0.0, f64::max);
    let size = SAID.into_iter().find(|size| widest(*size) <= length).unwrap_or(Label::SIZE);
    let step = size * POINT * APART;
    let height = width + WAY + step * (said.len() as f64 + 0.5);
    let alt = say!(ALT, pieces = lay.placed.len(), length = length.to_string(), width = width.to_string());
    let mut scene = Scene::new(length, height, alt);
    scene.rect(None, Fill::Paper, [0.0; 2], length, height);
    scene.rect(Some(Line::Outline), Fill::None, [0.0; 2], length, width);
    let paper = Paper { roll: Roll::Across, scale: 1.0, arrow: 0.0, strip: 0.0, start: [0.0, width] };
    let (mut curves, mut shapes) = (Curves::new(), Shapes::new());
    for placed in &lay.placed {
        draw(&mut scene, (instance, Codes::None), placed, &paper, (&mut curves, &mut shapes));
    }
    let (labels, _) = written(instance, lay, &paper, marks, &AT_TRUE_SCALE);
    labels.into_iter().for_each(|label| scene.label(label));
    let middle = [length / 2.0, width + WAY / 2.0];
    match Ways::of(instance) {
        Ways::One => pile(&mut scene, middle, [1.0, 0.0]),
        Ways::Parallel => grain(&mut scene, [middle[0] - WAY, middle[1]], [middle[0] + WAY, middle[1]]),
        Ways::Own => {}
    }
    for (line, text) in said.iter().enumerate() {
        let at = [2.0, width + WAY + step * (line as f64 + 1.0)];
        scene.label(Label::new(text, at).size(size).anchor(Along::Start, Across::Base).bare());
    }
    scene
}

fn paper(instance: &Instance, (roll, scale): (Roll, f64)) -> Paper {
    Paper::at_scale(millimetres(instance.fabric.width), roll, scale, Ways::of(instance).room())
}

/// The size of type and the label that a piece holds, if it holds one.
type Found = Option<(usize, Label)>;

/// A label in each piece, and the pieces that hold none. Copies that lie the same way are looked at once for each mark as long.
fn written(instance: &Instance, lay: &Lay, paper: &Paper, marks: &Marks, sizes: &[f64]) -> (Vec<Label>, Vec<usize>) {
    let mut corners: BTreeMap<Key, Vec<At>> = BTreeMap::new();
    let mut found: BTreeMap<(Key, Vec<usize>), Found> = BTreeMap::new();
    let (mut labels, mut bare) = (Vec::new(), Vec::new());
    for (n, (placed, texts)) in lay.placed.iter().zip(marks).enumerate() {
        let own = key(placed);
        let ring = corners.entry(own).or_insert_with(|| outline(instance, placed, paper));
        let long = texts.iter().map(|text| text.chars().count()).collect();
        let label = found.entry((own, long)).or_insert_with(|| fitting(ring, texts, sizes));
        let at = paper.at(placed.at);
        match label.as_ref().and_then(|(which, label)| Some((texts.get(*which)?, label))) {
            Some((text, label)) => {
                let at = [at[0] + label.at[0], at[1] + label.at[1]];
                labels.push(Label { at, text: text.clone(), ..label.clone() });
            }
            None => bare.push(n),
        }
    }
    (labels, bare)
}

/// The corners of a piece as it lies, in mm of paper from its own origin.
fn outline(instance: &Instance, placed: &Placed, paper: &Paper) -> Vec<At> {
    let Some(piece) = instance.pieces.get(placed.piece) else { return Vec::new() };
    let local = |p: &crate::geom::grid::GridPoint| paper.way(millimetres(p.x), millimetres(p.y));
    placed.turn.apply(&piece.outline).points.iter().map(local).collect()
}

/// The first mark in the largest type that lies inside, along the paper or upright: which of the marks, and its label.
fn fitting(ring: &[At], texts: &[String], sizes: &[f64]) -> Option<(usize, Label)> {
    let (low, high) = extent(ring)?;
    let (across, _) = inside(ring, low, high);
    let turned: Vec<At> = ring.iter().map(|[x, y]| [*y, *x]).collect();
    let ([y, x], _) = inside(&turned, [low[1], low[0]], [high[1], high[0]]);
    let tries = texts.iter().enumerate().flat_map(|(n, text)| sizes.iter().map(move |size| (n, text, *size)));
    tries.into_iter().find_map(|(n, text, size)| {
        let tall = size * POINT * CAPITAL;
        let half = [text_width(text, size, false) / 2.0, tall / 2.0].map(|side| side + AIR * tall);
        let holds = |at: At, [w, h]: [f64; 2]| {
            let around = [[-w, -h], [0.0, -h], [w, -h], [w, 0.0], [w, h], [0.0, h], [-w, h], [-w, 0.0]];
            around.iter().all(|[dx, dy]| within(ring, [at[0] + dx, at[1] + dy]))
        };
        let label = |at: At| Label::new(text, at).size(size).bare();
        if holds(across, half) {
            return Some((n, label(across)));
        }
        let upright = [half[1], half[0]];
        let spot = [across, [x, y]].into_iter().find(|at| holds(*at, upright))?;
        Some((n, label(spot).turned(-90.0)))
    })
}

//! Pieces laid flat and apart, in grey, with the edges that are sewn in bold and their letters.

use super::marks::{along, left, towards};
use super::names::nearest_on;
use super::place::{
    Places, bounds, extent, frame, leader, middle, moved, ring_of, ring_of_places, square, strokes, text_width, within,
};
use super::{At, Fill, Label, Line, Scene, Segment, grid};
use crate::words::Phrase;

/// A piece in its own true millimetres, y down.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FlatPiece {
    /// What is written on it, where it has room for that.
    pub name: String,
    /// Its closed outline.
    pub outline: Vec<Segment>,
    /// What is sewn of it.
    pub seams: Vec<FlatSeam>,
}

/// Edges that follow each other, or a line inside a piece.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FlatSeam {
    /// Each edge from its first to its last point.
    pub paths: Vec<Vec<Segment>>,
    /// The letter of the seam; empty for what has none.
    pub letter: String,
    /// Whether it is sewn now; else it was sewn before.
    pub now: bool,
}

/// Air round a piece for the letters outside of it, mm of paper: little, then more.
const AIRS: [f64; 2] = [1.8, 3.4];
/// Height kept for a name below its piece, mm of paper.
const BELOW: f64 = 3.0;
/// How often pieces are laid again because a name has no room inside.
const ROUNDS: usize = 3;
/// Where along an edge its letter may be, as shares of it: best in the middle.
const SHARES: [f64; 5] = [0.5, 0.38, 0.62, 0.25, 0.75];
/// How far from its edge a leader begins, mm of paper.
const OFF: f64 = 0.4;
/// Each scale that is tried is this share of the one before.
const STEP: f64 = 0.97;
/// How many scales are tried: the last is about 1:2000.
const SCALES: usize = 250;
/// Type size of the letters of seams, pt.
const LETTER: f64 = 7.0;
/// Type size of the names of pieces, pt.
const NAME: f64 = 7.0;
/// How far a letter may lie from its edge, mm of paper.
const FAR: f64 = 9.0;
/// Farther than this it has a leader, mm of paper.
const NEAR: f64 = 2.6;

/// Draws pieces at one scale, as large as a room lets them be, in the first room in which every letter and name is clear of
/// all else, with more air before the next room; else in the last.
#[must_use]
pub fn flat(pieces: &[FlatPiece], rooms: &[At], alt: impl Into<Phrase>) -> Scene {
    let alt = alt.into();
    let mut drawn = None;
    for (room, air) in rooms.iter().flat_map(|room| AIRS.map(|air| (*room, air))) {
        let mut below = vec![false; pieces.len()];
        // A name without room inside goes below its piece, and all are laid again.
        for _ in 0..ROUNDS {
            let Some((scene, clear, named)) = in_room(pieces, room, air, &below, &alt) else { break };
            let all = named.iter().all(|named| *named);
            if all && clear {
                return scene;
            }
            drawn = Some(scene);
            if all {
                break;
            }
            below.iter_mut().zip(named).for_each(|(below, named)| *below |= !named);
        }
    }
    drawn.unwrap_or_else(|| Scene::new(0.0, 0.0, alt))
}

/// Pieces drawn in a room, some with their names below; whether every letter is clear, and which pieces are named. None where
/// they do not fit.
fn in_room(pieces: &[FlatPiece], room: At, air: f64, below: &[bool], alt: &Phrase) -> Option<(Scene, bool, Vec<bool>)> {
    let scales = std::iter::successors(Some(1.0), |scale| Some(scale * STEP)).take(SCALES);
    let fits = |scale: f64| Some((scale, shelved(pieces, scale, room, air, below)?));
    let (scale, (corners, size)) = scales.into_iter().find_map(fits)?;
    let mut scene = Scene::new(size[0], size[1], alt.clone());
    let shown: Vec<Shown> = pieces.iter().zip(corners).map(|(piece, at)| Shown::of(piece, at, scale)).collect();
    shown.iter().for_each(|one| one.draw(&mut scene));
    let mut places = Places::new(size[0], size[1]);
    places.seen(&scene);
    for (one, _) in shown.iter().zip(below).filter(|(_, below)| **below) {
        one.name_below(&mut scene, &mut places);
    }
    let mut clear = true;
    for (at, one) in shown.iter().enumerate() {
        let others = shown.iter().enumerate().filter(|(other, _)| *other != at);
        let others: Vec<[At; 2]> = others.flat_map(|(_, other)| strokes(&other.outline)).collect();
        clear &= one.letters(&mut scene, &mut places, &others);
    }
    let named = shown.iter().zip(below).map(|(one, below)| *below || one.name(&mut scene, &mut places)).collect();
    Some((scene, clear, named))
}

/// The upper left corner of each piece in rows, and the size of the drawing; none where they do not fit.
fn shelved(pieces: &[FlatPiece], scale: f64, room: At, air: f64, below: &[bool]) -> Option<(Vec<At>, At)> {
    let (mut x, mut y, mut row, mut wide) = (0.0, 0.0, 0.0_f64, 0.0_f64);
    let mut corners = Vec::new();
    for (piece, below) in pieces.iter().zip(below) {
        let (low, high) = bounds(&piece.outline);
        let [own, tall] = [0, 1].map(|axis| (high[axis] - low[axis]) * scale);
        let name = if *below { [text_width(&piece.name, NAME, false) + 2.0, BELOW] } else { [0.0; 2] };
        let (width, height) = ((own + 2.0 * air).max(name[0]), tall + 2.0 * air + name[1]);
        if x > 0.0 && x + width > room[0] {
            (x, y, row) = (0.0, y + row, 0.0);
        }
        if x + width > room[0] || y + height > room[1] {
            return None;
        }
        corners.push([x + (width - own) / 2.0, y + air]);
        x += width;
        (row, wide) = (row.max(height), wide.max(x));
    }
    Some((corners, [grid(wide), grid(y + row)]))
}

/// A piece on paper.
struct Shown<'a> {
    piece: &'a FlatPiece,
    outline: Vec<Segment>,
    ring: Vec<At>,
    seams: Vec<(&'a FlatSeam, Vec<Vec<Segment>>)>,
}

impl<'a> Shown<'a> {
    fn of(piece: &'a FlatPiece, corner: At, scale: f64) -> Self {
        let (low, _) = bounds(&piece.outline);
        let paper = |p: At| [0, 1].map(|axis| grid(corner[axis] + (p[axis] - low[axis]) * scale));
        let outline = moved(&piece.outline, &paper);
        let seam = |seam: &'a FlatSeam| (seam, seam.paths.iter().map(|path| moved(path, &paper)).collect());
        Self { piece, ring: ring_of(&outline), outline, seams: piece.seams.iter().map(seam).collect() }
    }

    fn draw(&self, scene: &mut Scene) {
        scene.path(Some(Line::Hatch), Fill::Tint, self.outline.clone());
        for (seam, paths) in &self.seams {
            let line = if seam.now { Line::Sewn } else { Line::Outline };
            paths.iter().for_each(|path| scene.stroke(line, path.clone()));
        }
    }

    /// Each letter beside the longest of its edges, inside the piece or outside; whether all are clear. Nothing that is drawn
    /// or written lies between an edge and its letter, and no line of `others` is nearer, so none of these can be meant.
    fn letters(&self, scene: &mut Scene, places: &mut Places, others: &[[At; 2]]) -> bool {
        let mut clear = true;
        for (seam, paths) in self.seams.iter().filter(|(seam, _)| !seam.letter.is_empty()) {
            let length = |path: &&Vec<Segment>| strokes(path).iter().map(|[a, b]| square(*a, *b).sqrt()).sum::<f64>();
            let Some(longest) = paths.iter().max_by(|a, b| length(a).total_cmp(&length(b))) else { continue };
            let label = Label::new(&seam.letter, [0.0; 2]).size(LETTER).strong().bare();
            let least = (text_width(&seam.letter, LETTER, true) / 2.0).max(1.0) + 0.9;
            let spots = self.spots(longest, least);
            let free = |[at, spot]: &&[At; 2]| {
                let label = Label { at: *spot, ..label.clone() };
                let start = along(*at, towards(*at, *spot), OFF);
                let own = square(*at, *spot);
                let nearest = others.iter().all(|line| square(nearest_on(*line, *spot), *spot) > own);
                nearest
                    && places.free(frame(&label))
                    && leader(start, &label).is_none_or(|end| places.unbroken([start, end]))
            };
            let found = spots.iter().find(free).copied();
            clear &= found.is_some();
            let Some([at, _]) = found.or_else(|| spots.first().copied()) else { continue };
            let wanted: Vec<At> =
                found.map_or_else(|| spots.iter().map(|[_, spot]| *spot).collect(), |[_, at]| vec![at]);
            let placed = places.put(Label { at, ..label }, wanted);
            if square(placed.at, at) > (least + NEAR) * (least + NEAR)
                && let Some(end) = leader(at, &placed)
            {
                let line = [along(at, towards(at, end), OFF), end];
                places.avoid(&[Segment::Move(line[0]), Segment::Line(line[1])]);
                scene.line(Line::Callout, line[0], line[1]);
            }
            scene.label(placed);
        }
        clear
    }

    /// Places on an edge with places for its letter, the nearest first.
    fn spots(&self, edge: &[Segment], least: f64) -> Vec<[At; 2]> {
        let from = |share: f64| {
            let (at, way) = middle(edge, share)?;
            let side = left(way);
            let inward = if within(&self.ring, along(at, side, 0.8)) { side } else { [-side[0], -side[1]] };
            Some(ring_of_places(at, inward, least, FAR).into_iter().map(move |spot| [at, spot]))
        };
        let mut all: Vec<[At; 2]> = SHARES.into_iter().filter_map(from).flatten().collect();
        let reach = |[at, spot]: &[At; 2]| (square(*at, *spot).sqrt() * 10.0).round();
        all.sort_by(|a, b| reach(a).total_cmp(&reach(b)));
        all
    }

    /// The name near the middle of the piece; whether there is room, or no name.
    fn name(&self, scene: &mut Scene, places: &mut Places) -> bool {
        let label = Label::new(&self.piece.name, [0.0; 2]).size(NAME).bare();
        let [low, high] = frame(&label);
        let size = [high[0] - low[0], high[1] - low[1]];
        let middle = extent(&self.ring).map(|(low, high)| [0, 1].map(|axis| f64::midpoint(low[axis], high[axis])));
        let Some(near) = middle.filter(|_| !self.piece.name.is_empty()) else { return true };
        let Some(at) = places.inside(&self.ring, size, near) else { return false };
        // The box reaches farther below the middle of the capitals than above it.
        let at = [at[0], at[1] - f64::midpoint(low[1], high[1])];
        scene.label(places.put(Label { at, ..label }, [at]));
        true
    }

    /// The name in the room kept for it below the piece.
    fn name_below(&self, scene: &mut Scene, places: &mut Places) {
        let Some((low, high)) = extent(&self.ring) else { return };
        let at = [f64::midpoint(low[0], high[0]), high[1] + BELOW / 2.0 + 0.5];
        let label = Label::new(&self.piece.name, at).size(NAME).bare();
        scene.label(places.put(label, [at]));
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Item, closed, open};
    use super::*;

    /// A square of 100 mm with its right edge sewn, as often as wanted.
    fn squares(count: usize) -> Vec<FlatPiece> {
        let one = |n: usize| FlatPiece {
            name: format!("P{n}"),
            outline: closed(&[[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]]),
            seams: vec![FlatSeam {
                paths: vec![open(&[[100.0, 0.0], [100.0, 100.0]])],
                letter: format!("A{n}"),
                now: true,
            }],
        };
        (0..count).map(one).collect()
    }

    fn parts(scene: &Scene) -> (Vec<&Vec<Segment>>, Vec<&Vec<Segment>>, Vec<&Label>) {
        let (mut grey, mut bold, mut labels) = (Vec::new(), Vec::new(), Vec::new());
        for item in &scene.items {
            match item {
                Item::Path(path) if path.line == Some(Line::Hatch) => grey.push(&path.segments),
                Item::Path(path) if path.line == Some(Line::Sewn) => bold.push(&path.segments),
                Item::Path(_) => {}
                Item::Label(label) => labels.push(label),
            }
        }
        (grey, bold, labels)
    }

    #[test]
    fn the_bold_line_lies_on_the_edge_of_its_piece_and_all_in_the_room() {
        for count in [1, 2, 3, 7] {
            let scene = flat(&squares(count), &[[30.0, 20.0], [60.0, 40.0]], "alt");
            let (grey, bold, labels) = parts(&scene);
            assert_eq!((grey.len(), bold.len(), labels.len() >= count), (count, count, true));
            for (outline, edge) in grey.iter().zip(&bold) {
                let (low, high) = bounds(outline);
                let ends: Vec<At> = strokes(edge).into_iter().flatten().collect();
                let (from, to) = extent(&ends).expect("an edge");
                assert_eq!([from, to], [[high[0], low[1]], high]);
                assert!(low.iter().all(|c| *c >= 0.0) && high[0] <= scene.width && high[1] <= scene.height);
            }
            for n in 0..count {
                assert!(labels.iter().any(|label| label.text == format!("P{n}")), "P{n} of {count} has no name");
            }
            for label in labels {
                let [low, high] = frame(label);
                assert!(low[0] >= 0.0 && low[1] >= 0.0 && high[0] <= scene.width && high[1] <= scene.height);
            }
        }
    }

    /// By hand: beside the line, and past its end.
    #[test]
    fn the_nearest_place_of_a_line_is_on_it() {
        let line = [[0.0, 0.0], [10.0, 0.0]];
        assert_eq!([nearest_on(line, [4.0, 3.0]), nearest_on(line, [13.0, 4.0])], [[4.0, 0.0], [10.0, 0.0]]);
    }

    /// The right edges of two squares side by side: the letter of the first is not in the second, nor nearer to it.
    #[test]
    fn a_letter_is_nearest_to_its_own_piece() {
        let scene = flat(&squares(2), &[[40.0, 20.0]], "alt");
        let (grey, _, labels) = parts(&scene);
        let lettered = labels.iter().find(|label| label.text == "A0").expect("a letter");
        let off = |outline: &[Segment]| {
            let to = |line: [At; 2]| square(nearest_on(line, lettered.at), lettered.at);
            strokes(outline).into_iter().map(to).fold(f64::INFINITY, f64::min)
        };
        assert!(off(grey[0]) < off(grey[1]) && !within(&ring_of(grey[1]), lettered.at));
    }

    #[test]
    fn letters_lie_apart_and_the_next_room_is_taken_where_the_first_is_too_small() {
        let scene = flat(&squares(2), &[[6.0, 6.0], [30.0, 20.0]], "alt");
        assert!(scene.width > 6.0, "{}", scene.width);
        let (_, _, labels) = parts(&scene);
        for (n, one) in labels.iter().enumerate() {
            assert!(labels.iter().skip(n + 1).all(|other| !super::super::meet(&frame(one), &frame(other))));
        }
    }
}

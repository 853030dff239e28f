//! Which edges meet: the pieces of a part side by side, every edge with the letter of its seam.

use super::marks::{along, arrowhead, capsule, left, towards};
use super::piece::{SCALES, bounds, moved};
use super::place::{Places, around, leader, middle, ring_of_places, square, strokes, text_width, within};
use super::{At, Fill, Label, Line, PiecePoint, Scene, Segment, circle, grid};
use crate::words::Phrase;

/// A piece on the map, in its own true millimetres, y down, every text final.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MapPiece {
    /// What it is called on the map, `"SIDE.l"`.
    pub title: String,
    /// Its edges, in order round it.
    pub edges: Vec<MapEdge>,
    /// Its named points.
    pub points: Vec<PiecePoint>,
    /// Lines inside that are sewn along or onto: the letter and the line.
    pub lines: Vec<(String, Vec<Segment>)>,
}

/// One edge.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MapEdge {
    /// From its first to its last point.
    pub path: Vec<Segment>,
    /// The letters of its seams; empty for an edge that joins nothing.
    pub letter: String,
    /// Which way the seam runs along it; none for an edge that joins nothing.
    pub forward: Option<bool>,
    /// Left open until it is closed.
    pub open: bool,
}

/// Air between pieces for letters and names, mm of paper.
const AIR: f64 = 10.0;
/// Room for the name of a piece above it, mm of paper.
const TITLE: f64 = 4.0;

/// Paper that the outline of a piece needs for each of its letters, mm.
const PER_LETTER: f64 = 9.0;

/// Draws all pieces on one page, at the largest standard scale at which they fit; nothing where their letters would crowd.
#[must_use]
pub fn overview(pieces: &[MapPiece], width: f64, height: f64, alt: impl Into<Phrase>) -> Option<(Scene, f64)> {
    let one = |scale: &f64| shelved(pieces, *scale, width, height).is_some_and(|sheets| sheets.len() <= 1);
    let scale = SCALES.into_iter().find(one)?;
    let sheet = shelved(pieces, scale, width, height)?.into_iter().next()?;
    let clear = pieces.iter().all(|piece| piece.clear(scale));
    clear.then(|| (drawn(pieces, &sheet, scale, width, &alt.into()), scale))
}

/// The pieces of one drawing with the upper left corner of each, and the height they take.
#[derive(Debug, Default)]
struct Shelves {
    corners: Vec<(usize, At)>,
    used: f64,
}

/// Pieces in rows on as many drawings as they need; none where one is larger than the room.
fn shelved(pieces: &[MapPiece], scale: f64, width: f64, height: f64) -> Option<Vec<Shelves>> {
    let (mut x, mut y, mut row) = (0.0, 0.0, 0.0_f64);
    let mut sheets: Vec<Shelves> = vec![Shelves::default()];
    for (n, piece) in pieces.iter().enumerate() {
        let (low, high) = bounds(&piece.whole());
        let own = (high[0] - low[0]) / scale;
        let cell = own.max(text_width(&piece.title, 9.0, true)) + 2.0 * AIR;
        let tall = (high[1] - low[1]) / scale + 2.0 * AIR + TITLE;
        if cell > width || tall > height {
            return None;
        }
        if x > 0.0 && x + cell > width {
            (x, y, row) = (0.0, y + row, 0.0);
        }
        if y + tall > height {
            sheets.push(Shelves::default());
            (x, y, row) = (0.0, 0.0, 0.0);
        }
        row = row.max(tall);
        let sheet = sheets.last_mut()?;
        sheet.corners.push((n, [x + (cell - own) / 2.0, y + AIR + TITLE]));
        sheet.used = y + row;
        x += cell;
    }
    Some(sheets)
}

fn drawn(pieces: &[MapPiece], sheet: &Shelves, scale: f64, width: f64, alt: &Phrase) -> Scene {
    let mut scene = Scene::new(width, sheet.used.max(AIR), alt.clone());
    let mut places = Places::new(width, scene.height);
    let shown = |(n, corner): &(usize, At)| pieces.get(*n).map(|piece| Shown::of(piece, *corner, scale));
    let placed: Vec<Shown> = sheet.corners.iter().filter_map(shown).collect();
    for shown in &placed {
        shown.draw(&mut scene);
    }
    places.seen(&scene);
    for (_, at) in placed.iter().flat_map(|shown| &shown.points) {
        places.take(around(*at, [1.0, 1.0]));
    }
    for shown in &placed {
        shown.letters(&mut scene, &mut places);
    }
    for shown in &placed {
        shown.names(&mut scene, &mut places);
    }
    scene
}

impl MapPiece {
    /// Whether its letters have room round it at a scale.
    fn clear(&self, scale: f64) -> bool {
        let length: f64 = strokes(&self.whole()).iter().map(|[a, b]| square(*a, *b).sqrt()).sum();
        let letters = self.edges.iter().filter(|edge| !edge.letter.is_empty()).count() + self.lines.len();
        length / scale >= PER_LETTER * letters as f64
    }

    fn whole(&self) -> Vec<Segment> {
        self.edges.iter().flat_map(|edge| edge.path.iter().copied()).collect()
    }
}

/// A piece on paper.
struct Shown<'a> {
    piece: &'a MapPiece,
    edges: Vec<Vec<Segment>>,
    lines: Vec<(&'a str, Vec<Segment>)>,
    points: Vec<(&'a str, At)>,
    ring: Vec<At>,
    top: At,
}

impl<'a> Shown<'a> {
    fn of(piece: &'a MapPiece, corner: At, scale: f64) -> Self {
        let (low, high) = bounds(&piece.whole());
        let paper = |p: At| [grid(corner[0] + (p[0] - low[0]) / scale), grid(corner[1] + (p[1] - low[1]) / scale)];
        let edges: Vec<Vec<Segment>> = piece.edges.iter().map(|edge| moved(&edge.path, &paper)).collect();
        let ring = edges.iter().flat_map(|edge| strokes(edge)).map(|[from, _]| from).collect();
        let top = [paper([f64::midpoint(low[0], high[0]), low[1]])[0], corner[1] - AIR - 0.6];
        let points = piece.points.iter().map(|point| (point.name.as_str(), paper(point.at))).collect();
        let lines = piece.lines.iter().map(|(letter, path)| (letter.as_str(), moved(path, &paper))).collect();
        Self { piece, edges, lines, points, ring, top }
    }

    /// The edges: sewn ones firm with an arrowhead the way the seam runs, open ones dashed, others thin.
    fn draw(&self, scene: &mut Scene) {
        for (edge, path) in self.piece.edges.iter().zip(&self.edges) {
            let line = match (edge.open, edge.letter.is_empty()) {
                (true, _) => Line::Sew,
                (false, true) => Line::Dimension,
                (false, false) => Line::Outline,
            };
            scene.stroke(line, path.clone());
            if let (Some(forward), Some((at, way))) = (edge.forward, middle(path, 0.62)) {
                let way = if forward { way } else { [-way[0], -way[1]] };
                let length: f64 = strokes(path).iter().map(|[a, b]| square(*a, *b).sqrt()).sum();
                arrowhead(scene, at, way, (length / 7.0).clamp(0.4, 1.0));
            }
        }
        for (_, path) in &self.lines {
            scene.stroke(Line::Topstitch, path.clone());
        }
        for (_, at) in &self.points {
            scene.path(Some(Line::Placement), Fill::Paper, circle(*at, 0.5));
        }
        scene.label(Label::new(&self.piece.title, self.top).size(9.0).strong().bare());
    }

    /// Each letter in a ring at the middle of its edge, outside the piece.
    fn letters(&self, scene: &mut Scene, places: &mut Places) {
        let edges = self.piece.edges.iter().map(|edge| edge.letter.as_str()).zip(&self.edges);
        let lines = self.lines.iter().map(|(letter, path)| (*letter, path));
        for (letter, path) in edges.chain(lines).filter(|(letter, _)| !letter.is_empty()) {
            let Some((at, way)) = middle(path, 0.42) else { continue };
            let side = left(way);
            let out = if within(&self.ring, along(at, side, 0.8)) { [-side[0], -side[1]] } else { side };
            let half = (text_width(letter, 8.5, true) / 2.0 + 0.6).max(2.1);
            let wanted = ring_of_places(at, out, half + 0.9, half + 9.0);
            let found = places.place([2.0 * half, 4.2], wanted).unwrap_or(at);
            scene.line(Line::Callout, along(found, towards(found, at), 1.9), at);
            scene.path(Some(Line::Placement), Fill::Paper, capsule(found, half, 2.1));
            scene.label(Label::new(letter, found).size(8.5).strong().bare());
        }
    }

    /// The named points, small, outside where there is room.
    fn names(&self, scene: &mut Scene, places: &mut Places) {
        let centre = self.ring.iter().fold([0.0; 2], |sum, p| [sum[0] + p[0], sum[1] + p[1]]);
        let count = self.ring.len().max(1) as f64;
        for (name, at) in &self.points {
            let away = towards([centre[0] / count, centre[1] / count], *at);
            let label = Label::new(*name, *at).bare();
            let wanted = ring_of_places(*at, away, 1.9, 7.0);
            let placed = places.put(label, wanted);
            if let (true, Some(end)) = (square(placed.at, *at) > 16.0, leader(*at, &placed)) {
                scene.line(Line::Callout, along(*at, towards(*at, end), 0.5), end);
            }
            scene.label(placed);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::place::ring_of;
    use super::*;

    /// By hand: 42 % of the way round two sides of 10 is 8.4 along the first.
    #[test]
    fn the_place_of_a_letter_is_measured_along_the_edge() {
        let path = [Segment::Move([0.0, 0.0]), Segment::Line([10.0, 0.0]), Segment::Line([10.0, 10.0])];
        let (at, way) = middle(&path, 0.42).expect("a path with length");
        assert!(square(at, [8.4, 0.0]) < 1e-18 && way == [1.0, 0.0]);
        assert_eq!(middle(&[], 0.5), None);
    }

    #[test]
    fn a_ring_holds_its_letters() {
        let (low, high) = super::super::place::extent(&ring_of(&capsule([0.0, 0.0], 4.0, 2.1))).expect("a ring");
        assert!(low[0] <= -4.0 && high[0] >= 4.0 && (high[1] - 2.1).abs() < 1e-9);
    }
}

//! Which edges meet: the pieces of a product on one page, every edge with the letter of its seam.

use super::marks::{along, arrowhead, capsule, left, towards};
use super::piece::SCALES;
use super::place::{
    Places, around, bounds, frame, leader, middle, moved, ring_of_places, square, strokes, text_width, within,
};
use super::{At, Fill, Label, Line, PiecePoint, Scene, Segment, Skyline, circle, grid};
use crate::words::Phrase;

/// A piece on the map, in its own true millimetres, y down, every text final.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MapPiece {
    /// What it is called on the map, `"SIDE.l"`.
    pub title: String,
    /// The part it belongs to, below; may be empty.
    pub part: String,
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

/// All pieces on one page.
#[derive(Debug, Clone, PartialEq)]
pub struct Map {
    /// The drawing.
    pub scene: Scene,
    /// The denominator of its scale; none where some pieces are drawn larger than others.
    pub scale: Option<f64>,
    /// Letters that found no place, each with its piece: `"K1 HEAD.l"`.
    pub left: Vec<String>,
}

/// Air round a piece for letters and names, mm of paper.
const AIR: f64 = 6.5;
/// Room for the name of a piece above it, and for its part below that, mm of paper.
const TITLE: f64 = 4.0;
/// See [`TITLE`].
const PART: f64 = 3.0;
/// Type of letters and names of points, and of titles, points.
const LETTER: f64 = 7.0;
/// See [`LETTER`].
const NAME: f64 = 8.5;
/// The name of a point further off has a leader, mm of paper.
const NEAR: f64 = 4.2;
/// Half the height of the ring round a letter, mm of paper.
const RING: f64 = 1.8;
/// Paper that the outline of a piece needs for each of its letters, mm: what is wanted, then what is put up with.
const PER_LETTER: [f64; 4] = [10.0, 7.0, 5.0, 0.0];
/// Denominators between those of [`SCALES`] that are drawn as well.
const BETWEEN: [f64; 12] = [1.5, 2.5, 3.0, 3.5, 4.0, 4.5, 6.0, 7.0, 8.0, 12.0, 15.0, 30.0];

/// Draws all pieces on one page, those of a part beside each other, as large as they fit. A piece on which letters would crowd is
/// drawn larger than the others. None where there is nothing to draw, or no room for it.
#[must_use]
pub fn overview(pieces: &[MapPiece], width: f64, height: f64, alt: impl Into<Phrase>) -> Option<Map> {
    let mut denominators: Vec<f64> = SCALES.into_iter().chain(BETWEEN).collect();
    denominators.sort_by(f64::total_cmp);
    let ways = PER_LETTER.into_iter().flat_map(|least| denominators.iter().map(move |common| (least, *common)));
    let mut found = ways.filter_map(|(least, common)| {
        let scales: Vec<f64> = pieces.iter().map(|piece| piece.denominator(least, common)).collect();
        Some((laid(pieces, &scales, width, height)?, scales))
    });
    let (corners, scales) = found.next().filter(|(corners, _)| !corners.is_empty())?;
    let (scene, left) = drawn(pieces, &corners, &scales, [width, height], &alt.into());
    let scale = scales.first().copied().filter(|first| scales.iter().all(|one| one == first));
    Some(Map { scene, scale, left })
}

/// The upper left corner of each piece on a page, in their order; none where they do not fit.
fn laid(pieces: &[MapPiece], scales: &[f64], width: f64, height: f64) -> Option<Vec<At>> {
    let size = |(piece, scale): (&MapPiece, &f64)| {
        let [wide, tall] = piece.size(*scale);
        let named = text_width(&piece.title, NAME, true).max(text_width(&piece.part, LETTER, false) - 2.0 * AIR + 1.0);
        [wide.max(named) + 2.0 * AIR, tall + 2.0 * AIR + piece.above()]
    };
    let sizes: Vec<At> = pieces.iter().zip(scales).map(size).collect();
    let in_order: Vec<usize> = (0..pieces.len()).collect();
    let mut tallest = in_order.clone();
    tallest.sort_by(|a, b| sizes[*b][1].total_cmp(&sizes[*a][1]));
    [in_order, tallest].iter().find_map(|order| {
        let mut edge = Skyline::new(width);
        let mut corners = vec![[0.0; 2]; pieces.len()];
        for n in order {
            let at = edge.spot(sizes[*n], height)?;
            edge.take(at, sizes[*n]);
            let own = pieces[*n].size(scales[*n])[0];
            corners[*n] = [at[0] + (sizes[*n][0] - own) / 2.0, at[1] + AIR + pieces[*n].above()];
        }
        Some(corners)
    })
}

fn drawn(
    pieces: &[MapPiece],
    corners: &[At],
    scales: &[f64],
    [width, height]: At,
    alt: &Phrase,
) -> (Scene, Vec<String>) {
    let placed: Vec<Shown> =
        pieces.iter().zip(corners).zip(scales).map(|((piece, at), scale)| Shown::of(piece, *at, *scale)).collect();
    let lowest = placed.iter().flat_map(|shown| &shown.ring).map(|at| at[1] + AIR).fold(AIR, f64::max);
    let mut scene = Scene::new(width, lowest.min(height), alt.clone());
    let mut places = Places::new(width, scene.height);
    for shown in &placed {
        shown.draw(&mut scene);
    }
    places.seen(&scene);
    for (_, at) in placed.iter().flat_map(|shown| &shown.points) {
        places.take(around(*at, [1.0, 1.0]));
    }
    let left = placed.iter().flat_map(|shown| shown.letters(&mut scene, &mut places)).collect();
    for shown in &placed {
        shown.names(&mut scene, &mut places);
    }
    (scene, left)
}

impl MapPiece {
    /// The denominator at which it is drawn: the common one, or that at which each letter has so much of the outline.
    fn denominator(&self, least: f64, common: f64) -> f64 {
        let length: f64 = strokes(&self.whole()).iter().map(|[a, b]| square(*a, *b).sqrt()).sum();
        let letters = self.edges.iter().filter(|edge| !edge.letter.is_empty()).count() + self.lines.len();
        let clear = length / (least * letters as f64);
        if clear > 0.0 { common.min(clear) } else { common }
    }

    /// Room above it for its name and its part, mm of paper.
    fn above(&self) -> f64 {
        if self.part.is_empty() { TITLE } else { TITLE + PART }
    }

    /// Width and height on paper.
    fn size(&self, scale: f64) -> At {
        let (low, high) = bounds(&self.whole());
        [(high[0] - low[0]) / scale, (high[1] - low[1]) / scale]
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
        let top = [paper([f64::midpoint(low[0], high[0]), low[1]])[0], corner[1] - AIR - piece.above() + TITLE - 0.6];
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
        scene.label(Label::new(&self.piece.title, self.top).size(NAME).strong().bare());
        if !self.piece.part.is_empty() {
            scene.label(Label::new(&self.piece.part, [self.top[0], self.top[1] + PART]).size(LETTER).bare());
        }
    }

    /// Each letter in a ring at the middle of its edge, outside the piece where there is room. Those that found none.
    fn letters(&self, scene: &mut Scene, places: &mut Places) -> Vec<String> {
        let edges = self.piece.edges.iter().map(|edge| edge.letter.as_str()).zip(&self.edges);
        let lines = self.lines.iter().map(|(letter, path)| (*letter, path));
        let mut left_out = Vec::new();
        for (letter, path) in edges.chain(lines).filter(|(letter, _)| !letter.is_empty()) {
            let Some((at, way)) = middle(path, 0.42) else { continue };
            let side = left(way);
            let out = if within(&self.ring, along(at, side, 0.8)) { [-side[0], -side[1]] } else { side };
            let half = (text_width(letter, LETTER, true) / 2.0 + 0.5).max(RING);
            let wanted = ring_of_places(at, out, half + 0.9, half + 10.0);
            let size = [2.0 * half, 2.0 * RING];
            let Some(found) = wanted.into_iter().find(|at| places.free(around(*at, size))) else {
                left_out.push(format!("{letter} {}", self.piece.title));
                continue;
            };
            places.take(around(found, size));
            let leader = [along(found, towards(found, at), RING), at];
            places.avoid(&[Segment::Move(leader[0]), Segment::Line(leader[1])]);
            scene.line(Line::Callout, leader[0], leader[1]);
            scene.path(Some(Line::Placement), Fill::Paper, capsule(found, half, RING));
            scene.label(Label::new(letter, found).size(LETTER).strong().bare());
        }
        left_out
    }

    /// The named points, small, outside where there is room; the drawings of the pieces show them all.
    fn names(&self, scene: &mut Scene, places: &mut Places) {
        let centre = self.ring.iter().fold([0.0; 2], |sum, p| [sum[0] + p[0], sum[1] + p[1]]);
        let count = self.ring.len().max(1) as f64;
        for (name, at) in &self.points {
            let away = towards([centre[0] / count, centre[1] / count], *at);
            let label = |at: At| Label::new(*name, at).size(LETTER).bare();
            let clear = |at: &At| places.free(frame(&label(*at)));
            let Some(found) = ring_of_places(*at, away, 1.7, 6.2).into_iter().find(clear) else { continue };
            places.take(frame(&label(found)));
            if let Some(end) = leader(*at, &label(found)).filter(|_| square(found, *at) > NEAR * NEAR) {
                scene.line(Line::Callout, along(*at, towards(*at, end), 0.5), end);
            }
            scene.label(label(found));
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

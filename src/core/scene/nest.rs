//! All sizes of a piece over each other on one point they share.

use super::marks::{scale_bar, towards};
use super::piece::{SCALES, bounds, moved};
use super::place::{Places, extent, leader, ring_of, ring_of_places, square};
use super::{Across, Along, At, Fill, Label, Line, Scene, Segment, circle, grid};
use crate::words::Phrase;

/// One size of a piece: its cut line in true millimetres, y down, the shared point at the origin.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct NestSize {
    /// The code of the size.
    pub code: String,
    /// The cut line.
    pub cut: Vec<Segment>,
}

/// Space round the outlines, mm of paper; more below, for the scale.
const ROOM: f64 = 8.0;
/// Space below the outlines, mm of paper.
const FOOT: f64 = 13.0;
/// The lines of the sizes in order; a fifth size begins again, its code tells it apart.
const LINES: [Line; 4] = [Line::First, Line::Second, Line::Third, Line::Fourth];

/// Draws the sizes at the largest standard scale that fits the room in mm of paper given to it. Gives the drawing and the denominator
/// of its scale.
#[must_use]
pub fn nest(
    sizes: &[NestSize],
    point: &str,
    bar_text: &str,
    room: impl Fn(f64) -> At,
    alt: impl Into<Phrase>,
) -> (Scene, f64) {
    let all: Vec<Segment> = sizes.iter().flat_map(|one| one.cut.iter().copied()).collect();
    let (low, high) = bounds(&all);
    let extent_at = |scale: f64| [(high[0] - low[0]) / scale, (high[1] - low[1]) / scale];
    let fits = |scale: &f64| {
        let ([w, h], room) = (extent_at(*scale), room(*scale));
        w + 2.0 * ROOM <= room[0] && h + ROOM + FOOT <= room[1]
    };
    let scale = SCALES.into_iter().find(fits).unwrap_or(100.0);
    let size = extent_at(scale);
    let width = (size[0] + 2.0 * ROOM).max(38.0);
    let x0 = (width - size[0]) / 2.0;
    let paper = |p: At| [grid(x0 + (p[0] - low[0]) / scale), grid(ROOM + (p[1] - low[1]) / scale)];
    let mut scene = Scene::new(width, size[1] + ROOM + FOOT, alt);
    let paths: Vec<Vec<Segment>> = sizes.iter().map(|one| moved(&one.cut, &paper)).collect();
    for (path, line) in paths.iter().zip(LINES.into_iter().cycle()) {
        scene.stroke(line, path.clone());
    }
    scale_bar(&mut scene, [x0, ROOM + size[1] + 9.0], 50.0 / scale, bar_text);
    let mut places = Places::new(scene.width, scene.height);
    places.seen(&scene);
    let shared = paper([0.0, 0.0]);
    scene.path(Some(Line::Notch), Fill::Paper, circle(shared, 0.9));
    let below = Label::new(point, shared).strong().bare();
    let label = places.put(below, ring_of_places(shared, [0.0, 1.0], 2.6, 12.0));
    scene.label(label);
    for (one, path) in sizes.iter().zip(&paths) {
        code(&mut scene, &mut places, &one.code, &ring_of(path), shared);
    }
    (scene, scale)
}

/// The code of a size, led to the place of its outline that is farthest from the shared point.
fn code(scene: &mut Scene, places: &mut Places, text: &str, ring: &[At], shared: At) {
    let Some(far) = ring.iter().max_by(|a, b| square(**a, shared).total_cmp(&square(**b, shared))).copied() else {
        return;
    };
    let middle =
        extent(ring).map_or(shared, |(low, high)| [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])]);
    let label = Label::new(text, far).strong().anchor(Along::Middle, Across::Middle).bare();
    let placed = places.put(label, ring_of_places(far, towards(middle, far), 3.0, 20.0));
    if let Some(end) = leader(far, &placed) {
        scene.line(Line::Callout, far, end);
    }
    scene.path(None, Fill::Ink, circle(far, 0.5));
    scene.label(placed);
}

/// A sample of the line of the `n`-th size, 18 mm by 4 mm.
#[must_use]
pub fn nest_sample(n: usize, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.0, alt);
    let line = LINES.into_iter().cycle().nth(n % LINES.len()).unwrap_or(Line::First);
    scene.line(line, [0.5, 2.0], [17.5, 2.0]);
    scene
}

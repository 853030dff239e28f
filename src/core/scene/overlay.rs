//! An outline before and after, one laid over the other, with the place where they are farthest apart.

use crate::geom;
use crate::words::Phrase;

use super::marks::{arrow, scale_bar, towards};
use super::piece::SCALES;
use super::place::{Places, extent, leader, ring_of, ring_of_places, square};
use super::place::{bounds, moved};
use super::{At, Fill, Label, Line, Scene, Segment, circle, grid};

/// Two outlines in true millimetres, y down.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Laid {
    /// The earlier outline, laid on the later one.
    pub before: Vec<Segment>,
    /// The later outline.
    pub after: Vec<Segment>,
    /// The place on the earlier outline where they are farthest apart, and on the later one.
    pub farthest: (At, At),
    /// That distance, written.
    pub distance: String,
    /// Named points of the later outline.
    pub points: Vec<(String, At)>,
}

/// Space round the outlines, mm of paper; more below, for the scale.
const ROOM: f64 = 8.0;
/// Space below the outlines, mm of paper.
const FOOT: f64 = 10.0;
/// Shortest distance on paper that is drawn as an arrow, mm; a shorter one is ringed.
const ARROW: f64 = 5.0;

impl Laid {
    /// From outlines with y up.
    #[must_use]
    pub fn of(before: &geom::Path, after: &geom::Path, farthest: (geom::Point, geom::Point), distance: &str) -> Laid {
        Laid {
            before: down(before),
            after: down(after),
            farthest: (at(farthest.0), at(farthest.1)),
            distance: distance.to_string(),
            points: Vec::new(),
        }
    }

    /// With a named point of the later outline.
    #[must_use]
    pub fn with_point(mut self, name: &str, place: geom::Point) -> Laid {
        self.points.push((name.to_string(), at(place)));
        self
    }
}

fn at(point: geom::Point) -> At {
    [point.x, -point.y]
}

/// A closed path with y up as segments with y down.
fn down(path: &geom::Path) -> Vec<Segment> {
    let segment = |segment: &geom::Segment| match *segment {
        geom::Segment::Line(end) => Segment::Line(at(end)),
        geom::Segment::Cubic(a, b, end) => Segment::Cubic(at(a), at(b), at(end)),
    };
    let start = std::iter::once(Segment::Move(at(path.start)));
    start.chain(path.segments.iter().map(segment)).chain([Segment::Close]).collect()
}

/// Draws both at the largest standard scale that fits the room in mm of paper given to it: the earlier one dashed, the
/// later one solid. Gives the drawing and the denominator of its scale.
#[must_use]
pub fn overlay(laid: &Laid, bar_text: &str, room: impl Fn(f64) -> At, alt: impl Into<Phrase>) -> (Scene, f64) {
    let all: Vec<Segment> = laid.before.iter().chain(&laid.after).copied().collect();
    let (low, high) = bounds(&all);
    let fits = |scale: &f64| {
        let (w, h, room) = ((high[0] - low[0]) / scale, (high[1] - low[1]) / scale, room(*scale));
        w + 2.0 * ROOM <= room[0] && h + ROOM + FOOT <= room[1]
    };
    let scale = SCALES.into_iter().find(fits).unwrap_or(100.0);
    let size = [(high[0] - low[0]) / scale, (high[1] - low[1]) / scale];
    let width = (size[0] + 2.0 * ROOM).max(38.0);
    let x0 = (width - size[0]) / 2.0;
    let paper = |p: At| [grid(x0 + (p[0] - low[0]) / scale), grid(ROOM + (p[1] - low[1]) / scale)];
    let mut scene = Scene::new(width, size[1] + ROOM + FOOT, alt);
    scene.stroke(Line::Former, moved(&laid.before, &paper));
    let after = moved(&laid.after, &paper);
    scene.stroke(Line::Outline, after.clone());
    scale_bar(&mut scene, [x0, ROOM + size[1] + 7.0], 50.0 / scale, bar_text);
    let mut places = Places::new(scene.width, scene.height);
    places.seen(&scene);
    let ring = ring_of(&after);
    let middle = extent(&ring).map_or([0.0, 0.0], |(a, b)| [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])]);
    let points: Vec<(&str, At)> = laid.points.iter().map(|(name, place)| (name.as_str(), paper(*place))).collect();
    for (_, place) in &points {
        let ring = circle(*place, 0.7);
        places.avoid(&ring);
        scene.path(Some(Line::Placement), Fill::Paper, ring);
    }
    farthest(&mut scene, &mut places, (paper(laid.farthest.0), paper(laid.farthest.1)), &laid.distance, middle);
    for (name, place) in points {
        let label =
            places.put(Label::new(name, place).bare(), ring_of_places(place, towards(middle, place), 2.2, 12.0));
        scene.label(label);
    }
    (scene, scale)
}

/// The largest distance: an arrow where it is long enough to be one, else a ring round the place; with its length.
fn farthest(scene: &mut Scene, places: &mut Places, (from, to): (At, At), text: &str, middle: At) {
    if text.is_empty() {
        return;
    }
    let long = square(from, to).sqrt();
    if long >= ARROW {
        arrow(scene, Line::Dimension, from, to);
    } else {
        let centre = [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])];
        let ring = circle(centre, long / 2.0 + 1.4);
        places.avoid(&ring);
        scene.path(Some(Line::Notch), Fill::None, ring);
    }
    let label = Label::new(text, to).strong().bare();
    let label = places.put(label, ring_of_places(to, towards(middle, to), 5.0, 18.0));
    if let Some(end) = leader(to, &label) {
        scene.line(Line::Callout, to, end);
    }
    scene.label(label);
}

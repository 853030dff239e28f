//! The marks of a drawing: arrows, dimensions, grain, pile, notches, rings, balloons, hatches.

use super::{Across, Along, At, Fill, Label, Line, Scene, Segment, circle, closed, open};
use crate::words::Phrase;

/// Length of an arrowhead, mm.
const HEAD: f64 = 2.6;
/// Half the width of an arrowhead, mm.
const HEAD_HALF: f64 = 0.45;

/// The direction from one point to another as a unit vector; to the right if the points coincide.
#[must_use]
pub(super) fn towards(from: At, to: At) -> At {
    unit([to[0] - from[0], to[1] - from[1]])
}

/// The unit vector of a direction; to the right if it has no length.
#[must_use]
pub(super) fn unit(v: At) -> At {
    let length = (v[0] * v[0] + v[1] * v[1]).sqrt();
    if length > 0.0 { [v[0] / length, v[1] / length] } else { [1.0, 0.0] }
}

/// A point moved by a distance along a direction.
#[must_use]
pub(super) fn along(at: At, direction: At, distance: f64) -> At {
    [at[0] + direction[0] * distance, at[1] + direction[1] * distance]
}

/// A direction turned a quarter to its left as seen on the page.
#[must_use]
pub(super) fn left(direction: At) -> At {
    [direction[1], -direction[0]]
}

/// A line of a meaning that ends in a filled arrowhead.
pub fn arrow(scene: &mut Scene, line: Line, from: At, to: At) {
    let direction = towards(from, to);
    scene.line(line, from, along(to, direction, -HEAD * 0.8));
    head(scene, to, direction);
}

fn head(scene: &mut Scene, tip: At, direction: At) {
    scene.path(None, Fill::Ink, closed(&corners_of_head(tip, direction)));
}

fn corners_of_head(tip: At, direction: At) -> [At; 3] {
    let back = along(tip, direction, -HEAD);
    let side = left(direction);
    [tip, along(back, side, HEAD_HALF), along(back, side, -HEAD_HALF)]
}

/// A line with a head at both ends and a white edge, so that it shows on a dark picture.
pub fn span(scene: &mut Scene, one: At, other: At) {
    let ends = [(one, towards(other, one)), (other, towards(one, other))];
    scene.line(Line::Halo, one, other);
    for (tip, way) in ends {
        scene.path(Some(Line::Halo), Fill::Paper, closed(&corners_of_head(tip, way)));
    }
    let middle = [f64::midpoint(one[0], other[0]), f64::midpoint(one[1], other[1])];
    for (tip, _) in ends {
        arrow(scene, Line::Dimension, middle, tip);
    }
}

/// A dimension between two points, drawn at an offset to the left of the way from the first to the second.
///
/// Where the two points are too near for arrowheads between them, the heads point inwards from outside and
/// the text stands beside them.
pub fn dimension(scene: &mut Scene, from: At, to: At, offset: f64, text: &str) {
    let direction = towards(from, to);
    let side = left(direction);
    let away = if offset < 0.0 { [-side[0], -side[1]] } else { side };
    let (a, b) = (along(from, side, offset), along(to, side, offset));
    for (point, end) in [(from, a), (to, b)] {
        scene.line(Line::Dimension, along(point, away, 0.8), along(end, away, 1.0));
    }
    let length = (b[0] - a[0]).abs() + (b[1] - a[1]).abs();
    if length < 4.0 * HEAD {
        return outside(scene, a, b, direction, text);
    }
    scene.line(Line::Dimension, along(a, direction, HEAD * 0.8), along(b, direction, -HEAD * 0.8));
    head(scene, b, direction);
    head(scene, a, [-direction[0], -direction[1]]);
    let middle = [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
    let upright = direction[0].abs() < 1e-6;
    written(scene, Label::new(text, middle).turned(if upright { -90.0 } else { 0.0 }));
}

/// Arrowheads from outside, the text beside them.
fn outside(scene: &mut Scene, a: At, b: At, direction: At, text: &str) {
    arrow(scene, Line::Dimension, along(a, direction, -2.0 * HEAD), a);
    arrow(scene, Line::Dimension, along(b, direction, 2.0 * HEAD), b);
    beside(scene, a, b, direction, text);
}

/// Adds a label unless it is empty.
fn written(scene: &mut Scene, label: Label) {
    if !label.text.is_empty() {
        scene.label(label);
    }
}

/// The text of a short dimension: after the end of a level one, to the left of an upright one.
fn beside(scene: &mut Scene, a: At, b: At, direction: At, text: &str) {
    let upright = direction[0].abs() < direction[1].abs();
    let (at, anchor) = if upright {
        ([a[0] - 1.0, f64::midpoint(a[1], b[1])], Along::End)
    } else if direction[0] < 0.0 {
        (along(b, direction, 2.0 * HEAD + 0.8), Along::End)
    } else {
        (along(b, direction, 2.0 * HEAD + 0.8), Along::Start)
    };
    written(scene, Label::new(text, at).anchor(anchor, Across::Middle));
}

/// The grain: a thin line with a head at both ends, because it has no way.
pub fn grain(scene: &mut Scene, one: At, other: At) {
    let way = towards(one, other);
    scene.line(Line::Grain, along(one, way, HEAD * 0.8), along(other, way, -HEAD * 0.8));
    head(scene, other, way);
    head(scene, one, [-way[0], -way[1]]);
}

/// Length of the arrow of the pile, mm of paper.
pub const PILE_ARROW: f64 = 9.0;

/// The pile: a bold arrow the way the pile lies, centred on a point.
pub fn pile(scene: &mut Scene, centre: At, direction: At) {
    let way = unit(direction);
    let (tail, tip) = (along(centre, way, -PILE_ARROW / 2.0), along(centre, way, PILE_ARROW / 2.0));
    let (neck, side) = (along(tip, way, -3.4), left(way));
    scene.line(Line::Pile, tail, along(tip, way, -2.6));
    scene.path(None, Fill::Ink, closed(&[tip, along(neck, side, 1.5), along(neck, side, -1.5)]));
}

/// An arrowhead that shows on a firm line, about its middle, smaller on a short edge.
pub(super) fn arrowhead(scene: &mut Scene, at: At, way: At, size: f64) {
    let (tip, back, side) = (along(at, way, 1.6 * size), along(at, way, -1.6 * size), left(way));
    scene.path(None, Fill::Ink, closed(&[tip, along(back, side, 0.95 * size), along(back, side, -0.95 * size)]));
}

/// A ring, drawn out for longer letters.
pub(super) fn capsule(at: At, half: f64, radius: f64) -> Vec<Segment> {
    if half <= radius {
        return circle(at, radius);
    }
    let ([x, y], r, reach) = (at, radius, half - radius * 0.9);
    let bow = r * 4.0 / 3.0;
    vec![
        Segment::Move([x - reach, y - r]),
        Segment::Line([x + reach, y - r]),
        Segment::Cubic([x + reach + bow, y - r], [x + reach + bow, y + r], [x + reach, y + r]),
        Segment::Line([x - reach, y + r]),
        Segment::Cubic([x - reach - bow, y + r], [x - reach - bow, y - r], [x - reach, y - r]),
        Segment::Close,
    ]
}

/// A named point: a small open ring; its name stands at a place of its own, outside the outline.
pub fn ring(scene: &mut Scene, at: At, name: &str, name_at: At) {
    scene.path(Some(Line::Placement), Fill::Paper, circle(at, 0.7));
    scene.label(Label::new(name, name_at).strong().bare());
}

/// A number in a circle of 2.8 mm radius with a leader to what it names.
pub fn balloon(scene: &mut Scene, at: At, number: &str, target: At) {
    const RADIUS: f64 = 2.8;
    let direction = towards(at, target);
    let start = along(at, direction, RADIUS);
    scene.line(Line::Halo, start, target);
    scene.path(None, Fill::Paper, circle(target, 0.9));
    scene.line(Line::Callout, start, target);
    scene.path(None, Fill::Ink, circle(target, 0.5));
    scene.path(Some(Line::Notch), Fill::Paper, circle(at, RADIUS));
    scene.label(Label::new(number, at).size(10.5).strong().bare());
}

/// Parallel lines clipped to a polygon (even-odd), at an angle in degrees and a pitch in mm.
#[must_use]
pub fn hatch(corners: &[At], angle: f64, pitch: f64) -> Vec<Segment> {
    if corners.len() < 3 || pitch <= 0.0 || pitch.is_nan() {
        return Vec::new();
    }
    let radians = angle.to_radians();
    let (sin, cos) = (libm::sin(radians), libm::cos(radians));
    let turned: Vec<At> = corners.iter().map(|p| [p[0] * cos + p[1] * sin, p[1] * cos - p[0] * sin]).collect();
    let low = turned.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
    let high = turned.iter().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
    let mut out = Vec::new();
    let mut y = ((low / pitch).floor() + 0.5) * pitch;
    while y < high {
        for pair in crossings(&turned, y).chunks_exact(2) {
            let back = |x: f64| [x * cos - y * sin, x * sin + y * cos];
            out.extend(open(&[back(pair[0]), back(pair[1])]));
        }
        y += pitch;
    }
    out
}

/// Where the edges of a polygon cross a horizontal line, sorted.
pub(super) fn crossings(corners: &[At], y: f64) -> Vec<f64> {
    let next = corners.iter().cycle().skip(1);
    let mut out: Vec<f64> = corners
        .iter()
        .zip(next)
        .filter(|(a, b)| (a[1] <= y) != (b[1] <= y))
        .map(|(a, b)| a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
        .collect();
    out.sort_by(f64::total_cmp);
    out
}

/// A bar of a paper length with end ticks and its text at the right.
pub fn scale_bar(scene: &mut Scene, at: At, length: f64, text: &str) {
    let end = [at[0] + length, at[1]];
    scene.line(Line::Bar, at, end);
    for p in [at, end] {
        scene.line(Line::Bar, [p[0], p[1] - 1.2], [p[0], p[1] + 1.2]);
    }
    let label = Label::new(text, [end[0] + 1.6, at[1]]).anchor(Along::Start, Across::Middle);
    scene.label(label.bare());
}

/// A sample of a line or mark for the legend, 18 mm by 4 mm.
#[must_use]
pub fn legend_sample(line: Line, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.0, alt);
    let (from, to) = ([0.5, 2.0], [17.5, 2.0]);
    match line {
        Line::Grain => grain(&mut scene, from, to),
        Line::Pile => pile(&mut scene, [9.0, 2.0], [1.0, 0.0]),
        Line::Notch => {
            scene.line(Line::Sew, [0.5, 3.5], [17.5, 3.5]);
            scene.line(Line::Cut, [0.5, 0.5], [17.5, 0.5]);
            scene.line(Line::Notch, [9.0, 3.5], [9.0, 0.5]);
        }
        Line::Dimension => {
            arrow(&mut scene, line, [9.0, 2.0], from);
            arrow(&mut scene, line, [9.0, 2.0], to);
            [from, to].iter().for_each(|end| scene.line(line, [end[0], 0.6], [end[0], 3.4]));
        }
        Line::Placement => {
            scene.line(line, [7.4, 2.0], [10.6, 2.0]);
            scene.line(line, [9.0, 0.4], [9.0, 3.6]);
        }
        _ => scene.line(line, from, to),
    }
    scene
}

//! What is written at the lines of a piece: names of its points and inner lines, codes of its other sizes, what is said of an
//! edge.

use super::marks::{along, left, ring, towards, unit};
use super::outline::PieceOutline;
use super::place::{Places, extent, frame, leader, middle, moved, ring_of, ring_of_places, square, within};
use super::{Across, Along, At, Label, Line, Scene, Segment};

/// The code of every other size at its line.
pub(super) fn codes(
    scene: &mut Scene,
    places: &mut Places,
    outline: &PieceOutline,
    paper: &impl Fn(At) -> At,
    own: &[At],
) {
    for other in &outline.others {
        let ring = ring_of(&moved(&other.cut, paper));
        let label = Label::new(&other.code, [0.0; 2]).bare();
        let [low, high] = frame(&label);
        let size = [high[0] - low[0], high[1] - low[1]];
        let centre = extent(&ring).map_or([0.0; 2], |(a, b)| [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])]);
        let outside = |at: &At| along(*at, towards(centre, *at), 0.9 + 0.5 * (size[0] + size[1]));
        // Best where it is farthest from the drawn size.
        let step = (ring.len() / 48).max(1);
        let mut wanted: Vec<At> = ring.iter().step_by(step).copied().collect();
        wanted.sort_by(|a, b| square(nearest(own, *b), *b).total_cmp(&square(nearest(own, *a), *a)));
        let wanted: Vec<At> = wanted.iter().map(outside).collect();
        let placed = places.put(label, wanted);
        scene.label(placed);
    }
}

/// The label at a place on one side of an edge, or as near to it as it covers no line, on the other side where it must; only
/// where it may be. Its leader starts at the second place.
pub(super) fn near(
    places: &mut Places,
    label: Label,
    (at, from): (At, At),
    way: At,
    least: f64,
    may: impl Fn(&At) -> bool,
) -> Label {
    let [low, high] = frame(&Label { at: [0.0; 2], ..label.clone() });
    let half = f64::midpoint((high[0] - low[0]) * way[0].abs(), (high[1] - low[1]) * way[1].abs());
    let mut wanted = vec![along(at, way, least + half - 0.6)];
    wanted.extend(ring_of_places(at, way, least + half - 0.6, least + half + 28.0));
    wanted.extend(ring_of_places(at, [-way[0], -way[1]], least + half - 0.6, least + half + 28.0));
    wanted.retain(may);
    places.put_led(label, from, &wanted)
}

/// The label near a place, rather on one side of it.
pub(super) fn beside(places: &mut Places, label: Label, at: At, way: At, least: f64) -> Label {
    let [low, high] = frame(&Label { at: [0.0; 2], ..label.clone() });
    // Its near side, not its middle, stands at the least distance.
    let half = f64::midpoint((high[0] - low[0]) * way[0].abs(), (high[1] - low[1]) * way[1].abs());
    let mut wanted = ring_of_places(at, way, least + half - 0.6, least + half + 30.0);
    wanted.insert(0, along(at, way, least + half - 0.6));
    places.put_led(label, at, &wanted)
}

/// Rings at the named points; each name stands outwards of it, clear of every line. One that had to go further away has
/// a leader.
pub(super) fn names(
    scene: &mut Scene,
    places: &mut Places,
    outline: &PieceOutline,
    paper: &impl Fn(At) -> At,
    edge: &[At],
) {
    let rings: Vec<At> = outline.points.iter().map(|point| paper(point.at)).collect();
    for (n, (point, &at)) in outline.points.iter().zip(&rings).enumerate() {
        let away = outwards(&rings, n, edge);
        let label = Label::new(&point.name, [0.0; 2]).strong().bare();
        let placed = beside(places, label, at, away, 2.2);
        let far = square(placed.at, at) > 36.0
            || rings.iter().any(|other| square(*other, placed.at) < square(at, placed.at) - 0.01);
        if let (true, Some(end)) = (far, leader(at, &placed)) {
            scene.line(Line::Callout, along(at, towards(at, end), 0.7), end);
        }
        ring(scene, at, &point.name, placed.at);
    }
}

/// The way out of the piece at one of its points: square to the line between its neighbours, on the side where the
/// outline is not.
fn outwards(rings: &[At], n: usize, edge: &[At]) -> At {
    let count = rings.len().max(1);
    let at = rings.get(n).copied().unwrap_or_default();
    let (before, after) = (rings.get((n + count - 1) % count), rings.get((n + 1) % count));
    let (Some(before), Some(after)) = (before, after) else { return [0.0, -1.0] };
    let (a, b) = (towards(at, *before), towards(at, *after));
    let corner = [-(a[0] + b[0]), -(a[1] + b[1])];
    let way = if square(corner, [0.0; 2]) > 0.05 { unit(corner) } else { left(towards(*before, *after)) };
    if within(edge, along(at, way, 2.0)) && !within(edge, along(at, way, -2.0)) { [-way[0], -way[1]] } else { way }
}

/// Where along an inner line its name is tried, as shares of it.
const ON_LINE: [f64; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];

/// The label at one of the places on a line, on either side of it, the nearest first.
fn at_line(places: &mut Places, label: Label, anchors: &[At]) -> Option<Label> {
    let [low, high] = frame(&label);
    let half = [(high[0] - low[0]) / 2.0, (high[1] - low[1]) / 2.0];
    let beside = |at: At, reach: f64| {
        [[0.0, 1.0], [0.0, -1.0], [1.0, 0.0], [-1.0, 0.0]]
            .map(|way| along(at, way, reach + half[0] * f64::abs(way[0]) + half[1] * f64::abs(way[1])))
    };
    let near = [1.2, 1.8, 2.6].iter().flat_map(|reach| anchors.iter().flat_map(move |at| beside(*at, *reach)));
    let far = anchors.iter().take(1).flat_map(|at| ring_of_places(*at, [0.0, 1.0], 4.0, 34.0));
    let wanted: Vec<At> = near.chain(far).collect();
    anchors.first().map(|from| places.put_led(label, *from, &wanted))
}

/// Names of inner lines, and what is said of an edge.
pub(super) fn remarks(
    scene: &mut Scene,
    places: &mut Places,
    outline: &PieceOutline,
    paper: &impl Fn(At) -> At,
    edge: &[At],
) {
    for inner in outline.inner.iter().filter(|inner| !inner.name.is_empty()) {
        let path = moved(&inner.segments, paper);
        let anchors: Vec<At> = ON_LINE.into_iter().filter_map(|share| Some(middle(&path, share)?.0)).collect();
        let label = Label::new(&inner.name, [0.0; 2]).bare();
        let nearest = |at: At| anchors.iter().copied().min_by(|a, b| square(*a, at).total_cmp(&square(*b, at)));
        let Some(placed) = at_line(places, label, &anchors) else { continue };
        let from = nearest(placed.at).filter(|from| square(*from, placed.at) > 42.0);
        if let Some((from, end)) = from.and_then(|from| Some((from, leader(from, &placed)?))) {
            scene.line(Line::Callout, from, end);
            places.avoid(&[Segment::Move(from), Segment::Line(end)]);
        }
        scene.label(placed);
    }
    for remark in &outline.remarks {
        let at = paper(remark.at);
        let nearest = nearest(edge, at);
        let way = if square(nearest, at) > 0.01 { towards(at, nearest) } else { [0.0, -1.0] };
        let label = Label::new(&remark.name, [0.0; 2]).anchor(Along::Middle, Across::Middle).bare();
        let placed = beside(places, label, at, way, 2.2);
        if let Some(end) = leader(at, &placed) {
            scene.line(Line::Callout, at, end);
            places.avoid(&[Segment::Move(at), Segment::Line(end)]);
        }
        scene.label(placed);
    }
}

/// The place of a straight line that is nearest to a point.
pub(super) fn nearest_on([from, to]: [At; 2], p: At) -> At {
    let (way, length) = (towards(from, to), square(from, to).sqrt());
    let share = (p[0] - from[0]) * way[0] + (p[1] - from[1]) * way[1];
    along(from, way, share.clamp(0.0, length))
}

/// The place of a closed line that is nearest to a point; the point itself where there is no line.
pub(super) fn nearest(ring: &[At], p: At) -> At {
    let places = ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| nearest_on([*a, *b], p));
    places.min_by(|a, b| square(*a, p).total_cmp(&square(*b, p))).unwrap_or(p)
}

//! The drawing of one piece at a stated scale: cut line, sew line, other sizes, letters of seams, points, notches, grain,
//! pile, size.

use super::marks::{PILE_ARROW, along, arrowhead, capsule, dimension, grain, left, pile, towards, unit};
use super::names::{beside, codes, names, near, nearest, remarks};
use super::nest::OTHERS;
use super::outline::{NotchForm, PieceOutline};
use super::place::{
    Places, around, bounds, frame, leader, middle, moved, ring_of, ring_of_places, square, strokes, text_width, within,
};
use super::{At, Fill, Item, Label, Line, Scene, Segment, closed, grid};

/// Space round the outline for names and dimensions, mm of paper: left, top, right, bottom.
const ROOM: [f64; 4] = [13.0, 7.5, 8.0, 11.0];
/// The same where no cut size is drawn.
const ROOM_WITHOUT: [f64; 4] = [8.0, 7.5, 8.0, 7.5];
/// Type of the letters of seams, points.
pub(super) const LETTER: f64 = 8.5;
/// Paper that an outline needs for each thing that is written on it, mm.
const PER_NAME: f64 = 10.0;
/// Things on every piece that need as much: its code, grain and pile.
const ALWAYS: usize = 3;
/// The least width, mm of paper: the cut size and its dimension lines must fit.
const LEAST_WIDTH: f64 = 38.0;
/// The arrows of a height below this point inwards from outside, mm of paper.
const LOW: f64 = 10.4;
/// A text so far from its edge has a leader, mm of paper.
const FAR: f64 = 14.0;
/// The two ways to set arrow and word of the pile, the better one first.
const WAYS: [f64; 2] = [1.0, 2.0];
/// A notch is drawn at least this long, mm of paper, so that it shows beside a broad line.
const LEAST_NOTCH: f64 = 1.8;
/// Characters of a letter that finds its place without more room.
const SHORT: usize = 4;
/// Air on both sides of the ring round a letter, mm of paper.
const LETTER_GAP: f64 = 2.0;

/// The scales of ISO 5455 for reduction that a sheet of A4 has use for, and full size.
pub(super) const SCALES: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];

/// The denominator of the largest standard scale at which the drawing of a piece fits into the room in mm of paper that
/// drawings of that scale are given; 100 if none does.
#[must_use]
pub fn scale_for(outline: &PieceOutline, room: impl Fn(f64) -> At) -> f64 {
    let (low, high) = bounds(&whole(outline));
    let fits = |scale: &f64| {
        let (w, h) = ((high[0] - low[0]) / scale, (high[1] - low[1]) / scale);
        let [width, height] = room(*scale);
        let [left, top, _, bottom] = room_round(outline, h);
        let [more, right] = beside_room(outline, w);
        left + more + w + right <= width && top + h + bottom <= height
    };
    SCALES.into_iter().find(fits).unwrap_or(100.0)
}

/// Whether what is written on a piece has room round it at 1:`denominator`.
#[must_use]
pub fn is_clear(outline: &PieceOutline, denominator: f64) -> bool {
    let length: f64 = strokes(&outline.cut).iter().map(|[a, b]| square(*a, *b).sqrt()).sum();
    let names = outline.points.len() + outline.marks.len() + outline.openings.len() + outline.remarks.len();
    let lines = outline.inner.iter().filter(|inner| !inner.name.is_empty()).count();
    length / denominator >= PER_NAME * (ALWAYS + names + lines + outline.seams.len()) as f64
}

/// Room round an outline so high on paper; the height of a low one is written beside its arrows.
fn room_round(outline: &PieceOutline, height: f64) -> [f64; 4] {
    let [left, top, right, bottom] = if outline.width_text.is_empty() { ROOM_WITHOUT } else { ROOM };
    let written = if height < LOW { 9.0 + text_width(&outline.height_text, Label::SIZE, false) } else { 0.0 };
    [left.max(written), top, right, bottom]
}

/// The outline in every size.
fn whole(outline: &PieceOutline) -> Vec<Segment> {
    let others = outline.others.iter().flat_map(|one| &one.cut);
    let around = outline.inner.iter().flat_map(|one| &one.segments);
    outline.cut.iter().chain(others).chain(around).copied().collect()
}

/// Draws a piece at 1:`denominator`.
#[must_use]
pub fn piece(outline: &PieceOutline, denominator: f64) -> Scene {
    let (low, high) = bounds(&whole(outline));
    let size = [(high[0] - low[0]) / denominator, (high[1] - low[1]) / denominator];
    let [more, right] = beside_room(outline, size[0]);
    let [left, top, _, bottom] = room_round(outline, size[1]);
    let left = left + more;
    let width = (left + size[0] + right).max(LEAST_WIDTH);
    let x0 = f64::midpoint(left, width - right - size[0]);
    let paper = |p: At| [grid(x0 + (p[0] - low[0]) / denominator), grid(top + (p[1] - low[1]) / denominator)];
    let mut scene = Scene::new(width, top + size[1] + bottom, outline.alt.clone());
    lines(&mut scene, outline, &paper);
    let (near, far) = (paper(low), paper(high));
    let (own_low, own_high) = bounds(&outline.cut);
    sizes(&mut scene, outline, [paper(own_low), paper(own_high)], [near, far], more);
    let mut places = Places::new(scene.width, scene.height);
    places.seen(&scene);
    let ring = ring_of(&moved(&outline.cut, &paper));
    for point in &outline.points {
        places.take(around(paper(point.at), [1.4, 1.4]));
    }
    marks(&mut scene, &mut places, outline, &paper);
    openings(&mut scene, &mut places, outline, &paper, &ring);
    letters(&mut scene, &mut places, outline, &paper, &ring);
    directions(&mut scene, &mut places, outline, &ring, [near, far]);
    names(&mut scene, &mut places, outline, &paper, &ring);
    remarks(&mut scene, &mut places, outline, &paper, &ring);
    codes(&mut scene, &mut places, outline, &paper, &ring);
    scene
}

/// More room at the left of a piece so wide on paper, and the room at its right, mm: what is written at an edge may find none
/// inside a narrow piece. An opening has it on its own side.
fn beside_room(outline: &PieceOutline, width: f64) -> [f64; 2] {
    let (low, high) = bounds(&outline.cut);
    let at_left = |[from, to]: &[At; 2]| from[0] + to[0] < low[0] + high[0];
    let wide = |text: &String| text_width(text, Label::SIZE, false);
    let of = |left: bool| outline.openings.iter().filter(move |(ends, _)| at_left(ends) == left).map(|(_, text)| text);
    let lettered = |left: bool| {
        let sewn = outline.seams.iter().filter(|seam| seam.letter.chars().count() > SHORT);
        let at = sewn.filter_map(|seam| Some((middle(&seam.path, 0.42)?.0, &seam.letter)));
        at.filter(move |(at, _)| (2.0 * at[0] < low[0] + high[0]) == left)
            .map(|(_, letter)| 2.0 * half(letter) + LETTER_GAP)
    };
    let right = of(false).chain(outline.remarks.iter().map(|one| &one.name)).map(wide);
    let widest = right.chain(lettered(false)).fold(0.0, f64::max);
    let at_left = of(true).map(wide).chain(lettered(true)).fold(0.0, f64::max);
    let needs = |widest: f64| if width < 2.0 * widest { widest } else { 0.0 };
    [needs(at_left), ROOM[2] + needs(widest)]
}

fn lines(scene: &mut Scene, outline: &PieceOutline, paper: &impl Fn(At) -> At) {
    for (other, line) in outline.others.iter().zip(OTHERS.into_iter().cycle()) {
        scene.stroke(line, moved(&other.cut, paper));
    }
    scene.path(Some(Line::Cut), Fill::None, moved(&outline.cut, paper));
    if !outline.sew.is_empty() {
        scene.stroke(Line::Sew, moved(&outline.sew, paper));
    }
    for inner in &outline.inner {
        scene.stroke(inner.line, moved(&inner.segments, paper));
    }
    for one in &outline.notches {
        notched(scene, one.form, paper(one.sew), paper(one.cut), paper(one.tip));
    }
}

/// A notch as it is cut.
pub(super) fn notched(scene: &mut Scene, form: NotchForm, sew: At, cut: At, tip: At) {
    let depth = square(cut, tip).sqrt().max(LEAST_NOTCH);
    let way = if square(cut, tip) > 0.0 { towards(cut, tip) } else { towards(cut, sew) };
    match form {
        NotchForm::Slit => scene.line(Line::Notch, cut, along(cut, way, depth)),
        NotchForm::Marked => scene.line(Line::Notch, sew, cut),
        NotchForm::Outward => {
            let side = left(way);
            let corners = [along(cut, side, depth * 0.5), along(cut, way, depth), along(cut, side, -depth * 0.5)];
            scene.path(Some(Line::Notch), Fill::Paper, closed(&corners));
        }
    }
}

/// The cut size of the drawn size, written outside of all sizes and of what is written at the left.
fn sizes(scene: &mut Scene, outline: &PieceOutline, [near, far]: [At; 2], [low, high]: [At; 2], more: f64) {
    if outline.width_text.is_empty() {
        return;
    }
    let (bottom_left, top_left) = ([near[0], far[1]], near);
    dimension(scene, bottom_left, far, -(7.5 + high[1] - far[1]), &outline.width_text);
    dimension(scene, bottom_left, top_left, 7.5 + more + near[0] - low[0], &outline.height_text);
}

/// An arrowhead on each edge that is sewn, the way its seam runs.
fn heads(scene: &mut Scene, places: &mut Places, outline: &PieceOutline, paper: &impl Fn(At) -> At) {
    for seam in &outline.seams {
        let path = moved(&seam.path, paper);
        let (Some((head, way)), Some(forward)) = (middle(&path, 0.64), seam.forward) else { continue };
        let length: f64 = strokes(&path).iter().map(|[a, b]| square(*a, *b).sqrt()).sum();
        let way = if forward { way } else { [-way[0], -way[1]] };
        let first = scene.items.len();
        arrowhead(scene, head, way, (length / 8.0).clamp(0.4, 0.9));
        let drawn = scene.items.iter().skip(first).filter_map(|item| match item {
            Item::Path(path) => Some(bounds(&path.segments)),
            Item::Label(_) => None,
        });
        drawn.for_each(|one| places.take([one.0, one.1]));
    }
}

/// The letter of each seam in a ring outside its edge; none lies on an arrowhead.
fn letters(scene: &mut Scene, places: &mut Places, outline: &PieceOutline, paper: &impl Fn(At) -> At, ring: &[At]) {
    heads(scene, places, outline, paper);
    for seam in &outline.seams {
        let path = moved(&seam.path, paper);
        let Some((at, run)) = middle(&path, 0.42) else { continue };
        let side = left(run);
        let out = if within(ring, along(at, side, 0.8)) { [-side[0], -side[1]] } else { side };
        let edge = nearest(ring, at);
        let half = half(&seam.letter);
        let wanted = ring_of_places(edge, out, half + 0.9, half + 12.0);
        let Some(found) = places.place([2.0 * half, 3.8], wanted) else { continue };
        scene.line(Line::Callout, along(found, towards(found, at), 1.7), at);
        scene.path(Some(Line::Placement), Fill::Paper, capsule(found, half, 1.9));
        scene.label(Label::new(&seam.letter, found).size(LETTER).strong().bare());
    }
}

/// Half the width of the ring round a letter.
fn half(letter: &str) -> f64 {
    (text_width(letter, LETTER, true) / 2.0 + 0.5).max(1.9)
}

/// Crosses at the places for what is put on the piece, each with its name.
fn marks(scene: &mut Scene, places: &mut Places, outline: &PieceOutline, paper: &impl Fn(At) -> At) {
    for mark in &outline.marks {
        let at = paper(mark.at);
        for arm in [[1.6, 0.0], [0.0, 1.6]] {
            scene.line(Line::Placement, [at[0] - arm[0], at[1] - arm[1]], [at[0] + arm[0], at[1] + arm[1]]);
        }
        places.take(around(at, [3.2, 3.2]));
    }
    for mark in &outline.marks {
        let label = Label::new(&mark.name, [0.0; 2]).bare();
        scene.label(beside(places, label, paper(mark.at), [1.0, 0.0], 2.4));
    }
}

/// The ends of an opening barred across the run, its length inside.
fn openings(scene: &mut Scene, places: &mut Places, outline: &PieceOutline, paper: &impl Fn(At) -> At, ring: &[At]) {
    for ([from, to], text) in &outline.openings {
        let (from, to) = (paper(*from), paper(*to));
        let side = left(towards(from, to));
        for end in [from, to] {
            let nearest = nearest(ring, end);
            // Square to the edge, which may be curved.
            let way = if square(nearest, end) > 0.01 { towards(end, nearest) } else { side };
            let bar = [along(end, way, 1.9), along(end, way, -1.9)];
            scene.line(Line::Notch, bar[0], bar[1]);
            places.avoid(&[Segment::Move(bar[0]), Segment::Line(bar[1])]);
        }
        let middle = [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])];
        let inwards = if within(ring, along(middle, side, 1.0)) { side } else { [-side[0], -side[1]] };
        let edge = nearest(ring, middle);
        // The leader of one that stands outside does not cross the piece.
        let clear = |at: &At| {
            let part = |n: u8| [0, 1].map(|axis| edge[axis] + (at[axis] - edge[axis]) * f64::from(n) / 12.0);
            within(ring, *at) || (1..12).all(|n| !within(ring, part(n)))
        };
        let placed = near(places, Label::new(text, middle).bare(), (middle, edge), inwards, 2.4, clear);
        let far = !within(ring, placed.at) || square(placed.at, middle) > FAR * FAR;
        if let (true, Some(end)) = (far, leader(edge, &placed)) {
            scene.line(Line::Callout, edge, end);
            places.avoid(&[Segment::Move(edge), Segment::Line(end)]);
        }
        scene.label(placed);
    }
}

/// Code, grain and pile stand where the piece has room for them, near its middle; grain and pile of a piece too narrow
/// stand beside it.
fn directions(scene: &mut Scene, places: &mut Places, outline: &PieceOutline, ring: &[At], [near, far]: [At; 2]) {
    let centre = [f64::midpoint(near[0], far[0]), f64::midpoint(near[1], far[1])];
    for size in [10.5, 8.5] {
        let label = Label::new(&outline.code, centre).size(size).strong();
        let [low, high] = frame(&label);
        if let Some(at) = places.inside(ring, [high[0] - low[0], high[1] - low[1]], centre) {
            let label = Label { at, ..label };
            places.take(frame(&label));
            scene.label(label);
            break;
        }
    }
    if let Some(direction) = outline.pile {
        let d = unit(direction);
        let text = Label::new(&outline.pile_text, [0.0; 2]).strong().bare();
        let [low, high] = frame(&text);
        let (wide, tall) = (high[0] - low[0], high[1] - low[1]);
        // The word is below a level arrow and beside an upright one; the other way where there is room for that alone.
        let level = |reach: f64| (d[0].abs() > d[1].abs()) == (reach < WAYS[1]);
        let arrow = [PILE_ARROW * d[0].abs() + 3.4 * d[1].abs(), PILE_ARROW * d[1].abs() + 3.4 * d[0].abs()];
        let sized = |reach: f64| match level(reach) {
            true => [arrow[0].max(wide), arrow[1] + tall + 0.8],
            false => [arrow[0] + wide + 0.8, arrow[1].max(tall)],
        };
        if let Some((at, reach)) = stand(places, ring, centre, &WAYS, sized) {
            let [whole_wide, whole_tall] = sized(reach);
            let (arrow_at, text_at) = match level(reach) {
                true => ([at[0], at[1] - (whole_tall - arrow[1]) / 2.0], [at[0], at[1] + (whole_tall - tall) / 2.0]),
                false => ([at[0] - (whole_wide - arrow[0]) / 2.0, at[1]], [at[0] + (whole_wide - wide) / 2.0, at[1]]),
            };
            pile(scene, arrow_at, direction);
            scene.label(Label { at: text_at, ..text });
        }
    }
    if let Some(direction) = outline.grain {
        let d = unit(direction);
        let sized =
            |reach: f64| [2.0 * reach * d[0].abs() + 3.0 * d[1].abs(), 2.0 * reach * d[1].abs() + 3.0 * d[0].abs()];
        if let Some((at, reach)) = stand(places, ring, centre, &[9.0, 6.5, 4.5], sized) {
            grain(scene, along(at, d, -reach), along(at, d, reach));
        }
    }
}

/// Room for a mark, the largest that fits inside; else of the smallest one beside the piece.
fn stand(places: &mut Places, ring: &[At], centre: At, reaches: &[f64], size: impl Fn(f64) -> At) -> Option<(At, f64)> {
    let inside = reaches.iter().find_map(|reach| Some((places.inside(ring, size(*reach), centre)?, *reach)));
    let beside = || reaches.iter().rev().find_map(|reach| Some((places.anywhere(size(*reach), centre)?, *reach)));
    if let Some(found) = inside.or_else(beside) {
        places.take(around(found.0, size(found.1)));
        return Some(found);
    }
    // It is drawn all the same, where it covers least.
    let reach = *reaches.last()?;
    Some((places.place(size(reach), ring_of_places(centre, [1.0, 0.0], 0.5, 30.0))?, reach))
}

//! Places for labels: off the lines that are drawn, off each other, and inside the drawing.

use super::marks::{along, towards};
use super::{Across, Along, At, Item, Label, Scene, Segment};

/// Millimetres in a point.
const POINT: f64 = 25.4 / 72.0;
/// Height of a capital, and what hangs below the line, in parts of the type size of the built-in family.
const CAPITAL: f64 = 0.733;
/// See [`CAPITAL`].
const BELOW: f64 = 0.22;
/// Air kept round a label, mm of paper.
const AIR: f64 = 0.5;

/// An upright box: lower and upper corner.
pub type Frame = [At; 2];

/// What is drawn already, for finding room for the next label.
#[derive(Debug, Clone, Default)]
pub(super) struct Places {
    room: At,
    boxes: Vec<Frame>,
    lines: Vec<[At; 2]>,
}

impl Places {
    /// An empty drawing of a size in mm.
    pub fn new(width: f64, height: f64) -> Self {
        Self { room: [width, height], ..Self::default() }
    }

    /// Keeps labels off a path.
    pub fn avoid(&mut self, segments: &[Segment]) {
        self.lines.extend(strokes(segments));
    }

    /// Keeps labels off a box.
    pub fn take(&mut self, taken: Frame) {
        self.boxes.push(taken);
    }

    /// Keeps labels off everything a scene holds.
    pub fn seen(&mut self, scene: &Scene) {
        for item in &scene.items {
            match item {
                Item::Path(path) => self.avoid(&path.segments),
                Item::Label(label) => self.take(frame(label)),
            }
        }
    }

    /// Whether a box is clear of everything.
    pub fn free(&self, place: Frame) -> bool {
        let place = grown(place, AIR);
        !self.outside(&place)
            && !self.boxes.iter().any(|other| meet(&place, other))
            && !self.lines.iter().any(|line| passes(line, &place))
    }

    /// Whether a straight line crosses nothing that is drawn or written.
    pub fn unbroken(&self, line: [At; 2]) -> bool {
        !self.boxes.iter().any(|one| passes(&line, one)) && !self.lines.iter().any(|other| cross(&line, other))
    }

    fn outside(&self, [low, high]: &Frame) -> bool {
        (0..2).any(|axis| low[axis] < 0.0 || high[axis] > self.room[axis])
    }

    /// What is wrong with a place: another label weighs most, then the edge of the drawing, then lines.
    fn cost(&self, place: Frame) -> usize {
        let place = grown(place, AIR);
        let boxes = self.boxes.iter().filter(|other| meet(&place, other)).count();
        let outside = self.outside(&place);
        let lines = self.lines.iter().filter(|line| passes(line, &place)).count();
        1_000_000 * boxes + 100_000 * usize::from(outside) + 1_000 * lines.min(90)
    }

    /// The label at the first place that is clear, else at the least bad one; the place is taken.
    pub fn put(&mut self, label: Label, places: impl IntoIterator<Item = At>) -> Label {
        let at = self.best(places, |at| frame(&Label { at, ..label.clone() })).unwrap_or(label.at);
        let chosen = Label { at, ..label };
        self.take(frame(&chosen));
        chosen
    }

    /// The same for a label with a leader from a place, which crosses nothing that is written.
    pub fn put_led(&mut self, label: Label, from: At, places: &[At]) -> Label {
        let led = |at: &At| {
            let label = Label { at: *at, ..label.clone() };
            let own = frame(&label);
            let clear = |end: At| !self.boxes.iter().any(|one| passes(&[from, end], one) && !inside(from, one));
            self.free(own) && leader(from, &label).is_none_or(clear)
        };
        let at = places.iter().copied().find(led);
        self.put(label, at.map_or_else(|| places.to_vec(), |at| vec![at]))
    }

    /// The same for the middle of a box of a size.
    pub fn place(&mut self, size: At, places: impl IntoIterator<Item = At>) -> Option<At> {
        let at = self.best(places, |at| around(at, size))?;
        self.take(around(at, size));
        Some(at)
    }

    fn best(&self, places: impl IntoIterator<Item = At>, frame: impl Fn(At) -> Frame) -> Option<At> {
        let mut best: Option<(usize, At)> = None;
        for (step, at) in places.into_iter().enumerate() {
            let cost = self.cost(frame(at)) + step;
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, at));
            }
            // Later places only cost more.
            if cost == step {
                break;
            }
        }
        best.map(|(_, at)| at)
    }

    /// The middle of a free box of a size anywhere in the drawing, as near to a place as can be; none where there is none.
    pub fn anywhere(&self, size: At, near: At) -> Option<At> {
        const STEPS: u8 = 60;
        let at = |n: u8, axis: usize| self.room[axis] * (f64::from(n) + 0.5) / f64::from(STEPS);
        let mut places: Vec<At> = (0..STEPS).flat_map(|i| (0..STEPS).map(move |j| [at(i, 0), at(j, 1)])).collect();
        places.sort_by(|a, b| square(*a, near).total_cmp(&square(*b, near)));
        places.into_iter().find(|p| self.free(around(*p, size)))
    }

    /// The middle of a free box of a size inside a closed line, as near to a place as can be; none where there is none.
    pub fn inside(&self, ring: &[At], size: At, near: At) -> Option<At> {
        const STEPS: u8 = 24;
        let (low, high) = extent(ring)?;
        let at = |n: u8, axis: usize| low[axis] + (high[axis] - low[axis]) * (f64::from(n) + 0.5) / f64::from(STEPS);
        let grid = (0..STEPS).flat_map(|i| (0..STEPS).map(move |j| [at(i, 0), at(j, 1)]));
        let mut places: Vec<At> = std::iter::once(near).chain(grid).filter(|p| within(ring, *p)).collect();
        places.sort_by(|a, b| square(*a, near).total_cmp(&square(*b, near)));
        places.into_iter().find(|p| self.free(around(*p, size)))
    }
}

/// A box of a size round its middle.
pub(super) fn around(middle: At, size: At) -> Frame {
    let half = size.map(|side| side / 2.0);
    [[middle[0] - half[0], middle[1] - half[1]], [middle[0] + half[0], middle[1] + half[1]]]
}

/// Places round a point, nearest first: outwards, then turned aside step by step.
pub(super) fn ring_of_places(at: At, away: At, least: f64, most: f64) -> Vec<At> {
    // Cosine and sine of turns of 0°, ±30°, ±60°, ±90°, ±120°, ±150°, 180°.
    const HALF: f64 = 0.5;
    const ROOT: f64 = 0.866_025_403_784_438_6;
    const TURNS: [At; 12] = [
        [1.0, 0.0],
        [ROOT, HALF],
        [ROOT, -HALF],
        [HALF, ROOT],
        [HALF, -ROOT],
        [0.0, 1.0],
        [0.0, -1.0],
        [-HALF, ROOT],
        [-HALF, -ROOT],
        [-ROOT, HALF],
        [-ROOT, -HALF],
        [-1.0, 0.0],
    ];
    let mut out = Vec::new();
    let mut reach = least;
    while reach <= most {
        out.extend(TURNS.map(|[c, s]| {
            let way = [c * away[0] - s * away[1], s * away[0] + c * away[1]];
            [at[0] + way[0] * reach, at[1] + way[1] * reach]
        }));
        reach += 0.5;
    }
    out
}

/// The width of a text in mm as the built-in family sets it, never less (advances rounded up by class of character).
#[must_use]
pub fn text_width(text: &str, size: f64, strong: bool) -> f64 {
    let advance = |c: char| match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' => 0.31,
        ' ' | '\u{2009}' | '\u{202f}' => 0.25,
        'f' | 'r' | 't' | '(' | ')' | '-' | '/' | 'I' | 'J' => 0.4,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 0.95,
        'A'..='Z' => 0.68,
        c if c.is_ascii() => 0.58,
        '×' | '·' | '±' | '°' | '–' | '′' => 0.6,
        _ => 1.0,
    };
    let wide = if strong { 1.06 } else { 1.0 };
    text.chars().map(advance).sum::<f64>() * size * POINT * wide
}

/// The box of a label on paper, mm. A turned label is taken for upright or a quarter round, whichever is nearer.
#[must_use]
pub fn frame(label: &Label) -> Frame {
    let (width, size) = (text_width(&label.text, label.size, label.strong), label.size * POINT);
    let left = match label.along {
        Along::Start => 0.0,
        Along::Middle => -width / 2.0,
        Along::End => -width,
    };
    let top = match label.across {
        Across::Top => 0.0,
        Across::Middle => -CAPITAL * size / 2.0,
        Across::Base => -CAPITAL * size,
    };
    let (right, bottom) = (left + width, top + (CAPITAL + BELOW) * size);
    let [x, y] = label.at;
    match label.turn.abs() > 45.0 {
        // A quarter anticlockwise: what was right is up.
        true => [[x + top, y - right], [x + bottom, y - left]],
        false => [[x + left, y + top], [x + right, y + bottom]],
    }
}

/// Whether a point is in a box.
fn inside(p: At, [low, high]: &Frame) -> bool {
    (0..2).all(|axis| low[axis] <= p[axis] && p[axis] <= high[axis])
}

/// Whether two boxes share an area.
#[must_use]
pub fn meet(a: &Frame, b: &Frame) -> bool {
    (0..2).all(|axis| a[0][axis] < b[1][axis] && b[0][axis] < a[1][axis])
}

/// The straight pieces of a path; curves in twelve.
#[must_use]
pub fn strokes(segments: &[Segment]) -> Vec<[At; 2]> {
    let mut out = Vec::new();
    let (mut last, mut first) = ([0.0; 2], [0.0; 2]);
    for segment in segments {
        match *segment {
            Segment::Move(p) => (last, first) = (p, p),
            Segment::Line(p) => {
                out.push([last, p]);
                last = p;
            }
            Segment::Cubic(a, b, p) => {
                let at = |step: u8| bezier(last, a, b, p, f64::from(step) / 12.0);
                out.extend((0..12).map(|step| [at(step), at(step + 1)]));
                last = p;
            }
            Segment::Close => {
                out.push([last, first]);
                last = first;
            }
        }
    }
    out
}

/// The corners of a closed path, curves in twelve.
pub(super) fn ring_of(segments: &[Segment]) -> Vec<At> {
    strokes(segments).into_iter().map(|[from, _]| from).collect()
}

pub(super) fn extent(points: &[At]) -> Option<(At, At)> {
    let first = *points.first()?;
    let fold = |pick: fn(f64, f64) -> f64, axis: usize| points.iter().map(|p| p[axis]).fold(first[axis], pick);
    Some(([0, 1].map(|axis| fold(f64::min, axis)), [0, 1].map(|axis| fold(f64::max, axis))))
}

/// Whether a point lies inside a closed line (even-odd).
pub(super) fn within(ring: &[At], p: At) -> bool {
    let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = |(a, b): &(&At, &At)| {
        (a[1] <= p[1]) != (b[1] <= p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    };
    pairs.filter(crossed).count() % 2 == 1
}

/// The square of the distance of two points.
pub(super) fn square(a: At, b: At) -> f64 {
    let (across, along) = (a[0] - b[0], a[1] - b[1]);
    across * across + along * along
}

pub(super) fn bezier(p0: At, p1: At, p2: At, p3: At, t: f64) -> At {
    let s = 1.0 - t;
    let of = |i: usize| s * s * s * p0[i] + 3.0 * s * s * t * p1[i] + 3.0 * s * t * t * p2[i] + t * t * t * p3[i];
    [of(0), of(1)]
}

fn grown(place: Frame, by: f64) -> Frame {
    let [low, high] = place;
    [low.map(|c| c - by), high.map(|c| c + by)]
}

/// Whether two straight lines cross: each has the ends of the other on both its sides.
fn cross(one: &[At; 2], other: &[At; 2]) -> bool {
    let side = |[a, b]: &[At; 2], p: At| (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    let parts = |line: &[At; 2], [a, b]: &[At; 2]| side(line, *a) * side(line, *b) < 0.0;
    parts(one, other) && parts(other, one)
}

/// Whether a straight line passes a box.
#[must_use]
pub fn passes(line: &[At; 2], place: &Frame) -> bool {
    let [[low_x, low_y], [high_x, high_y]] = *place;
    let [[x0, y0], [x1, y1]] = *line;
    // Most lines lie wholly on one side.
    let beside = x0.max(x1) < low_x || x0.min(x1) > high_x || y0.max(y1) < low_y || y0.min(y1) > high_y;
    !beside && clipped(line, place).is_some()
}

/// The end of a leader from a place to a label: where it meets the air round the text. None where the place itself lies
/// in it.
pub(super) fn leader(from: At, label: &Label) -> Option<At> {
    let place = grown(frame(label), AIR);
    let middle = [f64::midpoint(place[0][0], place[1][0]), f64::midpoint(place[0][1], place[1][1])];
    let (start, _) = clipped(&[from, middle], &place)?;
    let at = |axis: usize| from[axis] + (middle[axis] - from[axis]) * start;
    (start > 0.0).then(|| [at(0), at(1)])
}

/// The part of a straight line in a box, as shares of it (axis by axis, after Liang and Barsky 1984).
fn clipped(line: &[At; 2], place: &Frame) -> Option<(f64, f64)> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (start, way) = (line[0][axis], line[1][axis] - line[0][axis]);
        let (low, high) = (place[0][axis] - start, place[1][axis] - start);
        if way == 0.0 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
            continue;
        }
        let (near, far) = if way > 0.0 { (low / way, high / way) } else { (high / way, low / way) };
        (from, to) = (from.max(near), to.min(far));
    }
    (from <= to).then_some((from, to))
}

/// The place a share of the way along a path, and the way it runs there.
pub(super) fn middle(path: &[Segment], share: f64) -> Option<(At, At)> {
    let pieces = strokes(path);
    let length = |[a, b]: &[At; 2]| square(*a, *b).sqrt();
    let whole: f64 = pieces.iter().map(length).sum();
    let mut left = whole * share;
    for piece in &pieces {
        let own = length(piece);
        if own >= left && own > 0.0 {
            let way = towards(piece[0], piece[1]);
            return Some((along(piece[0], way, left), way));
        }
        left -= own;
    }
    None
}

/// A path on paper.
pub(super) fn moved(segments: &[Segment], paper: &impl Fn(At) -> At) -> Vec<Segment> {
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

/// The bounding box of a path, which is enough to lay a drawing out.
pub(super) fn bounds(segments: &[Segment]) -> (At, At) {
    extent(&ring_of(segments)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a box from 0 to 2 and lines through it, past its corner, along its side's extension.
    #[test]
    fn a_line_passes_a_box_or_not() {
        let place = [[0.0, 0.0], [2.0, 2.0]];
        assert!(passes(&[[-1.0, 1.0], [3.0, 1.0]], &place));
        assert!(passes(&[[1.0, 1.0], [1.0, 1.5]], &place));
        assert!(!passes(&[[-1.0, 1.5], [0.5, 3.1]], &place));
        assert!(!passes(&[[2.5, -1.0], [2.5, 3.0]], &place));
        assert!(!passes(&[[-3.0, 1.0], [-0.5, 1.0]], &place));
    }

    #[test]
    fn a_way_is_unbroken_until_something_lies_across_it() {
        let mut places = Places::new(20.0, 20.0);
        places.avoid(&[Segment::Move([5.0, 0.0]), Segment::Line([5.0, 10.0])]);
        places.take([[12.0, 4.0], [14.0, 6.0]]);
        assert!(places.unbroken([[6.0, 5.0], [11.0, 5.0]]));
        assert!(places.unbroken([[0.0, 12.0], [18.0, 12.0]]));
        assert!(!places.unbroken([[4.0, 5.0], [6.0, 5.0]]));
        assert!(!places.unbroken([[6.0, 5.0], [16.0, 5.0]]));
    }

    /// By hand: from the left, the leader ends half a mm before the text, which is centred at 10.
    #[test]
    fn a_leader_stops_before_its_text() {
        let label = Label::new("ab", [10.0, 0.0]);
        let [low, high] = frame(&label);
        let level = f64::midpoint(low[1], high[1]);
        let end = leader([0.0, level], &label).expect("it starts outside");
        assert!((end[0] - (low[0] - AIR)).abs() < 1e-9 && (end[1] - level).abs() < 1e-9, "{end:?}");
        assert_eq!(leader([10.0, 0.0], &label), None);
    }

    #[test]
    fn labels_that_all_want_one_place_stand_apart() {
        let mut places = Places::new(40.0, 40.0);
        places.avoid(&[Segment::Move([0.0, 20.0]), Segment::Line([40.0, 20.0])]);
        let wanted = || ring_of_places([20.0, 20.0], [0.0, -1.0], 2.0, 18.0);
        let put: Vec<Frame> =
            (0..12).map(|n| frame(&places.put(Label::new(format!("p{n}"), [0.0; 2]), wanted()))).collect();
        for (n, one) in put.iter().enumerate() {
            assert!(!passes(&[[0.0, 20.0], [40.0, 20.0]], one), "{n} crosses the line");
            assert!(put.iter().skip(n + 1).all(|other| !meet(one, other)), "{n} overlaps");
        }
    }

    #[test]
    fn a_box_is_found_inside_a_crescent_and_not_in_its_mouth() {
        let ring =
            [[0.0, 0.0], [40.0, 0.0], [40.0, 40.0], [0.0, 40.0], [0.0, 30.0], [30.0, 30.0], [30.0, 10.0], [0.0, 10.0]];
        let mut places = Places::new(50.0, 50.0);
        places.avoid(&super::super::closed(&ring));
        let at = places.inside(&ring, [6.0, 4.0], [15.0, 20.0]).expect("there is room");
        assert!(within(&ring, at) && places.free(around(at, [6.0, 4.0])));
        assert_eq!(places.inside(&ring, [20.0, 20.0], [15.0, 20.0]), None);
    }
}

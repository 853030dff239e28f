//! An outline before and after, laid over each other: how far apart, which points and edges moved.

use std::collections::BTreeSet;

use crate::geom::{InternalLine, Mark, Outline, Path, Point, Segment, measure};
use crate::model::Piece;
use crate::words::{Phrase, Word, number, say, words};

use super::Side;
use super::distance::{Farthest, farthest, off};
use super::names::Names;
use super::register::register;

words! {
    DRAWN "outline.drawn" = "drawn";
    TURNED "outline.turned" = "turned by {angle}";
    MOVED "outline.moved" = "moved by {distance}";
    UP_TO "outline.up-to" = "up to {distance} {place}";
    MIRRORED "outline.mirrored" = "{far}; it is the mirror image of what it was";
    AT_POINT "outline.at-point" = "at {point}";
    ON_EDGE "outline.on-edge" = "on {from}-{to}";
    ON_OUTLINE "outline.on-outline" = "on the outline";
    EARLIER "outline.earlier" = "the outline of {piece} in size {size}: in the earlier one {why}";
    LATER "outline.later" = "the outline of {piece} in size {size}: in the later one {why}";
    UNREAD "outline.unread" = "its drawing cannot be read";
    UNMADE "outline.unmade" = "it cannot be made";
    NOT_SHOWN "outline.not-shown" = "it is not shown in this edition";
}

/// Lines whose points all lie this near, mm, are the same without a search.
const ALIKE: f64 = 0.001;
/// A grain that turned by less, degrees, is as it was: half of the last printed digit.
const TURN: f64 = 0.05;

/// An outline before and after, one laid over the other by its named points.
#[derive(Debug, Clone, PartialEq)]
pub struct Overlay {
    /// The piece, by its later id.
    pub piece: String,
    /// The size; none where the style has one only.
    pub size: Option<String>,
    /// The earlier sew line, laid on the later one.
    pub before: Outline,
    /// The later sew line.
    pub after: Outline,
    /// Whether the line itself differs; else only what lies on it does.
    pub differs: bool,
    /// Areas before and after, mm².
    pub area: (f64, f64),
    /// Where the lines are farthest apart.
    pub farthest: Farthest,
    /// That place in words: `at b`, `on b-n`.
    pub place: Phrase,
    /// Points, lines, marks, notches and directions that moved, are new or gone.
    pub moved: Vec<Moved>,
    /// Runs between the same points that are longer or shorter.
    pub runs: Vec<RunChange>,
    /// Whether the later line is the mirror image of the earlier one.
    pub mirrored: bool,
}

/// A named thing on an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// `point`, `line`, `mark`, `notch`, `grain`, `pile`.
    pub what: &'static str,
    /// Its name.
    pub id: String,
    /// By how much: mm, degrees for a direction; none where it is new or gone.
    pub by: Option<f64>,
    /// Whether it is there in the later outline.
    pub there: bool,
}

impl Moved {
    /// Before, after, and what is said.
    pub(super) fn row(&self) -> (Option<Phrase>, Option<Phrase>, Option<Phrase>) {
        let drawn = Some(DRAWN.into());
        match self.by {
            Some(by) if matches!(self.what, "grain" | "pile") => {
                (None, None, Some(say!(TURNED, angle = number::with_unit(by, 1, "°"))))
            }
            Some(by) => (None, None, Some(say!(MOVED, distance = number::mm(by, 1)))),
            None if self.there => (None, drawn, None),
            None => (drawn, None, None),
        }
    }
}

/// The length of a run before and after, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct RunChange {
    /// The point it starts from, anticlockwise.
    pub from: String,
    /// The point it ends at.
    pub to: String,
    /// Length before, mm.
    pub before: f64,
    /// Length after, mm.
    pub after: f64,
}

impl Overlay {
    /// The difference in one sentence.
    pub fn said(&self) -> Phrase {
        let far = say!(UP_TO, distance = number::mm(self.farthest.distance, 1), place = &self.place);
        if self.mirrored { say!(MIRRORED, far) } else { far }
    }

    /// The difference of the areas in percent of the earlier one.
    pub fn growth(&self) -> f64 {
        (self.area.1 - self.area.0) / self.area.0 * 100.0
    }
}

/// What became of every outline.
#[derive(Debug, Default)]
pub struct Outlines {
    /// Those that differ.
    pub changed: Vec<Overlay>,
    /// Pieces whose outline is the same in every size, with all that is drawn on it.
    pub same: BTreeSet<String>,
    /// What could not be compared, and why.
    pub unknown: Vec<Phrase>,
}

/// Lays every outline that both have over the other.
pub fn compare(before: &Side<'_>, after: &Side<'_>, names: &Names, accuracy: f64) -> Outlines {
    let mut all = Outlines::default();
    for (id, piece) in &after.model.pieces {
        let was = names.before("piece", id);
        let Some(old) = before.model.pieces.get(was) else { continue };
        let mut alike = true;
        for size in after.model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
            let earlier = names.before("size", size);
            if before.model.size(earlier).is_none() {
                continue;
            }
            let pair = (outline(before, was, earlier), outline(after, id, size));
            let (Some(a), Some(b)) = pair else {
                alike = false;
                all.unknown.extend(unknown(before, after, (was, earlier), (id, size)));
                continue;
            };
            let shown = (after.model.sizes.len() > 1).then(|| size.to_string());
            if let Some(overlay) = overlay((old, a), (piece, b), shown, accuracy) {
                all.changed.push(overlay);
                alike = false;
            }
        }
        if alike {
            all.same.insert(id.clone());
        }
    }
    all
}

/// The sew line; the line as drawn where the allowance that leads from it to the sew line is not known.
fn outline<'a>(side: &Side<'a>, piece: &str, size: &str) -> Option<&'a Outline> {
    let drawn = side.drawn;
    let sewn = drawn.get(piece, size).and_then(|lines| lines.sew.known());
    sewn.or_else(|| side.assembly.outlines.get(piece, size).ok())
}

/// An outline that is written but could not be made cannot be compared, and that is said.
fn unknown(before: &Side<'_>, after: &Side<'_>, was: (&str, &str), now: (&str, &str)) -> Option<Phrase> {
    use crate::model::assembly::Gap;
    let gap = |side: &Side<'_>, at: (&str, &str)| match side.assembly.outlines.get(at.0, at.1) {
        Err(Gap::Unread) => Some(UNREAD),
        Err(Gap::Defect { .. }) => Some(UNMADE),
        Err(Gap::Withheld) => Some(NOT_SHOWN),
        _ => None,
    };
    let (earlier, later) = (gap(before, was), gap(after, now));
    let (word, why): (Word, Word) = later.map(|why| (LATER, why)).or(earlier.map(|why| (EARLIER, why)))?;
    Some(say!(word, piece = now.0, size = now.1, why))
}

fn overlay(
    before: (&Piece, &Outline),
    after: (&Piece, &Outline),
    size: Option<String>,
    accuracy: f64,
) -> Option<Overlay> {
    let up = |piece: &Piece, outline: &Outline| piece.along(outline).unwrap_or(Point::new(0.0, 1.0));
    let grains = (up(before.0, before.1), up(after.0, after.1));
    let registration = register(before.1, after.1, grains);
    // A rigid motion of a sound outline stays sound unless it is carried beyond all limits.
    let laid = before.1.transformed(&registration.map).ok()?;
    let after_line = after.1;
    let alike = same(&laid.path, &after_line.path);
    let far = if alike { Farthest::default() } else { farthest(&laid.path, &after_line.path, accuracy) };
    let differs = far.distance >= accuracy;
    let moved = moved(&laid, after_line, accuracy);
    if !differs && moved.is_empty() {
        return None;
    }
    let mirrored = differs && mirror(before.1, after_line, grains, accuracy);
    Some(Overlay {
        piece: after.0.entry.id.value.clone(),
        size,
        differs,
        area: (before.1.area(), after_line.area()),
        place: place(after_line, far.after),
        farthest: far,
        moved,
        runs: runs(&laid, after_line, accuracy),
        mirrored,
        before: laid,
        after: after_line.clone(),
    })
}

fn mirror(before: &Outline, after: &Outline, grains: (Point, Point), accuracy: f64) -> bool {
    let image = before.mirrored();
    let grain = Point::new(-grains.0.x, grains.0.y);
    let found = register(&image, after, (grain, grains.1));
    // Points that are far off already need no search.
    let near = found.left <= 2.0 * accuracy;
    near && image
        .transformed(&found.map)
        .is_ok_and(|laid| farthest(&laid.path, &after.path, accuracy).distance < accuracy)
}

/// Whether two paths have the same segments, point by point.
fn same(a: &Path, b: &Path) -> bool {
    let near = |a: Point, b: Point| a.distance(b) <= ALIKE;
    let segment = |pair: (&Segment, &Segment)| match pair {
        (Segment::Line(a), Segment::Line(b)) => near(*a, *b),
        (Segment::Cubic(a, b, c), Segment::Cubic(d, e, f)) => near(*a, *d) && near(*b, *e) && near(*c, *f),
        _ => false,
    };
    near(a.start, b.start) && a.segments.len() == b.segments.len() && a.segments.iter().zip(&b.segments).all(segment)
}

/// The nearest named point if it is within a millimetre, else the run.
fn place(outline: &Outline, at: Point) -> Phrase {
    let point = outline.points.iter().filter_map(|point| Some((outline.point(&point.id)?.distance(at), &point.id)));
    if let Some((_, id)) = point.filter(|(far, _)| *far <= 1.0).min_by(|a, b| a.0.total_cmp(&b.0)) {
        return say!(AT_POINT, point = id);
    }
    let runs = outline.runs();
    let near = runs.iter().map(|run| (off(at, &run.path(), 0.1), run)).min_by(|a, b| a.0.total_cmp(&b.0));
    near.map_or_else(|| ON_OUTLINE.into(), |(_, run)| say!(ON_EDGE, from = &run.from, to = &run.to))
}

/// Everything with a name that does not lie where it lay.
fn moved(laid: &Outline, after: &Outline, accuracy: f64) -> Vec<Moved> {
    let points = |outline: &Outline| -> Vec<(String, Point)> {
        outline.points.iter().filter_map(|one| Some((one.id.clone(), outline.point(&one.id)?))).collect()
    };
    let marks = |marks: &[Mark]| -> Vec<(String, Point)> { marks.iter().map(|one| (one.id.clone(), one.at)).collect() };
    let lines = |lines: &[InternalLine]| -> Vec<(String, Path)> {
        lines.iter().map(|one| (one.id.clone(), one.path.clone())).collect()
    };
    let near = |a: &Point, b: &Point| a.distance(*b);
    let apart = |a: &Path, b: &Path| if same(a, b) { 0.0 } else { farthest(a, b, accuracy).distance };
    let mut all = Vec::new();
    named("point", &points(laid), &points(after), near, accuracy, &mut all);
    named("line", &lines(&laid.lines), &lines(&after.lines), apart, accuracy, &mut all);
    named("mark", &marks(&laid.marks), &marks(&after.marks), near, accuracy, &mut all);
    named("notch", &marks(&laid.notches), &marks(&after.notches), near, accuracy, &mut all);
    let direction = |line: Option<(Point, Point)>| -> Vec<(String, Point)> {
        line.map(|(a, b)| (String::new(), b - a)).into_iter().collect()
    };
    named("grain", &direction(laid.grain), &direction(after.grain), angle, TURN, &mut all);
    named("pile", &direction(laid.pile), &direction(after.pile), angle, TURN, &mut all);
    all
}

fn named<T>(
    what: &'static str,
    before: &[(String, T)],
    after: &[(String, T)],
    apart: impl Fn(&T, &T) -> f64,
    least: f64,
    out: &mut Vec<Moved>,
) {
    for (id, place) in after {
        match before.iter().find(|(other, _)| other == id).map(|(_, was)| apart(was, place)) {
            Some(by) if by < least => {}
            by => out.push(Moved { what, id: id.clone(), by, there: true }),
        }
    }
    for (id, _) in before.iter().filter(|(id, _)| !after.iter().any(|(other, _)| other == id)) {
        out.push(Moved { what, id: id.clone(), by: None, there: false });
    }
}

/// The angle between two directions, in degrees from 0 to 180.
fn angle(a: &Point, b: &Point) -> f64 {
    libm::atan2(a.cross(*b).abs(), a.dot(*b)).to_degrees()
}

fn runs(laid: &Outline, after: &Outline, accuracy: f64) -> Vec<RunChange> {
    let before = laid.runs();
    let length = |run: &crate::geom::Run| measure::length(&run.path());
    let changed = after.runs().into_iter().filter_map(|run| {
        let was = before.iter().find(|other| other.from == run.from && other.to == run.to)?;
        let (before, after) = (length(was), length(&run));
        ((after - before).abs() >= accuracy).then_some(RunChange { from: run.from, to: run.to, before, after })
    });
    changed.collect()
}

//! Darts on outlines: their mouths and depths, and outlines with their mouths bridged.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Outline, Path, Point, Run, Segment, measure};
use crate::model::{Assembly, Darts, Piece};

/// A dart: neighbouring runs of one piece, of which the first half is sewn to the second.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Dart {
    /// Its runs as the outline numbers them.
    pub runs: BTreeSet<usize>,
}

/// The darts of a piece that reach the cutting room marked, not cut out.
pub(super) fn runs(piece: &Piece, id: &str, assembly: &Assembly) -> Vec<Dart> {
    if piece.darts == Darts::Cut {
        return Vec::new();
    }
    let mut found = BTreeSet::new();
    for joint in &assembly.joints {
        let all = || joint.a.runs.iter().chain(&joint.b.runs);
        let one = joint.a.runs.first().map(|run| run.instance);
        let mine = one.and_then(|at| assembly.instances.get(at)).is_some_and(|instance| instance.piece == id);
        if mine && all().all(|run| Some(run.instance) == one) {
            found.insert(Dart { runs: all().map(|run| run.run).collect() });
        }
    }
    found.into_iter().collect()
}

/// One dart as it lies on an outline, marked or cut.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bite {
    /// The seam that closes it.
    pub joint: String,
    /// Its runs.
    pub runs: Vec<usize>,
    /// Its tip: name and place.
    pub tip: (String, Point),
    /// The names of the two points of its mouth.
    pub mouth: [String; 2],
    /// From the middle of its mouth to its tip, mm.
    pub depth: f64,
    /// Half the width of its mouth, mm.
    pub half: f64,
    /// From its mouth to its tip, of length 1.
    pub way: Point,
}

/// Every dart of a piece on one of its outlines, each once.
pub(super) fn bites(assembly: &Assembly, piece: &str, outline: &Outline) -> Vec<Bite> {
    let runs = outline.runs();
    let mut found: Vec<Bite> = Vec::new();
    for joint in &assembly.joints {
        let all = || joint.a.runs.iter().chain(&joint.b.runs);
        let one = joint.a.runs.first().map(|run| run.instance);
        let mine = one.and_then(|at| assembly.instances.get(at)).is_some_and(|instance| instance.piece == piece);
        if !mine || !all().all(|run| Some(run.instance) == one) || found.iter().any(|bite| bite.joint == joint.joint) {
            continue;
        }
        let set: BTreeSet<usize> = all().map(|run| run.run).collect();
        found.extend(is_notch(&runs, &set).then(|| bite(&joint.joint, &runs, &set)).flatten());
    }
    found
}

fn bite(joint: &str, runs: &[Run], set: &BTreeSet<usize>) -> Option<Bite> {
    let count = runs.len();
    let start = set.iter().copied().find(|run| !set.contains(&((run + count - 1) % count)))?;
    let row: Vec<usize> = (0..set.len()).map(|step| (start + step) % count).collect();
    let (first, last) = (runs.get(*row.first()?)?, runs.get(*row.last()?)?);
    let tip = runs.get(*row.get(row.len() / 2)?)?;
    let (from, to) = (first.start, last.path().end());
    let middle = from.middle(to);
    Some(Bite {
        joint: joint.to_string(),
        tip: (tip.from.clone(), tip.start),
        mouth: [first.from.clone(), last.to.clone()],
        depth: middle.distance(tip.start),
        half: from.distance(to) / 2.0,
        way: (tip.start - middle).unit()?,
        runs: row,
    })
}

/// An outline whose dart mouths are closed by straight lines.
pub(super) struct Bridged {
    /// The outline without its darts.
    pub outline: Outline,
    /// For each of its runs, the run of the whole outline whose allowance it has.
    from: Vec<usize>,
}

impl Bridged {
    /// The allowances of the bridged runs, from those of the whole outline.
    pub fn widths(&self, whole: &[f64]) -> Vec<f64> {
        self.from.iter().map(|run| whole.get(*run).copied().unwrap_or(0.0)).collect()
    }
}

/// Bridges the darts of an outline; none if there is none, or if what is left is no outline.
pub(super) fn bridged(outline: &Outline, darts: &[Dart]) -> Option<Bridged> {
    let runs = outline.runs();
    let count = runs.len();
    let dart_at = |run: usize| darts.iter().find(|dart| dart.runs.contains(&run) && is_notch(&runs, &dart.runs));
    let first = (0..count).find(|run| dart_at(*run).is_none())?;
    (0..count).find(|run| dart_at(*run).is_some())?;
    let mut points: Vec<(String, Point)> = Vec::new();
    let mut segments: Vec<Segment> = Vec::new();
    let mut source: BTreeMap<String, usize> = BTreeMap::new();
    let mut inside: Option<&Dart> = None;
    for at in (0..count).map(|step| (first + step) % count) {
        let run = &runs[at];
        match dart_at(at) {
            Some(dart) if inside == Some(dart) => {
                // The mouth ends where the last leg does.
                segments.pop();
                segments.extend(run.path().segments.last().map(|segment| Segment::Line(segment.end())));
            }
            dart => {
                points.push((run.from.clone(), run.start));
                source.insert(run.from.clone(), at);
                match dart {
                    Some(_) => segments.push(Segment::Line(run.path().end())),
                    None => segments.extend(run.segments.iter().copied()),
                }
                inside = dart;
            }
        }
    }
    let path = Path::new(runs[first].start, segments);
    let outline = Outline::from_path(path, &points).ok()?;
    let from = outline.points.iter().map(|point| source.get(&point.id).copied().unwrap_or(0)).collect();
    Some(Bridged { outline, from })
}

/// Whether runs follow one another and bite into the piece, as a dart does; the two edges of a cone do not.
fn is_notch(runs: &[Run], dart: &BTreeSet<usize>) -> bool {
    let count = runs.len();
    let starts: Vec<usize> = dart.iter().copied().filter(|run| !dart.contains(&((run + count - 1) % count))).collect();
    let [start] = starts.as_slice() else { return false };
    let rows = (0..dart.len()).filter_map(|step| runs.get((start + step) % count));
    let mut segments: Vec<Segment> = rows.flat_map(|run| run.segments.iter().copied()).collect();
    let Some(first) = runs.get(*start) else { return false };
    segments.push(Segment::Line(first.start));
    // The outline runs anticlockwise, so a bite closed by its mouth runs clockwise.
    measure::signed_area(&Path::new(first.start, segments)) < 0.0
}

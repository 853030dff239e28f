//! Does a closed line cross or touch itself? Decided exactly on the grid.

use super::error::ShapeError;
use super::flatten::flatten_indexed;
use super::grid::{GridPoint, Polygon, Side, on_edge, orient};
use super::outline::Outline;
use super::path::Path;
use super::point::Point;

/// Tolerance at which curves are flattened for this test, in mm.
const FINE: f64 = 0.005;

/// A place where two edges of a polygon meet that should not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Index of the corner at which the first edge starts.
    pub first: usize,
    /// Index of the corner at which the second edge starts.
    pub second: usize,
    /// Where they meet, in mm.
    pub at: Point,
    /// Whether they only touch instead of crossing.
    pub touches: bool,
}

/// Whether the open edges a-b and c-d cross each other in one inner point of both.
pub fn proper(a: GridPoint, b: GridPoint, c: GridPoint, d: GridPoint) -> bool {
    let opposite = |p: i128, q: i128| p != 0 && q != 0 && (p > 0) != (q > 0);
    opposite(orient(a, b, c), orient(a, b, d)) && opposite(orient(c, d, a), orient(c, d, b))
}

/// The first meeting of two edges of the closed polygon, in the order of their corners. Fewer than
/// three corners enclose nothing and have no meeting.
pub(super) fn find(points: &[GridPoint]) -> Option<Crossing> {
    if points.len() < 3 {
        return None;
    }
    let next = points.iter().copied().cycle().skip(1);
    let mut edges: Vec<Edge> =
        points.iter().copied().zip(next).enumerate().map(|(index, (a, b))| Edge { index, a, b }).collect();
    edges.sort_by_key(|edge| (edge.left(), edge.index));
    // A sweep in x: only edges whose x ranges overlap are compared.
    let mut active: Vec<Edge> = Vec::new();
    let mut found: Vec<Crossing> = Vec::new();
    for edge in edges {
        active.retain(|other| other.right() >= edge.left());
        found.extend(active.iter().filter_map(|other| edge.meets(other, points.len())));
        active.push(edge);
    }
    found.into_iter().min_by_key(|crossing| (crossing.first, crossing.second))
}

#[derive(Clone, Copy)]
struct Edge {
    index: usize,
    a: GridPoint,
    b: GridPoint,
}

impl Edge {
    fn left(&self) -> i64 {
        self.a.x.min(self.b.x)
    }

    fn right(&self) -> i64 {
        self.a.x.max(self.b.x)
    }

    fn meets(&self, other: &Self, count: usize) -> Option<Crossing> {
        let (one, two) = if self.index < other.index { (self, other) } else { (other, self) };
        if one.a.y.min(one.b.y) > two.a.y.max(two.b.y) || two.a.y.min(two.b.y) > one.a.y.max(one.b.y) {
            return None;
        }
        let at = |at: Point, touches: bool| Some(Crossing { first: one.index, second: two.index, at, touches });
        if proper(one.a, one.b, two.a, two.b) {
            return at(meeting(one, two), false);
        }
        let follows = two.index == one.index + 1;
        let precedes = one.index == 0 && two.index + 1 == count;
        // Neighbours share a corner; they touch only if one folds back onto the other.
        let contacts = [(two.a, one, follows), (two.b, one, precedes), (one.a, two, precedes), (one.b, two, follows)];
        let touch = contacts.iter().find(|(p, edge, shared)| !shared && on_edge(*p, edge.a, edge.b));
        touch.and_then(|(p, _, _)| at(p.point(), true))
    }
}

/// Where two properly crossing edges meet, in mm.
fn meeting(one: &Edge, two: &Edge) -> Point {
    let (p, q) = (orient(two.a, two.b, one.a).abs(), orient(two.a, two.b, one.b).abs());
    // Exact integers; the quotient alone is rounded.
    let t = p as f64 / (p + q) as f64;
    one.a.point().lerp(one.b.point(), t)
}

/// Refuses a closed path that crosses or touches itself; `names[i]` is the point at the start
/// of segment i, and the message names the segments' ends.
pub(super) fn refuse_crossing(path: &Path, names: &[String]) -> Result<(), ShapeError> {
    let flat = flatten_indexed(path, FINE);
    let points: Vec<GridPoint> = flat.iter().map(|(point, _)| GridPoint::nearest(*point)).collect();
    let Some(crossing) = find_distinct(&points) else {
        return Ok(());
    };
    let ends = |corner: usize| {
        let segment = flat.get(corner).map_or(0, |(_, segment)| *segment);
        let name = |at: usize| names.iter().cycle().nth(at).cloned().unwrap_or_default();
        (name(segment), name(segment + 1))
    };
    Err(ShapeError::SelfCrossing { first: ends(crossing.first), second: ends(crossing.second), at: crossing.at })
}

/// Like [`find`], for corners that may repeat one after the other; indices are those given.
fn find_distinct(points: &[GridPoint]) -> Option<Crossing> {
    let before = points.iter().cycle().skip(points.len().saturating_sub(1));
    let kept: Vec<(usize, GridPoint)> = points
        .iter()
        .zip(before)
        .enumerate()
        .filter(|(_, (point, previous))| point != previous)
        .map(|(index, (point, _))| (index, *point))
        .collect();
    let distinct: Vec<GridPoint> = kept.iter().map(|(_, point)| *point).collect();
    let origin = |corner: usize| kept.get(corner).map_or(0, |(index, _)| *index);
    find(&distinct).map(|found| Crossing { first: origin(found.first), second: origin(found.second), ..found })
}

impl Polygon {
    /// Whether the whole other polygon lies inside or on the edge; both must be free of crossings.
    pub fn contains(&self, other: &Self) -> bool {
        let crossed = |(a, b): (GridPoint, GridPoint)| self.edges().any(|(c, d)| proper(a, b, c, d));
        let outside = |p: &GridPoint| self.side(*p) == Side::Outside;
        // An edge between two points on this outline may still run outside, through a notch.
        let beside = |(a, b): (GridPoint, GridPoint)| {
            let middle = a.point().middle(b.point());
            self.side(GridPoint::nearest(middle)) == Side::Outside
        };
        !other.points.iter().any(outside) && !other.edges().any(crossed) && !other.edges().any(beside)
    }

    /// The first place where the polygon crosses or touches itself; none for a simple polygon
    /// or fewer than three corners.
    pub fn crossing(&self) -> Option<Crossing> {
        find(&self.points)
    }
}

impl Outline {
    /// Refuses an outline that crosses or touches itself, naming the runs.
    ///
    /// # Errors
    /// The first crossing, with the ends of both runs and the place.
    pub fn refuse_crossing(&self) -> Result<(), ShapeError> {
        let flat = flatten_indexed(&self.path, FINE);
        let points: Vec<GridPoint> = flat.iter().map(|(point, _)| GridPoint::nearest(*point)).collect();
        let Some(crossing) = find_distinct(&points) else {
            return Ok(());
        };
        let runs = self.runs();
        let ends = |corner: usize| {
            let segment = flat.get(corner).map_or(0, |(_, segment)| *segment);
            let index = self.points.iter().rposition(|point| point.at <= segment);
            let run = index.map_or_else(|| runs.last(), |index| runs.get(index));
            run.map(super::outline::Run::ends).unwrap_or_default()
        };
        Err(ShapeError::SelfCrossing { first: ends(crossing.first), second: ends(crossing.second), at: crossing.at })
    }
}

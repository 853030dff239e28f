//! Strips along an outline, on its right-hand side.

use super::super::flatten::flatten_indexed;
use super::super::outline::Outline;
use super::super::point::Point;
use super::corner::{arc, fan, patch};
use super::ear::Ear;
use super::joint::Joint;
use super::style::{Corner, Corners};

/// Curves are flattened this fine before strips are laid along them, in mm.
pub(super) const FINE: f64 = 0.001;
/// Joints that turn less than this count as smooth: sine of half a degree.
const SMOOTH: f64 = 0.008_726;

/// One straight piece of a flattened outline.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
    /// Its direction, of length 1.
    pub along: Point,
    /// True direction of the curve at its start and end.
    pub tangents: (Point, Point),
    /// Allowance on its right-hand side, in mm.
    pub width: f64,
    /// Whether it starts at a joint of two segments of the outline.
    pub starts_segment: bool,
    /// What is done at the corner where it starts.
    pub corner: Corner,
}

impl Edge {
    fn offset(&self, point: Point) -> Point {
        point + self.along.right() * self.width
    }

    fn turned(&self, next: &Self) -> Self {
        let (starts_segment, corner) = (next.starts_segment, next.corner);
        Self {
            corner,
            start: self.end,
            end: self.start,
            along: -self.along,
            tangents: (-self.tangents.1, -self.tangents.0),
            starts_segment,
            ..*self
        }
    }
}

/// The flattened outline, anticlockwise, with the allowance of its run on each edge.
pub(super) fn ring(outline: &Outline, allowances: &[f64], styles: &Corners) -> Vec<Edge> {
    let corners = flatten_indexed(&outline.path, FINE);
    let pieces: Vec<_> = outline.path.pieces().collect();
    let next = corners.iter().cycle().skip(1);
    let mut previous = usize::MAX;
    let mut edges = Vec::with_capacity(corners.len());
    for ((start, index), (end, following)) in corners.iter().zip(next) {
        let starts_segment = *index != previous;
        previous = *index;
        let Some((along, piece)) = (*end - *start).unit().zip(pieces.get(*index)) else {
            continue;
        };
        let width = allowances.get(run_of(outline, *index)).copied().unwrap_or(0.0);
        // Inside a segment the chords speak for the curve; at its ends its own tangents do.
        let first = piece.1.start_direction(piece.0).filter(|_| starts_segment);
        let last = piece.1.end_direction(piece.0).filter(|_| following != index);
        let tangents = (first.unwrap_or(along), last.unwrap_or(along));
        let corner = styles.style(point_at(outline, *index));
        edges.push(Edge { start: *start, end: *end, along, tangents, width, starts_segment, corner });
    }
    edges
}

/// The name of the point at which a segment starts.
fn point_at(outline: &Outline, segment: usize) -> Option<&str> {
    outline.points.iter().find(|point| point.at == segment).map(|point| point.id.as_str())
}

/// Index of the run that a segment belongs to; the last run may pass the start of the path.
fn run_of(outline: &Outline, segment: usize) -> usize {
    let last = outline.points.len().saturating_sub(1);
    outline.points.iter().rposition(|point| point.at <= segment).unwrap_or(last)
}

/// The ring the other way round: its right-hand side is the inside.
pub(super) fn turned(ring: &[Edge]) -> Vec<Edge> {
    let next = ring.iter().cycle().skip(1);
    let mut edges: Vec<Edge> = ring.iter().zip(next).map(|(edge, next)| edge.turned(next)).collect();
    edges.reverse();
    edges
}

/// The corners of the ring.
pub(super) fn outline_of(ring: &[Edge]) -> Vec<Point> {
    ring.iter().map(|edge| edge.start).collect()
}

/// Anticlockwise polygons that cover everything within its allowance to the right of each edge.
pub(super) fn bands(ring: &[Edge]) -> Vec<Vec<Point>> {
    let mut bands = Vec::with_capacity(ring.len());
    let mut row = Row::default();
    let before = ring.iter().cycle().skip(ring.len().saturating_sub(1));
    for ((before, edge), next) in before.zip(ring).zip(ring.iter().cycle().skip(1)) {
        let plain = ear(before, edge).is_none() && ear(edge, next).is_none() && edge.width > 0.0;
        if plain && row.takes(before, edge) {
            row.extend(before, edge);
            continue;
        }
        join(before, edge, &mut bands);
        if plain {
            bands.extend(std::mem::replace(&mut row, Row::of(edge)).polygon());
        } else if edge.width > 0.0 {
            bands.push(strip(edge, ear(before, edge), ear(edge, next)));
        }
    }
    bands.extend(row.polygon());
    bands
}

/// The strips of edges that bend outward smoothly, less than a right angle in all, as one polygon: the same cover as
/// strip by strip, in far fewer pieces.
#[derive(Default)]
struct Row {
    inner: Vec<Point>,
    outer: Vec<Point>,
    first: Point,
}

impl Row {
    fn of(edge: &Edge) -> Self {
        let outer = vec![edge.offset(edge.start), edge.offset(edge.end)];
        Self { inner: vec![edge.start, edge.end], outer, first: edge.along }
    }

    fn takes(&self, before: &Edge, edge: &Edge) -> bool {
        let bend = before.along.cross(edge.along);
        let on = self.inner.last() == Some(&edge.start);
        on && before.width == edge.width && bend >= 0.0 && self.first.dot(edge.along) > 0.0 && is_smooth(before, edge)
    }

    fn extend(&mut self, before: &Edge, edge: &Edge) {
        let normals = arc(before.along.right(), edge.along.right(), None, edge.width);
        self.outer.extend(normals.iter().skip(1).map(|normal| edge.start + *normal * edge.width));
        self.outer.push(edge.offset(edge.end));
        self.inner.push(edge.end);
    }

    fn polygon(mut self) -> Option<Vec<Point>> {
        self.outer.extend(self.inner.into_iter().rev());
        (!self.outer.is_empty()).then_some(self.outer)
    }
}

/// Whether two edges are of one curve, or of two that run on into each other at one allowance.
fn is_smooth(before: &Edge, edge: &Edge) -> bool {
    let turn = before.tangents.1.cross(edge.tangents.0);
    let ahead = before.tangents.1.dot(edge.tangents.0) > 0.0;
    !edge.starts_segment || (before.width == edge.width && ahead && turn.abs() < SMOOTH)
}

/// The strip along an edge, cut back where its allowance ends before the corner.
fn strip(edge: &Edge, first: Option<Ear>, last: Option<Ear>) -> Vec<Point> {
    let mut strip = vec![edge.start];
    match first.filter(|ear| !ear.before && ear.back > 0.0) {
        Some(ear) => strip.extend(ear.end()),
        None => strip.push(edge.offset(edge.start)),
    }
    match last.filter(|ear| ear.before && ear.back > 0.0) {
        Some(ear) => strip.extend(ear.end()),
        None => strip.push(edge.offset(edge.end)),
    }
    strip.push(edge.end);
    strip
}

/// A corner whose worked edge is too short or too curved to be cut back as far as its style asks, and how far that is.
pub(super) fn unworkable(ring: &[Edge]) -> Option<(Point, f64)> {
    let pairs = ring.iter().cycle().skip(ring.len().saturating_sub(1)).zip(ring);
    let short = |(before, edge): (&Edge, &Edge)| {
        let ear = ear(before, edge).filter(|ear| ear.back > 0.0)?;
        let worked = if ear.before { before } else { edge };
        (worked.start.distance(worked.end) < ear.back).then_some((edge.start, ear.back))
    };
    pairs.into_iter().find_map(short)
}

fn ear(before: &Edge, edge: &Edge) -> Option<Ear> {
    edge.starts_segment.then(|| Ear::of(&joint(before, edge), edge.corner)).flatten()
}

fn joint(before: &Edge, edge: &Edge) -> Joint {
    Joint { at: edge.start, before: before.tangents.1, after: edge.tangents.0, widths: (before.width, edge.width) }
}

/// Fills the gap between the strips of two neighbouring edges.
fn join(before: &Edge, edge: &Edge, bands: &mut Vec<Vec<Point>>) {
    let at = edge.start;
    if is_smooth(before, edge) {
        bands.extend(fan(at, before.along.right(), edge.along.right(), edge.width));
        return;
    }
    bands.extend(fan(at, before.along.right(), before.tangents.1.right(), before.width));
    bands.extend(patch(&joint(before, edge), edge.corner));
    bands.extend(fan(at, edge.tangents.0.right(), edge.along.right(), edge.width));
}

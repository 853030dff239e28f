//! Named points on an outline: from a drawing, or at a place along a run.

use super::error::ShapeError;
use super::flatten::flatten_segment;
use super::measure::{self, parameter_at, segment_length};
use super::outline::{Named, Outline};
use super::path::{Path, Segment};
use super::point::Point;

/// Named points lie within this distance of the curve, corners attract them from as far, and
/// two of them are at least as far apart, in mm. Closer ones would make tiny runs.
pub const REACH: f64 = 0.5;
/// A gap this small is closed; a wider one is a finding. In mm.
const CLOSED: f64 = 0.01;
/// Accuracy at which the image of a new point is recognised, in mm.
const SAME_PLACE: f64 = 0.01;

/// A place along a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// Millimetres from the first end of the run.
    Distance(f64),
    /// Share of the length of the run, from 0 to 1.
    Share(f64),
}

impl Outline {
    /// The outline of a drawn curve with points near it.
    ///
    /// A point is moved onto the curve, or to the nearest joint of two segments if that is
    /// within 0.5 mm of it. A gap up to 0.01 mm between end and start is closed.
    ///
    /// # Errors
    /// An open curve, or one that encloses nothing, crosses or touches itself, is larger than
    /// 20 m or has a coordinate that is no number; points off the curve, with one name, or nearer
    /// than 0.5 mm to each other.
    pub fn from_path(path: Path, points: &[(String, Point)]) -> Result<Self, ShapeError> {
        if !path.is_finite() || !points.iter().all(|(_, point)| point.is_finite()) {
            return Err(ShapeError::NotFinite);
        }
        let mut path = closed(path)?;
        for (id, point) in points {
            let spot = Spot::nearest(&path, *point);
            if spot.distance > REACH {
                return Err(ShapeError::OffOutline { id: id.clone(), distance: spot.distance });
            }
            // Cutting first and looking up the joints afterwards keeps the indices true.
            if joint_near(&path, *point).is_none() {
                cut(&mut path, spot.segment, spot.t);
            }
        }
        let joint = |(id, point): &(String, Point)| joint_near(&path, *point).map(|at| (id.clone(), at));
        let outline = Self::assemble(path.clone(), points.iter().filter_map(joint).collect())?;
        outline.refuse_near()?;
        outline.refuse_crossing()?;
        Ok(outline)
    }

    /// The outline with one more named point on the run from `from` to `to`, measured from `from`.
    ///
    /// # Errors
    /// No such run; a name already there; a place outside the run; a point nearer than 0.5 mm.
    pub fn with_point(&self, id: &str, from: &str, to: &str, place: Place) -> Result<Self, ShapeError> {
        let found = self.run_between(from, to)?;
        if self.points.iter().any(|point| point.id == id) {
            return Err(ShapeError::IdTaken { id: id.to_owned() });
        }
        let length = self.length_of(found.index);
        let asked = match place {
            Place::Distance(mm) => mm,
            Place::Share(share) => share * length,
        };
        if !(0.0..=length).contains(&asked) {
            let run = (from.to_owned(), to.to_owned());
            return Err(ShapeError::OutsideRun { id: id.to_owned(), run, length, asked });
        }
        for (other, distance) in [(from, asked), (to, length - asked)] {
            if distance < REACH {
                return Err(ShapeError::TooClose { id: id.to_owned(), other: other.to_owned(), distance });
            }
        }
        Ok(self.inserted(id, found.index, if found.forward { asked } else { length - asked }))
    }

    /// Cuts the run of that index at a distance from its anticlockwise start.
    fn inserted(&self, id: &str, run: usize, distance: f64) -> Self {
        let first = self.points.get(run).map_or(0, |point| point.at);
        let mut path = self.path.rotated(first);
        let (segment, t) = along(&path, distance);
        let at = cut(&mut path, segment, t);
        let grown = path.segments.len() - self.path.segments.len();
        let old = self.path.segments.len();
        let moved = |point: &Named| {
            let place = (point.at + old - first) % old;
            (point.id.clone(), if place >= at { place + grown } else { place })
        };
        let mut named: Vec<_> = self.points.iter().map(moved).collect();
        named.push((id.to_owned(), at));
        let mut outline = Self {
            lines: self.lines.clone(),
            grain: self.grain,
            pile: self.pile,
            marks: self.marks.clone(),
            notches: self.notches.clone(),
            axis_images: self.axis_images.clone(),
            ..Self::normalised(path, named, false)
        };
        outline.add_image(id);
        outline
    }

    /// Records the image of a point if there is one at the axis of the recorded images.
    fn add_image(&mut self, id: &str) {
        let Some(place) = self.image_axis().zip(self.point(id)).map(|(axis, point)| axis.apply(point)) else {
            return;
        };
        let there = |named: &&Named| self.point(&named.id).is_some_and(|point| point.distance(place) <= SAME_PLACE);
        if let Some(image) = self.points.iter().find(there).map(|named| named.id.clone()) {
            self.axis_images.insert(id.to_owned(), image.clone());
            self.axis_images.insert(image, id.to_owned());
        }
    }

    /// Refuses neighbouring points nearer than 0.5 mm along the outline.
    pub(super) fn refuse_near(&self) -> Result<(), ShapeError> {
        for run in self.runs() {
            let distance = measure::length(&run.path());
            if distance < REACH {
                return Err(ShapeError::TooClose { id: run.to, other: run.from, distance });
            }
        }
        Ok(())
    }

    /// The place on the outline nearest to a point, and how far off it lies, in mm.
    pub fn nearest(&self, point: Point) -> (Point, f64) {
        let spot = Spot::nearest(&self.path, point);
        let place = self.path.pieces().nth(spot.segment).map(|(start, piece)| piece.point_at(start, spot.t));
        (place.unwrap_or(point), spot.distance)
    }

    /// The named point that a place belongs to: the nearest one within 0.5 mm of it.
    pub fn point_near(&self, place: Point) -> Option<&Named> {
        let far = |named: &Named| self.point(&named.id).map_or(f64::INFINITY, |there| there.distance(place));
        let near = self.points.iter().map(|named| (named, far(named))).filter(|(_, far)| *far <= REACH);
        near.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(named, _)| named)
    }

    /// The run a place on the outline lies on, and its distance from the anticlockwise start of the run, in mm.
    pub fn run_at(&self, place: Point) -> (usize, f64) {
        let spot = Spot::nearest(&self.path, place);
        let count = self.path.segments.len();
        let index = self.points.iter().rposition(|point| point.at <= spot.segment);
        let index = index.unwrap_or(self.points.len().saturating_sub(1));
        let first = self.points.get(index).map_or(0, |point| point.at);
        let before = (spot.segment + count - first) % count.max(1);
        let pieces = self.path.pieces().collect::<Vec<_>>();
        let whole = pieces.iter().cycle().skip(first).take(before);
        let length: f64 = whole.map(|(start, segment)| segment_length(*start, segment)).sum();
        let rest = pieces.get(spot.segment).map_or(0.0, |(start, segment)| {
            let (part, _) = segment.split(*start, spot.t);
            segment_length(*start, &part)
        });
        (index, length + rest)
    }

    /// By how much the outline turns at a named point, in degrees: positive to the left, which
    /// is a corner that sticks out; 0 where it runs on smoothly. None for an unknown point.
    pub fn turn_at(&self, id: &str) -> Option<f64> {
        let named = self.points.iter().find(|point| point.id == id)?;
        let path = self.path.rotated(named.at);
        let after = path.segments.first()?.start_direction(path.start)?;
        let before = path.pieces().last().and_then(|(start, segment)| segment.end_direction(start))?;
        Some(libm::atan2(before.cross(after), before.dot(after)).to_degrees())
    }

    /// The point at a distance from the anticlockwise start of a run, with the outward normal
    /// there (length 1). None for an unknown run or a distance outside it.
    pub fn along_run(&self, index: usize, distance: f64) -> Option<(Point, Point)> {
        let run = self.runs().into_iter().nth(index)?;
        on_path(&run.path(), distance)
    }
}

/// The point at a distance from the start of a path, with the normal to its right (length 1).
pub(super) fn on_path(path: &Path, distance: f64) -> Option<(Point, Point)> {
    if !(0.0..=measure::length(path)).contains(&distance) {
        return None;
    }
    let (segment, t) = along(path, distance);
    let (start, piece) = path.pieces().nth(segment)?;
    let direction = piece.derivative_at(start, t).unit().or_else(|| piece.start_direction(start))?;
    Some((piece.point_at(start, t), direction.right()))
}

/// Segment and parameter at a distance from the start of a path, held at its end.
pub(super) fn along(path: &Path, distance: f64) -> (usize, f64) {
    let mut left = distance;
    for (index, (start, segment)) in path.pieces().enumerate() {
        let length = segment_length(start, segment);
        if left <= length {
            return (index, parameter_at(start, segment, left));
        }
        left -= length;
    }
    (path.segments.len().saturating_sub(1), 1.0)
}

/// Cuts a segment of a closed path and returns the joint there; the ends of the segment are
/// joints already.
fn cut(path: &mut Path, segment: usize, t: f64) -> usize {
    let found = path.pieces().nth(segment).map(|(start, piece)| piece.split(start, t));
    match found {
        _ if t <= 0.0 => segment,
        _ if t >= 1.0 => (segment + 1) % path.segments.len(),
        Some((a, b)) => {
            path.segments.splice(segment..=segment, [a, b]);
            segment + 1
        }
        None => segment,
    }
}

/// The nearest joint of two segments within reach of a point.
fn joint_near(path: &Path, point: Point) -> Option<usize> {
    let joints = path.pieces().map(|(start, _)| start.distance(point)).enumerate();
    let nearest = joints.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (nearest.1 <= REACH).then_some(nearest.0)
}

/// Without segments of no length, and closed.
fn closed(path: Path) -> Result<Path, ShapeError> {
    let mut start = path.start;
    let mut kept = Path::new(path.start, Vec::new());
    for segment in path.segments {
        if segment_length(start, &segment) > 0.0 {
            kept.segments.push(segment);
        }
        start = segment.end();
    }
    let gap = kept.end().distance(kept.start);
    if gap > CLOSED {
        return Err(ShapeError::Open { gap });
    }
    let end = kept.start;
    if let Some(last) = kept.segments.pop() {
        kept.segments.push(last.ending(end));
    }
    Ok(kept)
}

/// A place on a path.
struct Spot {
    segment: usize,
    t: f64,
    distance: f64,
}

impl Spot {
    /// The place on the path nearest to a point.
    fn nearest(path: &Path, point: Point) -> Self {
        let mut best = Self { segment: 0, t: 0.0, distance: f64::INFINITY };
        for (index, (start, segment)) in path.pieces().enumerate() {
            // A curve lies within the box round its control points.
            if segment.hull(start).distance(point) >= best.distance {
                continue;
            }
            let (t, distance) = nearest_on(start, segment, point);
            if distance < best.distance {
                best = Self { segment: index, t, distance };
            }
        }
        best
    }
}

/// Parameter and distance of the place on a segment nearest to a point: the best of evenly
/// spaced samples, then thirds of the interval round it.
fn nearest_on(start: Point, segment: &Segment, point: Point) -> (f64, f64) {
    let mut corners = 1_u32;
    flatten_segment(start, segment, 0.1, &mut |_| corners += 1);
    let steps = f64::from(corners * 4);
    let distance = |t: f64| segment.point_at(start, t).distance(point);
    let samples = (0..=corners * 4).map(|i| f64::from(i) / steps).map(|t| (t, distance(t)));
    let best = samples.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0.0, |(t, _)| t);
    let (mut low, mut high) = ((best - 1.0 / steps).max(0.0), (best + 1.0 / steps).min(1.0));
    for _ in 0..100 {
        let third = (high - low) / 3.0;
        if distance(low + third) < distance(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    let t = (low + high) * 0.5;
    // An end of the segment is never missed by rounding.
    [(0.0, distance(0.0)), (1.0, distance(1.0)), (t, distance(t))]
        .into_iter()
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .unwrap_or((t, distance(t)))
}

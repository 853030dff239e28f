//! A closed outline with its named points.

use super::affine::Affine;
use super::error::{Ends, Measure, RunError, ShapeError};
use super::measure;
use super::path::{Path, Segment};
use super::point::{Point, Rect};
use std::collections::BTreeMap;

/// Largest extent of an outline, in mm.
pub const LARGEST: f64 = 20_000.0;

/// A named point: the start of the segment `at` of the outline's path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// Its name, unique on the outline.
    pub id: String,
    /// Index of the segment that starts there.
    pub at: usize,
}

/// A line on the surface of a piece: an inner seam, a placement mark.
#[derive(Debug, Clone, PartialEq)]
pub struct InternalLine {
    /// Its name, unique on the piece.
    pub id: String,
    /// The line.
    pub path: Path,
}

/// A place on a piece with a name: where a trim goes, or a notch on the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name, unique among its kind on the piece.
    pub id: String,
    /// Where.
    pub at: Point,
}

/// The boundary between two neighbouring named points, anticlockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The point it starts from.
    pub from: String,
    /// The point it ends at.
    pub to: String,
    /// Where it starts.
    pub start: Point,
    /// Its segments in order.
    pub segments: Vec<Segment>,
}

impl Mark {
    /// The image under an affine map.
    pub(super) fn transformed(&self, map: &Affine) -> Self {
        Self { id: self.id.clone(), at: map.apply(self.at) }
    }
}

impl Run {
    /// The run as a path of its own.
    pub fn path(&self) -> Path {
        Path::new(self.start, self.segments.clone())
    }

    /// The names of both ends.
    pub fn ends(&self) -> Ends {
        (self.from.clone(), self.to.clone())
    }
}

/// A run of an outline and the direction it is asked for in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunRef {
    /// Index into [`Outline::runs`].
    pub index: usize,
    /// Whether it was asked for anticlockwise.
    pub forward: bool,
}

/// A closed outline, anticlockwise, cut into segments at its named points.
///
/// It begins at the named point whose name comes first, so that the same curve drawn from
/// another start or the other way round is the same value.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// The closed curve, in mm.
    pub path: Path,
    /// Named points in anticlockwise order.
    pub points: Vec<Named>,
    /// Lines inside.
    pub lines: Vec<InternalLine>,
    /// Two points on the grain line as drawn.
    pub grain: Option<(Point, Point)>,
    /// Two points as drawn, from the first to the second the way the pile lies.
    pub pile: Option<(Point, Point)>,
    /// Places for what is put on the piece, as drawn.
    pub marks: Vec<Mark>,
    /// Notches as drawn, each at a place on the outline.
    pub notches: Vec<Mark>,
    /// The mirror image of each named point, where the shape is symmetric.
    pub axis_images: BTreeMap<String, String>,
}

impl Outline {
    /// Brings a closed path with points at segment starts into the normal form.
    ///
    /// # Errors
    /// No area; a name twice; a coordinate that is no number; more than 20 m across.
    pub(super) fn assemble(path: Path, named: Vec<(String, usize)>) -> Result<Self, ShapeError> {
        check_extent(&path)?;
        let area = measure::signed_area(&path);
        if area == 0.0 || !area.is_finite() {
            return Err(ShapeError::NoArea);
        }
        let outline = Self::normalised(path, named, area < 0.0);
        check_names(&outline.points)?;
        Ok(outline)
    }

    /// Turns the path round if it runs clockwise and begins it at the first name.
    pub(super) fn normalised(path: Path, named: Vec<(String, usize)>, clockwise: bool) -> Self {
        let count = path.segments.len().max(1);
        let path = if clockwise { path.reversed() } else { path };
        let place = |at: usize| if clockwise { (2 * count - at) % count } else { at };
        let first = named.iter().min_by(|a, b| a.0.cmp(&b.0)).map_or(0, |(_, at)| place(*at));
        let moved = |(id, at)| Named { id, at: (place(at) + count - first) % count };
        let mut points: Vec<Named> = named.into_iter().map(moved).collect();
        points.sort_by(|a, b| a.at.cmp(&b.at).then_with(|| a.id.cmp(&b.id)));
        let path = path.rotated(first);
        Self { path, points, ..Self::default() }
    }

    /// Length of the whole outline, in mm.
    pub fn perimeter(&self) -> f64 {
        measure::length(&self.path)
    }

    /// Area enclosed, in mm².
    pub fn area(&self) -> f64 {
        measure::signed_area(&self.path).abs()
    }

    /// The smallest upright box round it.
    pub fn bbox(&self) -> Rect {
        measure::bbox(&self.path)
    }

    /// Centroid of the area; the middle of the box should the area have vanished.
    pub fn centroid(&self) -> Point {
        measure::centroid(&self.path).unwrap_or_else(|| self.bbox().middle())
    }

    /// The names of the points, anticlockwise.
    pub fn names(&self) -> Vec<String> {
        self.points.iter().map(|point| point.id.clone()).collect()
    }

    /// Where a named point is.
    pub fn point(&self, id: &str) -> Option<Point> {
        let named = self.points.iter().find(|point| point.id == id)?;
        self.path.pieces().nth(named.at).map(|(start, _)| start)
    }

    /// The runs between neighbouring named points, anticlockwise. A single point gives one run
    /// from itself to itself, no point none.
    pub fn runs(&self) -> Vec<Run> {
        let count = self.path.segments.len();
        let next = self.points.iter().cycle().skip(1);
        self.points.iter().zip(next).map(|(from, to)| self.run(from, to, count)).collect()
    }

    fn run(&self, from: &Named, to: &Named, count: usize) -> Run {
        let span = if to.at > from.at { to.at - from.at } else { to.at + count - from.at };
        let pieces: Vec<_> = self.path.pieces().collect();
        let taken: Vec<_> = pieces.iter().cycle().skip(from.at).take(span).collect();
        Run {
            from: from.id.clone(),
            to: to.id.clone(),
            start: taken.first().map_or(self.path.start, |(start, _)| *start),
            segments: taken.iter().map(|(_, segment)| **segment).collect(),
        }
    }

    /// The run between two neighbouring points.
    ///
    /// # Errors
    /// Unknown points; the same point twice; points that are no neighbours, with those between;
    /// fewer than three points on the outline, since both ways round are runs then.
    pub fn run_between(&self, from: &str, to: &str) -> Result<RunRef, RunError> {
        let (a, b) = (self.position(from)?, self.position(to)?);
        let count = self.points.len();
        let steps = (b + count - a) % count;
        let forward = steps == 1;
        match steps {
            0 => Err(RunError::SamePoint { id: from.to_owned() }),
            _ if count < 3 => Err(RunError::Ambiguous { from: from.to_owned(), to: to.to_owned() }),
            _ if forward || steps + 1 == count => Ok(RunRef { index: if forward { a } else { b }, forward }),
            _ => Err(self.not_neighbours(from, to, a, steps)),
        }
    }

    fn position(&self, id: &str) -> Result<usize, RunError> {
        let found = self.points.iter().position(|point| point.id == id);
        found.ok_or_else(|| RunError::UnknownPoint { id: id.to_owned(), known: self.names() })
    }

    fn not_neighbours(&self, from: &str, to: &str, a: usize, steps: usize) -> RunError {
        let count = self.points.len();
        let round: Vec<String> =
            self.points.iter().cycle().skip(a + 1).take(count - 1).map(|point| point.id.clone()).collect();
        RunError::NotNeighbours {
            from: from.to_owned(),
            to: to.to_owned(),
            anticlockwise: round.iter().take(steps - 1).cloned().collect(),
            clockwise: round.iter().skip(steps).rev().cloned().collect(),
        }
    }

    /// Length of the run of that index, in mm. An index that no run has gives NaN, which no
    /// comparison takes for a length.
    pub fn length_of(&self, index: usize) -> f64 {
        self.runs().get(index).map_or(f64::NAN, |run| measure::length(&run.path()))
    }

    /// The outline scaled by `along` in the direction of the grain and by `across` square to it,
    /// about the origin. Images of points are kept where the scaled shape still has them.
    ///
    /// # Errors
    /// Factors that are not above zero; a result beyond 20 m.
    pub fn scaled(&self, along: f64, across: f64, direction: Point) -> Result<Self, ShapeError> {
        for (what, value) in [(Measure::Along, along), (Measure::Across, across)] {
            positive(what, value)?;
        }
        self.transformed(&Affine::scaling(along, across, direction))
    }

    /// The mirror image at the vertical axis; points keep their names, runs turn round.
    pub fn mirrored(&self) -> Self {
        let path = self.path.transformed(&Affine::MIRROR);
        let clockwise = measure::signed_area(&path) < 0.0;
        self.imaged(Self::normalised(path, self.placed(), clockwise), &Affine::MIRROR)
    }

    /// The image under an affine map, normalised again.
    ///
    /// # Errors
    /// A map that flattens the shape or makes it larger than 20 m.
    pub fn transformed(&self, map: &Affine) -> Result<Self, ShapeError> {
        let image = Self::assemble(self.path.transformed(map), self.placed())?;
        Ok(self.imaged(image, map))
    }

    /// With the lines and grain of another outline, and its images as far as they hold here.
    pub(super) fn dressed_like(self, other: &Self) -> Self {
        other.imaged(self, &Affine::IDENTITY)
    }

    fn placed(&self) -> Vec<(String, usize)> {
        self.points.iter().map(|point| (point.id.clone(), point.at)).collect()
    }

    /// Gives the image of the path the images of everything else.
    fn imaged(&self, mut image: Self, map: &Affine) -> Self {
        let line = |line: &InternalLine| InternalLine { id: line.id.clone(), path: line.path.transformed(map) };
        image.lines = self.lines.iter().map(line).collect();
        let ends = |(a, b)| (map.apply(a), map.apply(b));
        image.grain = self.grain.map(ends);
        image.pile = self.pile.map(ends);
        image.marks = self.marks.iter().map(|mark| mark.transformed(map)).collect();
        image.notches = self.notches.iter().map(|mark| mark.transformed(map)).collect();
        image.axis_images.clone_from(&self.axis_images);
        if !image.images_hold() {
            image.axis_images.clear();
        }
        image
    }
}

/// Refuses a measure that is not a finite number above zero, or above 20 m.
pub(super) fn positive(what: Measure, value: f64) -> Result<(), ShapeError> {
    if !value.is_finite() || value <= 0.0 {
        return Err(ShapeError::NotPositive { what, value });
    }
    if value > LARGEST {
        return Err(ShapeError::TooLarge { what, value, limit: LARGEST });
    }
    Ok(())
}

fn check_extent(path: &Path) -> Result<(), ShapeError> {
    if !path.is_finite() {
        return Err(ShapeError::NotFinite);
    }
    if !path.closed() {
        return Err(ShapeError::Open { gap: path.end().distance(path.start) });
    }
    let bounds = measure::bbox(path);
    let corner = [bounds.min.x, bounds.min.y, bounds.max.x, bounds.max.y];
    let far = corner.iter().fold(0.0_f64, |far, value| far.max(value.abs()));
    let value = bounds.width().max(bounds.height()).max(far * 0.1);
    if value > LARGEST {
        return Err(ShapeError::TooLarge { what: Measure::Extent, value, limit: LARGEST });
    }
    Ok(())
}

/// Points must have names of their own and places of their own.
fn check_names(points: &[Named]) -> Result<(), ShapeError> {
    let mut seen = std::collections::BTreeSet::new();
    for point in points {
        if !seen.insert(point.id.as_str()) {
            return Err(ShapeError::IdTaken { id: point.id.clone() });
        }
    }
    for (one, next) in points.iter().zip(points.iter().skip(1)) {
        if one.at == next.at {
            return Err(ShapeError::TooClose { id: next.id.clone(), other: one.id.clone(), distance: 0.0 });
        }
    }
    Ok(())
}

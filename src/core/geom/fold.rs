//! A half outline opened at its fold.

use super::affine::Affine;
use super::error::ShapeError;
use super::flatten::flatten;
use super::outline::{InternalLine, Mark, Outline, Run};
use super::path::{Path, Segment};
use super::point::Point;
use std::collections::BTreeMap;

/// How far a fold may leave the straight line, in mm.
const STRAIGHT: f64 = 0.05;

impl Outline {
    /// The whole outline, of which this is one half and the run a-b the fold.
    ///
    /// The half keeps its curves; the other half is made of the same control points mirrored, so
    /// that both are the same length to the last bit for an upright or level fold. Every point
    /// off the fold gains an image with `~` behind its name, and so does every line; both ends of
    /// the fold are their own image. Whether the outline meets the fold square can be asked of
    /// [`Outline::turn_at`] on the result.
    ///
    /// # Errors
    /// No such run; a run that is not straight within 0.05 mm; a whole that touches itself.
    pub fn unfolded(&self, a: &str, b: &str) -> Result<Self, ShapeError> {
        let found = self.run_between(a, b)?;
        let runs = self.runs();
        let (before, after) = runs.split_at(found.index);
        let Some((fold, after)) = after.split_first() else {
            return Err(ShapeError::NoArea);
        };
        let (first, second) = fold_ends(fold)?;
        let axis = Affine::reflection(first, second);
        let kept: Vec<&Run> = after.iter().chain(before).collect();
        let (path, named) = self.doubled(&kept, (first, second), &axis);
        let mut whole = Self::assemble(path, named)?;
        whole.axis_images = images(&kept, fold);
        whole.grain = self.grain;
        whole.pile = self.pile;
        whole.marks = self.marks.iter().flat_map(|mark| mark_with_image(mark, &axis)).collect();
        whole.notches = self.notches.iter().flat_map(|mark| mark_with_image(mark, &axis)).collect();
        whole.lines = self.lines.iter().flat_map(|line| with_image(line, &axis)).collect();
        whole.refuse_crossing()?;
        Ok(whole)
    }

    /// The kept half from the second end of the fold to the first, and its image back again.
    fn doubled(&self, kept: &[&Run], (first, second): (Point, Point), axis: &Affine) -> (Path, Vec<(String, usize)>) {
        let mut half = Path::new(second, Vec::new());
        let mut named = Vec::new();
        for run in kept {
            named.push((run.from.clone(), half.segments.len()));
            half.segments.extend(run.segments.iter().copied());
        }
        let count = half.segments.len();
        let inner: Vec<_> = named.iter().skip(1).map(|(id, at)| (format!("{id}~"), 2 * count - at)).collect();
        named.extend(kept.last().map(|run| (run.to.clone(), count)));
        named.extend(inner);
        let mut back = half.transformed(axis).reversed();
        // The ends of the fold are their own image, to the bit.
        if let Some(Segment::Cubic(_, _, end) | Segment::Line(end)) = back.segments.last_mut() {
            *end = second;
        }
        debug_assert!(back.start.distance(first) < STRAIGHT);
        half.segments.extend(back.segments);
        (half, named)
    }
}

/// Both ends of a fold that is straight.
fn fold_ends(fold: &Run) -> Result<(Point, Point), ShapeError> {
    let path = fold.path();
    let (first, second) = (path.start, path.end());
    let off = |point: &Point| point.distance_to_edge(first, second);
    let deviation = flatten(&path, STRAIGHT * 0.1).iter().map(off).fold(0.0, f64::max);
    if deviation > STRAIGHT {
        return Err(ShapeError::FoldNotStraight { run: fold.ends(), deviation });
    }
    Ok((first, second))
}

fn images(kept: &[&Run], fold: &Run) -> BTreeMap<String, String> {
    let mut images = BTreeMap::new();
    images.insert(fold.from.clone(), fold.from.clone());
    images.insert(fold.to.clone(), fold.to.clone());
    for run in kept.iter().skip(1) {
        images.insert(run.from.clone(), format!("{}~", run.from));
        images.insert(format!("{}~", run.from), run.from.clone());
    }
    images
}

fn with_image(line: &InternalLine, axis: &Affine) -> [InternalLine; 2] {
    let image = InternalLine { id: format!("{}~", line.id), path: line.path.transformed(axis) };
    [line.clone(), image]
}

/// A mark off the fold has an image; one on it is its own.
fn mark_with_image(mark: &Mark, axis: &Affine) -> Vec<Mark> {
    let image = Mark { id: format!("{}~", mark.id), at: axis.apply(mark.at) };
    if image.at.distance(mark.at) <= STRAIGHT * 2.0 { vec![mark.clone()] } else { vec![mark.clone(), image] }
}

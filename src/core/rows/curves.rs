//! Outlines as curves of a drawing, y down.

use crate::compute::Drawn;
use crate::geom::{Affine, Outline, Path, Point, Segment as Curve};
use crate::model::Piece;
use crate::model::assembly::{Instance, sewn_cut};
use crate::scene::{At, Segment};

/// The cut line of the layer that is sewn, as curves, and whether it lies outside the sew line; the sew line itself
/// where no cut line is known.
pub fn cut_paths(drawn: &Drawn, piece: &Piece, size: &str, sew: &Outline) -> (Vec<Path>, bool) {
    let cut_id = sewn_cut(piece).map_or("", |cut| cut.entry.id.value.as_str());
    match drawn.cut(&piece.entry.id.value, size, cut_id).known() {
        Some(shape) => (shape.curves(), shape.area > sew.area() + 1e-6),
        None => (vec![sew.path.clone()], false),
    }
}

/// A point of a piece (y up) as drawn (y down).
pub fn page(point: Point) -> At {
    [point.x, -point.y]
}

/// A piece as it lies before the sewer: a mirrored copy is the image across its height.
pub fn facing(instance: &Instance) -> Affine {
    Affine { xx: if instance.mirrored { -1.0 } else { 1.0 }, xy: 0.0, yx: 0.0, yy: 1.0, dx: 0.0, dy: 0.0 }
}

/// A path as drawn.
pub fn segments(path: &Path, close: bool) -> Vec<Segment> {
    let mut all = vec![Segment::Move(page(path.start))];
    all.extend(path.segments.iter().map(|segment| match segment {
        Curve::Line(end) => Segment::Line(page(*end)),
        Curve::Cubic(a, b, end) => Segment::Cubic(page(*a), page(*b), page(*end)),
    }));
    if close {
        all.push(Segment::Close);
    }
    all
}

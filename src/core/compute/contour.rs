//! The line one layer of a piece is cut along, with what is measured on it.

use crate::geom::{CutLine, Outline, Path, Point, Segment, fit, measure};

/// How near curves pass the corners of a cut line, mm.
const FIT: f64 = 0.004;

/// A line of so few straight pieces has no curves.
const FEW: usize = 12;

/// The line one layer of a piece is cut along.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// Closed paths in mm: the outer line first, then holes. Curves where the cut line itself was drawn, else straight
    /// pieces on the grid, within 0.01 mm of the curve.
    pub paths: Vec<Path>,
    /// Area of material, mm².
    pub area: f64,
    /// Length of the cut, mm.
    pub perimeter: f64,
}

impl Shape {
    pub(crate) fn of(outline: &Outline) -> Shape {
        Shape { paths: vec![outline.path.clone()], area: outline.area(), perimeter: outline.perimeter() }
    }

    pub(crate) fn offset(line: &CutLine) -> Shape {
        let closed = |points: Vec<Point>| {
            let first = points.first().copied();
            Path::polyline(points.into_iter().chain(first))
        };
        let paths = line.contours.iter().map(|contour| closed(contour.to_points())).collect();
        Shape { paths, area: line.area(), perimeter: line.perimeter() }
    }

    /// The same lines as curves within 0.01 mm: for drawings, whose files they keep small.
    pub fn curves(&self) -> Vec<Path> {
        let straight = |path: &Path| path.segments.iter().all(|segment| matches!(segment, Segment::Line(_)));
        let curved = |path: &Path| match straight(path) && path.segments.len() > FEW {
            true => {
                let corners: Vec<Point> = path.pieces().map(|(start, _)| start).collect();
                fit::fitted(&corners, FIT)
            }
            false => path.clone(),
        };
        self.paths.iter().map(curved).collect()
    }

    /// Width square to the direction `along`, and height in it, mm.
    pub fn extent(&self, along: Point) -> (f64, f64) {
        let up = along.unit().unwrap_or(Point::new(0.0, 1.0));
        let turn = crate::geom::Affine { xx: up.y, xy: -up.x, yx: up.x, yy: up.y, dx: 0.0, dy: 0.0 };
        let boxes = self.paths.iter().map(|path| measure::bbox(&path.transformed(&turn)));
        let whole = boxes.reduce(|a, b| a.with(b.min).with(b.max));
        whole.map_or((0.0, 0.0), |bounds| (bounds.width(), bounds.height()))
    }
}

//! Path data: `d` of a path, into lines and cubic curves.

use svgtypes::{PathParser, PathSegment};

use crate::geom::{Path, Point, Segment};

use super::arc::Arc;

/// Lines of a path in user units; the flag says whether a line was closed.
#[derive(Debug, Default)]
pub struct Pen {
    /// Finished lines.
    pub lines: Vec<(Path, bool)>,
    start: Point,
    at: Point,
    segments: Vec<Segment>,
    /// The last control point, and whether it was of a cubic curve: what smooth curves go on from.
    control: Option<(Point, bool)>,
}

/// The lines of path data.
///
/// # Errors
/// In words for the user: where the data stop making sense.
pub fn lines(data: &str) -> Result<Vec<(Path, bool)>, String> {
    let mut pen = Pen::default();
    for segment in PathParser::from(data) {
        pen.draw(segment.map_err(|error| error.to_string())?);
    }
    pen.lift(false);
    Ok(pen.lines)
}

impl Pen {
    /// Ends the line that is being drawn.
    fn lift(&mut self, closed: bool) {
        let segments = std::mem::take(&mut self.segments);
        if !segments.is_empty() {
            self.lines.push((Path::new(self.start, segments), closed));
        }
        self.at = if closed { self.start } else { self.at };
        self.start = self.at;
    }

    fn draw(&mut self, segment: PathSegment) {
        let from = self.at;
        let place = |abs: bool, x: f64, y: f64| if abs { Point::new(x, y) } else { from + Point::new(x, y) };
        let control = self.control.take();
        // The mirror image of the last control point if the last curve was of the same kind.
        let smooth = |cubic: bool| match control {
            Some((point, kind)) if kind == cubic => from + (from - point),
            _ => from,
        };
        match segment {
            PathSegment::MoveTo { abs, x, y } => {
                self.lift(false);
                self.at = place(abs, x, y);
                self.start = self.at;
            }
            PathSegment::LineTo { abs, x, y } => self.line(place(abs, x, y)),
            PathSegment::HorizontalLineTo { abs, x } => {
                self.line(Point::new(if abs { x } else { from.x + x }, from.y));
            }
            PathSegment::VerticalLineTo { abs, y } => {
                self.line(Point::new(from.x, if abs { y } else { from.y + y }));
            }
            PathSegment::CurveTo { abs, x1, y1, x2, y2, x, y } => {
                self.cubic(place(abs, x1, y1), place(abs, x2, y2), place(abs, x, y));
            }
            PathSegment::SmoothCurveTo { abs, x2, y2, x, y } => {
                self.cubic(smooth(true), place(abs, x2, y2), place(abs, x, y));
            }
            PathSegment::Quadratic { abs, x1, y1, x, y } => self.quadratic(place(abs, x1, y1), place(abs, x, y)),
            PathSegment::SmoothQuadratic { abs, x, y } => self.quadratic(smooth(false), place(abs, x, y)),
            PathSegment::EllipticalArc { abs, rx, ry, x_axis_rotation, large_arc, sweep, x, y } => {
                let end = place(abs, x, y);
                let arc = Arc { radii: (rx, ry), turn: x_axis_rotation, large: large_arc, sweep };
                self.segments.extend(arc.curves(from, end));
                self.at = end;
            }
            PathSegment::ClosePath { .. } => self.lift(true),
        }
    }

    fn line(&mut self, end: Point) {
        self.segments.push(Segment::Line(end));
        self.at = end;
    }

    fn cubic(&mut self, a: Point, b: Point, end: Point) {
        self.segments.push(Segment::Cubic(a, b, end));
        self.control = Some((b, true));
        self.at = end;
    }

    /// A quadratic curve is a cubic one exactly, its control points two thirds of the way to the one it has.
    fn quadratic(&mut self, control: Point, end: Point) {
        let third = |from: Point| from + (control - from) * (2.0 / 3.0);
        self.segments.push(Segment::Cubic(third(self.at), third(end), end));
        self.control = Some((control, false));
        self.at = end;
    }
}

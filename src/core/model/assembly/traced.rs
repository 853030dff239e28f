//! Outlines from drawings.

use crate::geom::place::REACH;
use crate::geom::{InternalLine, Mark, Outline, Path, Point, ShapeError, flatten};
use crate::model::{Model, OutlineSource, Piece, Sketch, SvgSource, Traced, Unseen};
use crate::source::Span;

use super::gap::{Fault, Gap};

/// The fewest named points an outline has: runs between two would be ambiguous.
const FEWEST: usize = 3;
/// How closely a notch's line is followed, mm.
const FINE: f64 = 0.002;

/// The outline of a piece as it is drawn.
pub(super) fn outline(model: &Model, piece: &Piece, source: &OutlineSource, svg: &SvgSource) -> Result<Outline, Gap> {
    let drawing = model.drawings.get(&svg.path.value).ok_or(Gap::Unread)?;
    let name = svg.name(piece);
    let sketch = drawing.sketch(name).map_err(|unseen| unseen_gap(unseen, name, svg))?;
    let path = single(sketch.outline, name, svg)?;
    let shown = sketch.points.len();
    if (shown + source.points.len() < FEWEST) || (source.fold.is_some() && shown < FEWEST) {
        return Err(fault(Fault::TooFewPoints, sketch.outline.span, format!("{name} has {shown} named points"), svg));
    }
    let points: Vec<(String, Point)> =
        sketch.points.iter().map(|(id, point)| ((*id).to_string(), point.centre)).collect();
    let mut outline = Outline::from_path(path, &points).map_err(|error| refused(&error, &sketch, svg))?;
    outline.grain = direction(sketch.grain, "grain", svg)?;
    outline.pile = direction(sketch.pile, "pile", svg)?;
    for (id, line) in &sketch.lines {
        let path = single(line, &format!("the line {id}"), svg)?;
        outline.lines.push(InternalLine { id: (*id).to_string(), path });
    }
    outline.marks = sketch.marks.iter().map(|(id, mark)| Mark { id: (*id).to_string(), at: mark.centre }).collect();
    for (id, notch) in &sketch.notches {
        let at = meeting(&outline, notch).ok_or_else(|| {
            fault(Fault::OffOutline, notch.span, format!("the notch {id} does not meet the outline"), svg)
        })?;
        outline.notches.push(Mark { id: (*id).to_string(), at });
    }
    Ok(outline)
}

/// A defect at an element of the drawing, with the place that names the drawing.
fn fault(fault: Fault, span: Span, message: String, svg: &SvgSource) -> Gap {
    Gap::Defect { span, message, fault, also: vec![(svg.path.span, "drawn here".to_string())] }
}

fn unseen_gap(unseen: Unseen, name: &str, svg: &SvgSource) -> Gap {
    match unseen {
        Unseen::Nowhere(known) => {
            let shown = if known.is_empty() { String::new() } else { format!("; it has {}", some(&known)) };
            let message = format!("{} draws no outline named {name}{shown}", svg.path.value);
            Gap::Defect { span: svg.path.span, message, fault: Fault::NotDrawn, also: Vec::new() }
        }
        Unseen::Twice(twice, places) => {
            let message = format!("{} draws {} shapes named {twice}", svg.path.value, places.len());
            let span = places.get(1).copied().unwrap_or(svg.path.span);
            let also = places.first().map(|place| (*place, "the other".to_string()));
            let also = also.into_iter().chain([(svg.path.span, "drawn here".to_string())]).collect();
            Gap::Defect { span, message, fault: Fault::DuplicatePoint, also }
        }
    }
}

/// Names for a message, not too many of them.
fn some(names: &[String]) -> String {
    let first: Vec<&str> = names.iter().take(8).map(String::as_str).collect();
    let more = if names.len() > first.len() { " and others" } else { "" };
    format!("{}{more}", first.join(", "))
}

/// The one line of a shape.
fn single(shape: &Traced, what: &str, svg: &SvgSource) -> Result<Path, Gap> {
    match shape.paths.as_slice() {
        [one] => Ok(one.clone()),
        many => {
            let message = format!("{what} is {} separate lines, and must be one", many.len());
            Err(fault(Fault::Other, shape.span, message, svg))
        }
    }
}

/// A refused shape, at the elements it is about.
fn refused(error: &ShapeError, sketch: &Sketch<'_>, svg: &SvgSource) -> Gap {
    let place = |id: &str| sketch.points.iter().find(|(name, _)| *name == id).map(|(_, shape)| shape.span);
    let (span, other) = match error {
        ShapeError::OffOutline { id, .. } | ShapeError::IdTaken { id } => (place(id), None),
        ShapeError::TooClose { id, other, .. } => (place(id), place(other)),
        _ => (None, None),
    };
    let mut also: Vec<(Span, String)> = other.map(|span| (span, "too near".to_string())).into_iter().collect();
    also.push((svg.path.span, "drawn here".to_string()));
    let span = span.unwrap_or(sketch.outline.span);
    Gap::Defect { span, message: said(error, sketch), fault: Fault::of(error), also }
}

/// A refused shape in words; of points too near their distance as drawn, not as moved onto each other.
fn said(error: &ShapeError, sketch: &Sketch<'_>) -> String {
    let centre = |wanted: &str| sketch.points.iter().find(|(id, _)| *id == wanted).map(|(_, shape)| shape.centre);
    match error {
        ShapeError::TooClose { id, other, distance } => {
            let drawn = centre(id).zip(centre(other)).map(|(a, b)| a.distance(b));
            let distance = drawn.filter(|drawn| drawn > distance).unwrap_or(*distance);
            ShapeError::TooClose { id: id.clone(), other: other.clone(), distance }.to_string()
        }
        _ => error.to_string(),
    }
}

/// Both ends of a direction line.
fn direction(shape: Option<&Traced>, what: &str, svg: &SvgSource) -> Result<Option<(Point, Point)>, Gap> {
    let Some(shape) = shape else { return Ok(None) };
    let path = single(shape, &format!("the {what} line"), svg)?;
    let (a, b) = (path.start, path.end());
    if a == b {
        let message = format!("the {what} line ends where it begins, and shows no direction");
        return Err(fault(Fault::Other, shape.span, message, svg));
    }
    Ok(Some((a, b)))
}

/// Where a notch's line meets the outline: where it crosses it, else the end of it that lies on it.
fn meeting(outline: &Outline, notch: &Traced) -> Option<Point> {
    let edge = flatten(&outline.path, FINE);
    let around: Vec<(Point, Point)> = edge.iter().copied().zip(edge.iter().copied().cycle().skip(1)).collect();
    let mut ends = Vec::new();
    for path in &notch.paths {
        let corners = flatten(path, FINE);
        for (a, b) in corners.iter().zip(corners.iter().skip(1)) {
            if let Some(place) = around.iter().find_map(|(c, d)| crossing(*a, *b, *c, *d)) {
                return Some(outline.nearest(place).0);
            }
        }
        ends.extend([path.start, path.end()]);
    }
    let near = ends.into_iter().map(|end| outline.nearest(end)).min_by(|a, b| a.1.total_cmp(&b.1));
    near.filter(|(_, distance)| *distance <= REACH).map(|(place, _)| place)
}

/// Where two straight lines cross between their ends.
fn crossing(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (one, two) = (b - a, d - c);
    let cross = one.cross(two);
    let (t, s) = ((c - a).cross(two) / cross, (c - a).cross(one) / cross);
    (cross != 0.0 && (0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&s)).then(|| a.lerp(b, t))
}

//! Outlines from drawings.

use crate::geom::place::REACH;
use crate::geom::{InternalLine, Mark, Outline, Path, Point, ShapeError, flatten};
use crate::model::{Model, OutlineSource, Piece, Sketch, SvgSource, Traced, Unseen};
use crate::source::Span;
use crate::words::{Phrase, say, words};

use super::gap::{Fault, Gap};
use super::shape;

words! {
    FEW_POINTS "traced.few-points" = "{name} has {shown} named points";
    LINE "traced.line" = "the line {id}";
    NOTCH_OFF "traced.notch-off" = "the notch {id} does not meet the outline";
    HERE "traced.here" = "drawn here";
    NOT_DRAWN "traced.not-drawn" = "{drawing} draws no outline named {name}{known}";
    KNOWN "traced.known" = "; it has {names}";
    TWICE "traced.twice" = "{drawing} draws {count} shapes named {name}";
    OTHER "traced.other" = "the other";
    OTHERS "traced.others" = "{names} and others";
    SEPARATE "traced.separate" = "{what} is {count} separate lines, and must be one";
    NEAR "traced.near" = "too near";
    GRAIN "traced.grain" = "the grain line";
    PILE "traced.pile" = "the pile line";
    NO_DIRECTION "traced.no-direction" = "{what} ends where it begins, and shows no direction";
}

/// The fewest named points an outline has: runs between two would be ambiguous.
const FEWEST: usize = 3;
/// How closely a notch's line is followed, mm.
const FINE: f64 = 0.002;

/// Names that a sentence lists at most.
const SHOWN: usize = 8;

/// The outline of a piece as it is drawn.
pub(super) fn outline(model: &Model, piece: &Piece, source: &OutlineSource, svg: &SvgSource) -> Result<Outline, Gap> {
    let drawing = model.drawings.get(&svg.path.value).ok_or(Gap::Unread)?;
    let name = svg.name(piece);
    let sketch = drawing.sketch(name).map_err(|unseen| unseen_gap(unseen, name, svg))?;
    let path = single(sketch.outline, &name.into(), svg)?;
    let shown = sketch.points.len();
    if (shown + source.points.len() < FEWEST) || (source.fold.is_some() && shown < FEWEST) {
        return Err(fault(Fault::TooFewPoints, sketch.outline.span, say!(FEW_POINTS, name, shown), svg));
    }
    let points: Vec<(String, Point)> =
        sketch.points.iter().map(|(id, point)| ((*id).to_string(), point.centre)).collect();
    let mut outline = Outline::from_path(path, &points).map_err(|error| refused(&error, &sketch, svg))?;
    outline.grain = direction(sketch.grain, &GRAIN.into(), svg)?;
    outline.pile = direction(sketch.pile, &PILE.into(), svg)?;
    for (id, line) in &sketch.lines {
        let path = single(line, &say!(LINE, id), svg)?;
        outline.lines.push(InternalLine { id: (*id).to_string(), path });
    }
    outline.marks = sketch.marks.iter().map(|(id, mark)| Mark { id: (*id).to_string(), at: mark.centre }).collect();
    for (id, notch) in &sketch.notches {
        let at =
            meeting(&outline, notch).ok_or_else(|| fault(Fault::OffOutline, notch.span, say!(NOTCH_OFF, id), svg))?;
        outline.notches.push(Mark { id: (*id).to_string(), at });
    }
    Ok(outline)
}

/// A defect at an element of the drawing, with the place that names the drawing.
fn fault(fault: Fault, span: Span, message: Phrase, svg: &SvgSource) -> Gap {
    Gap::Defect { span, message, fault, also: vec![(svg.path.span, HERE.into())] }
}

fn unseen_gap(unseen: Unseen, name: &str, svg: &SvgSource) -> Gap {
    match unseen {
        Unseen::Nowhere(known) => {
            let known = if known.is_empty() { Phrase::none() } else { say!(KNOWN, names = some(&known)) };
            let message = say!(NOT_DRAWN, drawing = &svg.path.value, name, known);
            Gap::Defect { span: svg.path.span, message, fault: Fault::NotDrawn, also: Vec::new() }
        }
        Unseen::Twice(twice, places) => {
            let message = say!(TWICE, drawing = &svg.path.value, count = places.len(), name = twice);
            let span = places.get(1).copied().unwrap_or(svg.path.span);
            let also = places.first().map(|place| (*place, Phrase::from(OTHER)));
            let also = also.into_iter().chain([(svg.path.span, HERE.into())]).collect();
            Gap::Defect { span, message, fault: Fault::DuplicatePoint, also }
        }
    }
}

/// Names for a sentence, not too many of them.
fn some(names: &[String]) -> Phrase {
    let first = Phrase::list(names.iter().take(SHOWN));
    if names.len() > SHOWN { say!(OTHERS, names = first) } else { first }
}

/// The one line of a shape.
fn single(shape: &Traced, what: &Phrase, svg: &SvgSource) -> Result<Path, Gap> {
    match shape.paths.as_slice() {
        [one] => Ok(one.clone()),
        many => {
            let message = say!(SEPARATE, what, count = many.len());
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
    let mut also: Vec<(Span, Phrase)> = other.map(|span| (span, NEAR.into())).into_iter().collect();
    also.push((svg.path.span, HERE.into()));
    let span = span.unwrap_or(sketch.outline.span);
    Gap::Defect { span, message: said(error, sketch), fault: Fault::of(error), also }
}

/// A refused shape in words; of points too near their distance as drawn, not as moved onto each other.
fn said(error: &ShapeError, sketch: &Sketch<'_>) -> Phrase {
    let centre = |wanted: &str| sketch.points.iter().find(|(id, _)| *id == wanted).map(|(_, shape)| shape.centre);
    match error {
        ShapeError::TooClose { id, other, distance } => {
            let drawn = centre(id).zip(centre(other)).map(|(a, b)| a.distance(b));
            let distance = drawn.filter(|drawn| drawn > distance).unwrap_or(*distance);
            shape::shape(&ShapeError::TooClose { id: id.clone(), other: other.clone(), distance })
        }
        _ => shape::shape(error),
    }
}

/// Both ends of a direction line.
fn direction(shape: Option<&Traced>, what: &Phrase, svg: &SvgSource) -> Result<Option<(Point, Point)>, Gap> {
    let Some(shape) = shape else { return Ok(None) };
    let path = single(shape, what, svg)?;
    let (a, b) = (path.start, path.end());
    if a == b {
        return Err(fault(Fault::Other, shape.span, say!(NO_DIRECTION, what), svg));
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

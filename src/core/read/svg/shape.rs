//! Basic shapes and paths as lines and cubic curves, in user units.

use std::f64::consts::PI;
use std::str::FromStr;

use roxmltree::Node;
use svgtypes::{Length, NumberListParser};

use crate::geom::{Affine, Path, Point, Segment};
use crate::words::{Phrase, words};

use super::arc::{Arc, circle};
use super::{page, path};

words! {
    PAGE_UNIT "read.svg.page-unit" = "the unit depends on the page or a font";
    LEFT_OVER "read.svg.left-over" = "a number is left over: every corner has two";
}

/// What an element draws.
#[derive(Debug, Default)]
pub struct Figure {
    /// Its lines; the flag says whether a line is closed.
    pub lines: Vec<(Path, bool)>,
    /// The centre of a circle or ellipse.
    pub centre: Option<Point>,
}

/// Elements that draw a shape.
pub const SHAPES: &[&str] = &["path", "rect", "circle", "ellipse", "line", "polyline", "polygon"];

/// The shape of an element that draws one; nothing for one without extent, which SVG does not draw.
///
/// # Errors
/// In words for the user: the attribute and what is wrong with it.
pub fn figure(node: Node<'_, '_>) -> Result<Figure, (&'static str, Phrase)> {
    let lines = match node.tag_name().name() {
        "path" => path::lines(node.attribute("d").unwrap_or_default()).map_err(|error| ("d", error.into()))?,
        "rect" => rectangle(node)?,
        "circle" | "ellipse" => return ellipse(node),
        "line" => {
            let end = |x, y| Ok(Point::new(length(node, x)?.unwrap_or(0.0), length(node, y)?.unwrap_or(0.0)));
            vec![(Path::polyline([end("x1", "y1")?, end("x2", "y2")?]), false)]
        }
        "polyline" => vec![(corners(node)?, false)],
        "polygon" => vec![(corners(node)?, true)],
        _ => Vec::new(),
    };
    Ok(Figure { lines: lines.into_iter().filter(|(path, _)| !path.segments.is_empty()).collect(), centre: None })
}

fn length(node: Node<'_, '_>, name: &'static str) -> Result<Option<f64>, (&'static str, Phrase)> {
    let Some(text) = node.attribute(name).map(str::trim).filter(|text| *text != "auto") else { return Ok(None) };
    let length = Length::from_str(text).map_err(|error| (name, error.to_string().into()))?;
    let unit = page::pixels(length.unit);
    let unit = unit.ok_or_else(|| (name, PAGE_UNIT.into()))?;
    Ok(Some(length.number * unit))
}

/// SVG 2, 10.2: radii default to each other and are at most half a side.
fn rectangle(node: Node<'_, '_>) -> Result<Vec<(Path, bool)>, (&'static str, Phrase)> {
    let at = |name| Ok(length(node, name)?.unwrap_or(0.0));
    let (x, y, w, h) = (at("x")?, at("y")?, at("width")?, at("height")?);
    if w <= 0.0 || h <= 0.0 {
        return Ok(Vec::new());
    }
    let (rx, ry) = (length(node, "rx")?, length(node, "ry")?);
    let rx_or = rx.or(ry).unwrap_or(0.0).clamp(0.0, w * 0.5);
    let ry_or = ry.or(rx).unwrap_or(0.0).clamp(0.0, h * 0.5);
    let corner = |x: f64, y: f64| Point::new(x, y);
    if rx_or == 0.0 || ry_or == 0.0 {
        let path = Path::polyline([corner(x, y), corner(x + w, y), corner(x + w, y + h), corner(x, y + h)]);
        return Ok(vec![(path, true)]);
    }
    let arc = Arc { radii: (rx_or, ry_or), turn: 0.0, large: false, sweep: true };
    let (l, r, t, b) = (x + rx_or, x + w - rx_or, y + ry_or, y + h - ry_or);
    let ends = [
        (corner(r, y), corner(x + w, t)),
        (corner(x + w, b), corner(r, y + h)),
        (corner(l, y + h), corner(x, b)),
        (corner(x, t), corner(l, y)),
    ];
    let mut path = Path::new(corner(l, y), Vec::new());
    for (from, to) in ends {
        if path.end() != from {
            path.segments.push(Segment::Line(from));
        }
        path.segments.extend(arc.curves(from, to));
    }
    Ok(vec![(path, true)])
}

fn ellipse(node: Node<'_, '_>) -> Result<Figure, (&'static str, Phrase)> {
    let at = |name| Ok(length(node, name)?.unwrap_or(0.0));
    let centre = Point::new(at("cx")?, at("cy")?);
    let (rx, ry) = match node.tag_name().name() {
        "circle" => (length(node, "r")?, None),
        _ => (length(node, "rx")?, length(node, "ry")?),
    };
    let (Some(rx), Some(ry)) = (rx.or(ry), ry.or(rx)) else { return Ok(Figure::default()) };
    if rx <= 0.0 || ry <= 0.0 {
        return Ok(Figure::default());
    }
    let map = Affine { xx: rx, yy: ry, dx: centre.x, dy: centre.y, xy: 0.0, yx: 0.0 };
    let mut path = Path::new(Point::new(1.0, 0.0), circle(0.0, 2.0 * PI)).transformed(&map);
    let start = path.start;
    if let Some(Segment::Cubic(_, _, end)) = path.segments.last_mut() {
        *end = start;
    }
    Ok(Figure { lines: vec![(path, true)], centre: Some(centre) })
}

fn corners(node: Node<'_, '_>) -> Result<Path, (&'static str, Phrase)> {
    let mut numbers = Vec::new();
    for number in NumberListParser::from(node.attribute("points").unwrap_or_default()) {
        numbers.push(number.map_err(|error| ("points", error.to_string().into()))?);
    }
    let pairs = numbers.chunks_exact(2);
    if !pairs.remainder().is_empty() {
        return Err(("points", LEFT_OVER.into()));
    }
    Ok(Path::polyline(pairs.filter_map(|pair| Some(Point::new(*pair.first()?, *pair.last()?)))))
}

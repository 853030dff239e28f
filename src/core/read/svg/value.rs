//! Values of attributes and properties as they are handed on with a view: only what the grammar of SVG knows.

use std::str::FromStr;

use svgtypes::{AspectRatio, Color, Length, LengthUnit, NumberListParser, Paint, PaintFallback, PathParser, ViewBox};

use crate::geom::Point;

use super::transform;

/// No number of a drawing is larger.
const LARGEST: f64 = 1e9;
/// Lengths of a dash pattern.
const DASHES: usize = 64;

/// What a value can be.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// A length or a share.
    Length,
    /// A number or a share.
    Number,
    /// Lengths one after the other.
    Dashes,
    /// Path data.
    Path,
    /// Corners.
    Points,
    /// Transformations.
    Transform,
    /// Four numbers.
    ViewBox,
    /// How a drawing fits into its place.
    Aspect,
    /// `auto` or an angle.
    Turn,
    /// One of some words.
    Word(&'static [&'static str]),
    /// Colour, none, or a reference to a gradient or pattern.
    Paint,
    /// Colour.
    Colour,
    /// A reference, `url(#id)`.
    Reference,
}

/// A value that is handed on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kept<'a> {
    /// Text that can stand in an attribute.
    Text(String),
    /// A reference to an element of the drawing, and what holds if it is not there.
    Reference(&'a str, String),
}

const UNITS: &[&str] = &["userSpaceOnUse", "objectBoundingBox"];
const RULES: &[&str] = &["nonzero", "evenodd", "inherit"];

/// Properties of the look that are handed on.
pub const LOOK: &[(&str, Kind)] = &[
    ("fill", Kind::Paint),
    ("stroke", Kind::Paint),
    ("color", Kind::Colour),
    ("stop-color", Kind::Colour),
    ("opacity", Kind::Number),
    ("fill-opacity", Kind::Number),
    ("stroke-opacity", Kind::Number),
    ("stop-opacity", Kind::Number),
    ("fill-rule", Kind::Word(RULES)),
    ("clip-rule", Kind::Word(RULES)),
    ("stroke-width", Kind::Length),
    ("stroke-linecap", Kind::Word(&["butt", "round", "square", "inherit"])),
    ("stroke-linejoin", Kind::Word(&["miter", "round", "bevel", "inherit"])),
    ("stroke-miterlimit", Kind::Number),
    ("stroke-dasharray", Kind::Dashes),
    ("stroke-dashoffset", Kind::Length),
    ("paint-order", Kind::Word(&["normal", "fill", "stroke", "markers", "stroke fill", "stroke fill markers"])),
    ("visibility", Kind::Word(&["visible", "hidden", "collapse", "inherit"])),
    ("clip-path", Kind::Reference),
    ("mask", Kind::Reference),
    ("marker-start", Kind::Reference),
    ("marker-mid", Kind::Reference),
    ("marker-end", Kind::Reference),
];

/// Attributes of form and place that are handed on.
pub const FORM: &[(&str, Kind)] = &[
    ("d", Kind::Path),
    ("points", Kind::Points),
    ("transform", Kind::Transform),
    ("gradientTransform", Kind::Transform),
    ("patternTransform", Kind::Transform),
    ("x", Kind::Length),
    ("y", Kind::Length),
    ("x1", Kind::Length),
    ("y1", Kind::Length),
    ("x2", Kind::Length),
    ("y2", Kind::Length),
    ("width", Kind::Length),
    ("height", Kind::Length),
    ("cx", Kind::Length),
    ("cy", Kind::Length),
    ("r", Kind::Length),
    ("rx", Kind::Length),
    ("ry", Kind::Length),
    ("fx", Kind::Length),
    ("fy", Kind::Length),
    ("fr", Kind::Length),
    ("offset", Kind::Number),
    ("refX", Kind::Length),
    ("refY", Kind::Length),
    ("markerWidth", Kind::Length),
    ("markerHeight", Kind::Length),
    ("markerUnits", Kind::Word(&["strokeWidth", "userSpaceOnUse"])),
    ("orient", Kind::Turn),
    ("viewBox", Kind::ViewBox),
    ("preserveAspectRatio", Kind::Aspect),
    ("gradientUnits", Kind::Word(UNITS)),
    ("spreadMethod", Kind::Word(&["pad", "reflect", "repeat"])),
    ("patternUnits", Kind::Word(UNITS)),
    ("patternContentUnits", Kind::Word(UNITS)),
    ("clipPathUnits", Kind::Word(UNITS)),
    ("maskUnits", Kind::Word(UNITS)),
    ("maskContentUnits", Kind::Word(UNITS)),
];

/// The value as it is handed on; none if it is not of its kind.
pub fn kept(kind: Kind, text: &str) -> Option<Kept<'_>> {
    let text = text.trim();
    let same = |fits: bool| fits.then(|| Kept::Text(text.to_string()));
    match kind {
        Kind::Length => same(length(text)),
        Kind::Number => same(number(text)),
        Kind::Dashes => same(text == "none" || text == "inherit" || dashes(text)),
        Kind::Path => same(PathParser::from(text).all(|one| one.is_ok())),
        Kind::Points => same(NumberListParser::from(text).all(|one| one.is_ok())),
        Kind::Transform => same(transform::map(text).is_ok_and(|map| map.apply(Point::new(1.0, 1.0)).is_finite())),
        Kind::ViewBox => same(ViewBox::from_str(text).is_ok()),
        Kind::Aspect => same(AspectRatio::from_str(text).is_ok()),
        Kind::Turn => same(matches!(text, "auto" | "auto-start-reverse") || number(text)),
        Kind::Word(words) => same(words.contains(&text)),
        Kind::Paint => paint(text),
        Kind::Colour if matches!(text, "inherit" | "currentColor") => same(true),
        Kind::Colour => Color::from_str(text).ok().map(|colour| Kept::Text(written(colour))),
        Kind::Reference if matches!(text, "none" | "inherit") => same(true),
        Kind::Reference => reference(text).map(|id| Kept::Reference(id, "none".into())),
    }
}

fn paint(text: &str) -> Option<Kept<'_>> {
    let word = |word: &str| Some(Kept::Text(word.to_string()));
    match Paint::from_str(text).ok()? {
        Paint::None => word("none"),
        Paint::Inherit => word("inherit"),
        Paint::CurrentColor => word("currentColor"),
        Paint::Color(colour) => Some(Kept::Text(written(colour))),
        Paint::FuncIRI(_, fallback) => {
            let fallback = match fallback {
                Some(PaintFallback::Color(colour)) => written(colour),
                Some(PaintFallback::CurrentColor) => "currentColor".into(),
                Some(PaintFallback::None) | None => "none".into(),
            };
            Some(Kept::Reference(reference(text)?, fallback))
        }
        Paint::ContextFill | Paint::ContextStroke => None,
    }
}

/// The id in `url(#id)`.
fn reference(text: &str) -> Option<&str> {
    let (inside, _) = text.strip_prefix("url(")?.split_once(')')?;
    inside.trim().trim_matches(['"', '\'']).strip_prefix('#')
}

/// A colour by its parts: always the same for the same colour.
fn written(colour: Color) -> String {
    let Color { red, green, blue, alpha } = colour;
    if alpha == u8::MAX {
        return format!("#{red:02x}{green:02x}{blue:02x}");
    }
    format!("rgba({red},{green},{blue},{:.3})", f64::from(alpha) / f64::from(u8::MAX))
}

fn length(text: &str) -> bool {
    let font = |unit: LengthUnit| matches!(unit, LengthUnit::Em | LengthUnit::Ex);
    Length::from_str(text).is_ok_and(|length| length.number.abs() <= LARGEST && !font(length.unit))
}

fn number(text: &str) -> bool {
    let number = text.strip_suffix('%').unwrap_or(text);
    svgtypes::Number::from_str(number).is_ok_and(|number| number.0.abs() <= LARGEST)
}

fn dashes(text: &str) -> bool {
    let parts: Vec<&str> = text.split([',', ' ', '\t', '\n', '\r']).filter(|part| !part.is_empty()).collect();
    !parts.is_empty() && parts.len() <= DASHES && parts.into_iter().all(length)
}

/// The ids in every `url(#id)` of a text.
pub fn references(text: &str) -> impl Iterator<Item = &str> {
    text.split("url(").skip(1).filter_map(|rest| {
        let (inside, _) = rest.split_once(')')?;
        inside.trim().trim_matches(['"', '\'']).strip_prefix('#')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(kind: Kind, text: &str) -> Option<String> {
        match kept(kind, text)? {
            Kept::Text(text) => Some(text),
            Kept::Reference(id, otherwise) => Some(format!("{id} else {otherwise}")),
        }
    }

    #[test]
    fn only_values_of_their_kind_are_kept() {
        assert_eq!(text(Kind::Paint, " RED ").as_deref(), Some("#ff0000"));
        assert_eq!(text(Kind::Paint, "rgba(0, 0, 0, 0.5)").as_deref(), Some("rgba(0,0,0,0.502)"));
        assert_eq!(text(Kind::Paint, "url( '#sky' ) #fff").as_deref(), Some("sky else #ffffff"));
        assert_eq!(text(Kind::Paint, "url(http://example.org/a#b)"), None);
        assert_eq!(text(Kind::Length, "1e308"), None);
        assert_eq!(text(Kind::Length, "NaN"), None);
        assert_eq!(text(Kind::Length, "2 mm; a note"), None);
        assert_eq!(text(Kind::Dashes, "2,1 3").as_deref(), Some("2,1 3"));
        assert_eq!(text(Kind::Dashes, "2,a secret"), None);
        assert_eq!(text(Kind::Path, "M0 0 L1 1 \"/><text>"), None);
        assert_eq!(text(Kind::Transform, "scale(1e200) scale(1e200)"), None);
    }
}

use std::collections::BTreeMap;

use crate::geom::{Outline, Place, Point, shape};
use crate::model::{Model, OutlineSource, Piece, PlacedPoint, ShapeSource, Size, Value, Variant};
use crate::source::Span;
use crate::units::{Dimension, Quantity};

/// Why a piece has no outline in a size.
#[derive(Debug, Clone, PartialEq)]
pub enum Gap {
    /// No outline is written.
    Missing,
    /// The factory makes the pattern.
    ByFactory,
    /// Not shown in this edition.
    Withheld,
    /// The value has none for this size.
    NoSize,
    /// What is written makes no shape.
    Defect {
        /// Where.
        span: Span,
        /// Why not.
        message: String,
    },
}

/// Outlines by piece and size, as drawn: sew line or cut line, in mm.
#[derive(Debug, Clone, Default)]
pub struct Outlines {
    by: BTreeMap<String, BTreeMap<String, Result<Outline, Gap>>>,
    scales: BTreeMap<String, BTreeMap<String, Scale>>,
}

/// How the outline of a size was scaled from the drawn one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Factor along the grain.
    pub along: f64,
    /// Factor across the grain.
    pub across: f64,
    /// Direction of the grain.
    pub grain: Point,
}

impl Outlines {
    /// Makes every outline of a model.
    pub fn of(model: &Model) -> Outlines {
        let mut all = Outlines::default();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            let mut scales = BTreeMap::new();
            for size in &model.sizes {
                let code = &size.entry.id.value;
                let made = outline(piece, size).map(|(outline, scale)| {
                    scales.extend(scale.map(|scale| (code.clone(), scale)));
                    outline
                });
                sizes.insert(code.clone(), made);
            }
            all.by.insert(id.clone(), sizes);
            all.scales.insert(id.clone(), scales);
        }
        all
    }

    /// How the outline of a piece was scaled for a size; `None` where it was drawn for it. A size is a scaled *sew*
    /// line: the allowance inside a scaled cut line is scaled with it.
    pub fn scale(&self, piece: &str, size: &str) -> Option<Scale> {
        self.scales.get(piece)?.get(size).copied()
    }

    /// The outline of a piece in a size, or why there is none.
    pub fn get(&self, piece: &str, size: &str) -> Result<&Outline, &Gap> {
        match self.by.get(piece).and_then(|sizes| sizes.get(size)) {
            Some(made) => made.as_ref(),
            None => Err(&Gap::Missing),
        }
    }

    /// The outline in the first size that has one: its points and their order hold for every size.
    pub fn any(&self, piece: &str) -> Option<&Outline> {
        self.by.get(piece)?.values().find_map(|made| made.as_ref().ok())
    }

    /// Every outline that could not be made: piece, size, why.
    pub fn gaps(&self) -> impl Iterator<Item = (&str, &str, &Gap)> {
        self.by.iter().flat_map(|(piece, sizes)| {
            sizes
                .iter()
                .filter_map(move |(size, made)| made.as_ref().err().map(|gap| (piece.as_str(), size.as_str(), gap)))
        })
    }
}

fn outline(piece: &Piece, size: &Size) -> Result<(Outline, Option<Scale>), Gap> {
    let value = piece.outline.as_ref().ok_or(Gap::Missing)?;
    let id = size.entry.id.value.as_str();
    let variant = Variant { size: id, colourway: "" };
    let stated = value.of(variant).ok_or(Gap::NoSize)?;
    let source = stated.known().ok_or(match stated.given {
        crate::model::Given::ByFactory => Gap::ByFactory,
        _ => Gap::Withheld,
    })?;
    let defect = |span: Span, message: String| Gap::Defect { span, message };
    let drawn = draw(source, variant)?;
    let whole = match &source.fold {
        Some(fold) => {
            drawn.unfolded(&fold.value.0, &fold.value.1).map_err(|error| defect(fold.span, error.to_string()))?
        }
        None => drawn,
    };
    let placed = place(whole, &source.points, variant)?;
    let own_size = value.by.contains_key(id) || sized(source, id);
    match (&size.scale, own_size) {
        (Some(scale), false) => match scale.known() {
            Some((along, across)) => {
                let grain = grain(piece, &placed);
                let scaled = placed.scaled(*along, *across, grain);
                let scaled = scaled.map_err(|error| defect(scale.span, error.to_string()))?;
                Ok((scaled, Some(Scale { along: *along, across: *across, grain })))
            }
            None => Err(Gap::Withheld),
        },
        _ => Ok((placed, None)),
    }
}

/// The direction of the grain: from the two named points, else up the page.
fn grain(piece: &Piece, outline: &Outline) -> Point {
    let named = piece.grain.as_ref().or(piece.pile.as_ref());
    let ends = named.and_then(|ends| Some((outline.point(&ends.value.0)?, outline.point(&ends.value.1)?)));
    ends.map_or(Point { x: 0.0, y: 1.0 }, |(a, b)| Point { x: b.x - a.x, y: b.y - a.y })
}

/// Whether a length of the shape is given for this very size, so that the size is not scaled as well.
fn sized(source: &OutlineSource, size: &str) -> bool {
    lengths(&source.shape).iter().any(|value| value.by.contains_key(size))
}

fn lengths(shape: &ShapeSource) -> Vec<&Value<Quantity>> {
    match shape {
        ShapeSource::Rectangle { width, height } | ShapeSource::Ellipse { width, height } => vec![width, height],
        ShapeSource::RoundedRectangle { width, height, radius } => vec![width, height, radius],
        ShapeSource::Circle { diameter } | ShapeSource::Gore { diameter, .. } => vec![diameter],
        ShapeSource::Polygon(points) => points.iter().flat_map(|(_, x, y)| [x, y]).collect(),
        ShapeSource::Svg(_) | ShapeSource::ByFactory | ShapeSource::Withheld(_) => Vec::new(),
    }
}

fn draw(source: &OutlineSource, variant: Variant<'_>) -> Result<Outline, Gap> {
    let mm = |value: &Value<Quantity>| millimetres(value, variant);
    let made = match &source.shape {
        ShapeSource::Rectangle { width, height } => shape::rectangle(mm(width)?, mm(height)?),
        ShapeSource::RoundedRectangle { width, height, radius } => {
            shape::rounded_rectangle(mm(width)?, mm(height)?, mm(radius)?)
        }
        ShapeSource::Circle { diameter } => shape::circle(mm(diameter)?),
        ShapeSource::Ellipse { width, height } => shape::ellipse(mm(width)?, mm(height)?),
        ShapeSource::Gore { count, diameter } => shape::gore(*count.known().ok_or(Gap::Withheld)?, mm(diameter)?),
        ShapeSource::Polygon(points) => {
            let mut corners = Vec::new();
            for (id, x, y) in points {
                corners.push((id.value.clone(), Point { x: mm(x)?, y: mm(y)? }));
            }
            shape::polygon(&corners)
        }
        ShapeSource::Svg(path) => {
            let message = format!("outlines are not read from SVG files yet, so {} cannot be used", path.value);
            return Err(Gap::Defect { span: path.span, message });
        }
        ShapeSource::ByFactory => return Err(Gap::ByFactory),
        ShapeSource::Withheld(_) => return Err(Gap::Withheld),
    };
    made.map_err(|error| Gap::Defect { span: source.span, message: error.to_string() })
}

fn millimetres(value: &Value<Quantity>, variant: Variant<'_>) -> Result<f64, Gap> {
    let stated = value.of(variant).ok_or(Gap::NoSize)?;
    match &stated.given {
        crate::model::Given::Known(quantity) => Ok(quantity.si_f64() * 1000.0),
        crate::model::Given::ByFactory => Err(Gap::ByFactory),
        crate::model::Given::Withheld(_) => Err(Gap::Withheld),
    }
}

/// Places the extra points. Each edge is measured as drawn, however many points lie on it and in whatever order they
/// are written; an edge that ends in an extra point waits until that one is placed.
fn place(drawn: Outline, points: &[PlacedPoint], variant: Variant<'_>) -> Result<Outline, Gap> {
    let mut outline = drawn;
    let mut rest: Vec<&PlacedPoint> = points.iter().collect();
    while let Some(first) = rest.first() {
        let there =
            |point: &&PlacedPoint| outline.point(&point.edge.0).is_some() && outline.point(&point.edge.1).is_some();
        let edge = rest.iter().find(|point| there(point)).unwrap_or(first).edge.clone();
        let (along, later) = rest.into_iter().partition(|point| same_edge(&point.edge, &edge));
        outline = place_along(outline, &edge, along, variant)?;
        rest = later;
    }
    Ok(outline)
}

fn same_edge(one: &(String, String), other: &(String, String)) -> bool {
    one == other || (one.0 == other.1 && one.1 == other.0)
}

/// Places the points of one edge, the farthest from its first end first, so that its first end stays a neighbour.
fn place_along(
    mut outline: Outline,
    edge: &(String, String),
    points: Vec<&PlacedPoint>,
    variant: Variant<'_>,
) -> Result<Outline, Gap> {
    let length = outline.run_between(&edge.0, &edge.1).map(|run| outline.length_of(run.index)).ok();
    let mut placed = Vec::new();
    for point in points {
        let quantity = point.at.of(variant).ok_or(Gap::NoSize)?.known().ok_or(Gap::Withheld)?;
        let asked = match quantity.dimension() {
            Dimension::Percent => quantity.si_f64() * length.unwrap_or(0.0),
            _ => quantity.si_f64() * 1000.0,
        };
        let from_first = if point.edge == *edge { asked } else { length.unwrap_or(0.0) - asked };
        placed.push((from_first, point));
    }
    placed.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut to = edge.1.as_str();
    for (at, point) in placed {
        outline = outline
            .with_point(&point.id.value, &edge.0, to, Place::Distance(at))
            .map_err(|error| Gap::Defect { span: point.id.span, message: error.to_string() })?;
        to = &point.id.value;
    }
    Ok(outline)
}

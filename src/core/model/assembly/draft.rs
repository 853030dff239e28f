//! Makes the outline of every piece in every size: drawn, unfolded, scaled, with its points.

use crate::geom::{Affine, Outline, Point, shape};
use crate::model::{Extent, Follow, Given, Model, OutlineSource, Piece, ShapeSource, Size, Value, Variant};
use crate::units::Quantity;

use super::gap::Gap;
use super::outlines::{Outlines, Scale};
use super::partner::{self, lengths};
use super::points::{place, place_fixed};
use super::{sequence, traced};

impl Outlines {
    /// Makes every outline of a model; those that follow others after these.
    pub fn of(model: &Model) -> Outlines {
        let mut all = Outlines::default();
        let (order, circles) = partner::order(model);
        for id in order {
            let Some(piece) = model.pieces.get(id) else { continue };
            for size in &model.sizes {
                let code = size.entry.id.value.clone();
                let made = match circles.get(id) {
                    Some((span, message)) => Err(Gap::defect(*span, message)),
                    None => outline(model, &all, piece, size),
                };
                let made = made.map(|(outline, scale)| {
                    let scales = all.scales.entry(id.to_string()).or_default();
                    scales.extend(scale.map(|scale| (code.clone(), scale)));
                    outline
                });
                all.by.entry(id.to_string()).or_default().insert(code, made);
            }
        }
        all
    }
}

fn outline(model: &Model, made: &Outlines, piece: &Piece, size: &Size) -> Result<(Outline, Option<Scale>), Gap> {
    let value = piece.outline.as_ref().ok_or(Gap::Missing)?;
    let id = size.entry.id.value.as_str();
    let variant = Variant { size: id, colourway: "" };
    let stated = value.of(variant).ok_or(Gap::NoSize)?;
    let source = stated.known().ok_or(match stated.given {
        Given::ByFactory => Gap::ByFactory,
        _ => Gap::Withheld,
    })?;
    let mut ruler = Ruler { model, piece, made, source, variant, factors: (1.0, 1.0) };
    let drawn = whole(&ruler)?;
    let (after, before) = sequence::kept(sequence::placeable(&drawn, &source.points)?, id);
    let placed = place(drawn, &before, variant)?;
    let own_size = value.by.contains_key(id) || sized(source, id);
    let scale = match &size.scale {
        Some(scale) if !own_size => Some((scale.known().copied().ok_or(Gap::Withheld)?, scale.span)),
        _ => None,
    };
    let Some(((along, across), span)) = scale else {
        return Ok((place_fixed(placed, &after, &before, variant)?, None));
    };
    let grain = grain(piece, &placed);
    let mut drawn = placed;
    if lengths(&source.shape).iter().any(|length| followed(length, variant).is_some()) {
        // A length that follows is that of this size already: it is drawn shorter by what it will be scaled.
        let map = Affine::scaling(along, across, grain);
        let grown = |way: Point| (map.apply(way) - map.apply(Point::default())).norm();
        ruler.factors = (grown(Point::new(1.0, 0.0)), grown(Point::new(0.0, 1.0)));
        drawn = place(whole(&ruler)?, &before, variant)?;
    }
    let scaled = drawn.scaled(along, across, grain);
    let scaled = scaled.map_err(|error| Gap::shape(span, &error))?;
    Ok((place_fixed(scaled, &after, &before, variant)?, Some(Scale { along, across, grain })))
}

/// The drawn outline, unfolded.
fn whole(ruler: &Ruler<'_>) -> Result<Outline, Gap> {
    let drawn = draw(ruler)?;
    let Some(fold) = &ruler.source.fold else { return Ok(drawn) };
    let unfolded = drawn.unfolded(&fold.value.0, &fold.value.1);
    unfolded.map_err(|error| Gap::shape(fold.span, &error))
}

/// What turns a stated length into millimetres.
struct Ruler<'a> {
    model: &'a Model,
    piece: &'a Piece,
    made: &'a Outlines,
    source: &'a OutlineSource,
    variant: Variant<'a>,
    /// What widths and heights will be multiplied by when the outline is scaled for its size.
    factors: (f64, f64),
}

impl Ruler<'_> {
    fn mm(&self, extent: &Value<Extent>) -> Result<f64, Gap> {
        match known(extent, self.variant)? {
            Extent::Length(quantity) => Ok(quantity.si_f64() * 1000.0),
            Extent::Along(follow) => partner::length(self.model, self.made, self.source, follow, self.variant.size),
        }
    }

    fn width(&self, extent: &Value<Extent>) -> Result<f64, Gap> {
        Ok(self.mm(extent)? / self.followed(extent, self.factors.0))
    }

    fn height(&self, extent: &Value<Extent>) -> Result<f64, Gap> {
        Ok(self.mm(extent)? / self.followed(extent, self.factors.1))
    }

    fn followed(&self, extent: &Value<Extent>, factor: f64) -> f64 {
        if followed(extent, self.variant).is_some() { factor } else { 1.0 }
    }
}

/// The edges a length follows in a size.
fn followed<'a>(extent: &'a Value<Extent>, variant: Variant<'_>) -> Option<&'a Follow> {
    match extent.known(variant) {
        Some(Extent::Along(follow)) => Some(follow),
        _ => None,
    }
}

/// The direction of the grain, up the page where none is given or drawn.
fn grain(piece: &Piece, outline: &Outline) -> Point {
    piece.along(outline).unwrap_or(Point { x: 0.0, y: 1.0 })
}

/// Whether a length of the shape is given for this very size, so that the size is not scaled as well; or the shape is
/// round and follows, so that scaling it would make it follow no more.
fn sized(source: &OutlineSource, size: &str) -> bool {
    let variant = Variant { size, colourway: "" };
    let own = lengths(&source.shape).iter().any(|value| value.by.contains_key(size));
    let corner = |(_, x, y): &(_, Value<Quantity>, Value<Quantity>)| x.by.contains_key(size) || y.by.contains_key(size);
    own || match &source.shape {
        ShapeSource::Polygon(points) => points.iter().any(corner),
        ShapeSource::Circle { extent: length, .. } | ShapeSource::Gore { diameter: length, .. } => {
            followed(length, variant).is_some()
        }
        _ => false,
    }
}

fn draw(ruler: &Ruler<'_>) -> Result<Outline, Gap> {
    let source = ruler.source;
    let made = match &source.shape {
        ShapeSource::Rectangle { width, height } => shape::rectangle(ruler.width(width)?, ruler.height(height)?),
        ShapeSource::RoundedRectangle { width, height, radius } => {
            shape::rounded_rectangle(ruler.width(width)?, ruler.height(height)?, ruler.mm(radius)?)
        }
        ShapeSource::Circle { extent, round: false } => shape::circle(ruler.mm(extent)?),
        ShapeSource::Circle { extent, round: true } => shape::circle(ruler.mm(extent)? / std::f64::consts::PI),
        ShapeSource::Ellipse { width, height } => shape::ellipse(ruler.width(width)?, ruler.height(height)?),
        ShapeSource::Gore { count, diameter } => shape::gore(*count.known().ok_or(Gap::Withheld)?, ruler.mm(diameter)?),
        ShapeSource::Polygon(points) => {
            let mm = |value: &Value<Quantity>| known(value, ruler.variant).map(|length| length.si_f64() * 1000.0);
            let mut corners = Vec::new();
            for (id, x, y) in points {
                corners.push((id.value.clone(), Point { x: mm(x)?, y: mm(y)? }));
            }
            shape::polygon(&corners)
        }
        ShapeSource::Svg(svg) => return traced::outline(ruler.model, ruler.piece, source, svg),
        ShapeSource::ByFactory => return Err(Gap::ByFactory),
        ShapeSource::Withheld(_) => return Err(Gap::Withheld),
    };
    made.map_err(|error| Gap::shape(source.span, &error))
}

fn known<'a, T>(value: &'a Value<T>, variant: Variant<'_>) -> Result<&'a T, Gap> {
    let stated = value.of(variant).ok_or(Gap::NoSize)?;
    match &stated.given {
        Given::Known(known) => Ok(known),
        Given::ByFactory => Err(Gap::ByFactory),
        Given::Withheld(_) => Err(Gap::Withheld),
    }
}

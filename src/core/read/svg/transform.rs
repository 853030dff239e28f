//! `transform` attributes.

use svgtypes::{TransformListParser, TransformListToken};

use crate::geom::{Affine, Point};

use super::arc::turning;

/// The map a transform list stands for.
///
/// # Errors
/// In words for the user: where the list stops making sense.
pub fn map(text: &str) -> Result<Affine, String> {
    let mut whole = Affine::IDENTITY;
    for token in TransformListParser::from(text) {
        // The last one written is done first.
        whole = one(token.map_err(|error| error.to_string())?).then(whole);
    }
    Ok(whole)
}

fn one(token: TransformListToken) -> Affine {
    let moved = |x: f64, y: f64| Affine::translation(Point::new(x, y));
    match token {
        TransformListToken::Matrix { a, b, c, d, e, f } => Affine { xx: a, yx: b, xy: c, yy: d, dx: e, dy: f },
        TransformListToken::Translate { tx, ty } => moved(tx, ty),
        TransformListToken::Scale { sx, sy } => Affine { xx: sx, yy: sy, ..Affine::IDENTITY },
        TransformListToken::Rotate { angle } => turning(angle),
        TransformListToken::SkewX { angle } => Affine { xy: libm::tan(angle.to_radians()), ..Affine::IDENTITY },
        TransformListToken::SkewY { angle } => Affine { yx: libm::tan(angle.to_radians()), ..Affine::IDENTITY },
    }
}

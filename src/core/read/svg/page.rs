//! From user units to millimetres: `width`, `height` and `viewBox` of a drawing.

use std::str::FromStr;

use roxmltree::Node;
use svgtypes::{Length, LengthUnit, ViewBox};

use crate::geom::{Affine, Point};
use crate::words::{Phrase, words};

words! {
    FONT_UNIT "read.svg.font-unit" = "the unit depends on a font";
    NOT_POSITIVE "read.svg.not-positive" = "it must be above zero";
}

/// Millimetres to an inch.
const INCH: f64 = 25.4;
/// Pixels to an inch: CSS Values and Units, section 6.2.
pub const PIXELS: f64 = 96.0;
/// By how much both ratios may differ: editors write them rounded.
const ROUNDED: f64 = 0.000_5;

/// How a drawing lies on its page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Page {
    /// From user units to mm, y up.
    pub map: Affine,
    /// Whether the size rests on pixels, which some programs count otherwise.
    pub pixels: bool,
    /// Millimetres to a user unit across and down, where they differ.
    pub uneven: Option<(f64, f64)>,
    /// What the page shows, in user units: x, y, width, height; none if its size is not said.
    pub bounds: Option<[f64; 4]>,
}

impl Page {
    /// The page of the root element.
    ///
    /// # Errors
    /// In words for the user: the attribute and what is wrong with it.
    pub fn of(root: Node<'_, '_>) -> Result<Page, (&'static str, Phrase)> {
        let (width, height) = (side(root, "width")?, side(root, "height")?);
        let pixel = INCH / PIXELS;
        let given = [width, height].into_iter().flatten();
        let physical = given.clone().all(|(_, physical)| physical) && given.count() > 0;
        let Some(text) = root.attribute("viewBox") else {
            // Without a viewBox a user unit is a pixel, however large the page is said to be.
            let map = Affine { xx: pixel, yy: -pixel, ..Affine::IDENTITY };
            let bounds = width.zip(height).map(|((w, _), (h, _))| [0.0, 0.0, w / pixel, h / pixel]);
            return Ok(Page { map, pixels: true, uneven: None, bounds });
        };
        let bounds = ViewBox::from_str(text).map_err(|error| ("viewBox", error.to_string().into()))?;
        let (x, y) = match (width, height) {
            (Some((w, _)), Some((h, _))) => (w / bounds.w, h / bounds.h),
            (Some((w, _)), None) => (w / bounds.w, w / bounds.w),
            (None, Some((h, _))) => (h / bounds.h, h / bounds.h),
            (None, None) => (pixel, pixel),
        };
        // SVG 2, 8.6: the drawing is scaled alike both ways until it fits.
        let scale = x.min(y);
        let uneven = ((x - y).abs() > ROUNDED * scale).then_some((x, y));
        let map = Affine { xx: scale, yy: -scale, xy: 0.0, yx: 0.0, dx: -bounds.x * scale, dy: bounds.y * scale };
        let bounds = Some([bounds.x, bounds.y, bounds.w, bounds.h]);
        Ok(Page { map, pixels: !physical, uneven, bounds })
    }

    /// Where a place of the page lies on what it shows, in hundredths from the left and from the top.
    pub fn share(&self, at: Point) -> Option<[f64; 2]> {
        let [x, y, width, height] = self.bounds?;
        let unit = self.map.xx;
        let left = (at.x - self.map.dx) / unit - x;
        let top = (self.map.dy - at.y) / unit - y;
        Some([100.0 * left / width, 100.0 * top / height])
    }
}

/// A side of the page in mm, and whether it is said in a physical unit; none if it is not said or a share of something.
fn side(root: Node<'_, '_>, name: &'static str) -> Result<Option<(f64, bool)>, (&'static str, Phrase)> {
    let Some(text) = root.attribute(name).map(str::trim).filter(|text| *text != "auto") else { return Ok(None) };
    let length = Length::from_str(text).map_err(|error| (name, error.to_string().into()))?;
    if length.unit == LengthUnit::Percent {
        return Ok(None);
    }
    let Some(unit) = pixels(length.unit) else { return Err((name, FONT_UNIT.into())) };
    let mm = match length.unit {
        LengthUnit::Mm => length.number,
        LengthUnit::Cm => length.number * 10.0,
        LengthUnit::In => length.number * INCH,
        _ => length.number * unit * INCH / PIXELS,
    };
    if !(mm > 0.0 && mm.is_finite()) {
        return Err((name, NOT_POSITIVE.into()));
    }
    Ok(Some((mm, !matches!(length.unit, LengthUnit::None | LengthUnit::Px))))
}

/// Pixels to a unit; none for units that depend on something else.
pub fn pixels(unit: LengthUnit) -> Option<f64> {
    Some(match unit {
        LengthUnit::None | LengthUnit::Px => 1.0,
        LengthUnit::In => PIXELS,
        LengthUnit::Cm => PIXELS / 2.54,
        LengthUnit::Mm => PIXELS / INCH,
        LengthUnit::Pt => PIXELS / 72.0,
        LengthUnit::Pc => PIXELS / 6.0,
        LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => return None,
    })
}

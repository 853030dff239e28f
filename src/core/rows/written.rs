//! How figures and dates are written on a sheet.

use crate::compute::{Figure, Number};
use crate::words::Date;

use super::cell::{Cell, NOT_YET as NOT_KNOWN};

/// What stands for a figure that is not known yet.
pub const NOT_YET: &str = NOT_KNOWN.en;

/// A number with up to `places` decimals, none where they are zero.
pub fn figure(figure: &Figure<Number>, places: u32) -> String {
    Cell::number(figure, places, "").phrase().english()
}

/// A date as it is printed, or as written if it is none.
pub fn date(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| Date::parse(text).map_or_else(|| text.to_string(), |date| date.to_string()))
}

/// The date of a field that may be absent; nothing where it is.
pub fn day(text: &Option<String>) -> String {
    text.as_deref().and_then(date).unwrap_or_default()
}

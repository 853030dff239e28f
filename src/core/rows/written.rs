//! How dates are written on a sheet.

use crate::words::Date;

/// A date as it is printed, or as written if it is none.
pub fn date(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| Date::parse(text).map_or_else(|| text.to_string(), |date| date.to_string()))
}

/// The date of a field that may be absent; nothing where it is.
pub fn day(text: &Option<String>) -> String {
    text.as_deref().and_then(date).unwrap_or_default()
}

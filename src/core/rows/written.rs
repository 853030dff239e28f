//! How figures and dates are written on a sheet.

use crate::compute::{Figure, Number};
use crate::words::{Date, number};

/// What stands for a figure that is not known yet.
pub const NOT_YET: &str = "not known yet";

/// A number with up to `places` decimals, none where they are noughts.
pub fn figure(figure: &Figure<Number>, places: u32) -> String {
    match figure {
        Figure::Known(value) => short(value.get(), places),
        Figure::NotYet { .. } => NOT_YET.into(),
        Figure::Withheld => "withheld".into(),
    }
}

fn short(value: f64, places: u32) -> String {
    let text = number::number(value, places);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
}

/// A date as it is printed, or as written if it is none.
pub fn date(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| Date::parse(text).map_or_else(|| text.to_string(), |date| date.to_string()))
}

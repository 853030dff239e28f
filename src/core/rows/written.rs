//! How dates are written on a sheet.

use crate::units::Date;

/// A date as it is printed; nothing where there is none.
pub fn day(date: Option<Date>) -> String {
    date.map_or_else(String::new, |date| date.to_string())
}

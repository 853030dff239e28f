//! Quantities people write, such as `250 mm ±5 mm`, ages and days, read and held exactly.
//!
//! Numbers are exact rationals over `i128`. Binary floating point is never used to decide whether a
//! reading lies inside its limits: in metres as `f64` some readings that stand exactly on a limit
//! fall outside it.
//!
//! ```text
//! quantity = number unit [ tolerance ]
//! tolerance = "±" ( amount | "max(" amount "," amount ")" ) | "+" number [ unit ] "/-" amount
//! amount = number ( unit | "%" )
//! ```
//!
//! `±` may also be written `+-` or `+/-`. Everything else that people plausibly write (decimal
//! commas, full-width digits, `㎜`, a missing unit) is refused with the text to write instead.

mod age;
mod date;
mod error;
mod fold;
mod limits;
mod margin;
mod number;
mod parse;
mod parser;
mod price;
mod quantity;
mod rational;
mod tolerance;
mod unit;

pub use age::Age;
pub use date::{Date, NoDate};
pub use error::{Fault, QuantityError, QuantityErrorKind};
pub use limits::{Cause, Crossed, Limits};
pub use price::Price;
pub use quantity::Quantity;
pub use rational::Rational;
pub use tolerance::{Amount, Tolerance};
pub use unit::{Dimension, Unit};

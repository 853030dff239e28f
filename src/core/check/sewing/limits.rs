//! How nearly equal lengths must be. *Common practice*: what a machinist takes up without noticing.

/// Difference that is always allowed, in mm.
const ABSOLUTE: f64 = 0.5;
/// Difference that is allowed in proportion to the length.
const SHARE: f64 = 0.005;

/// The difference allowed between two layers of about this length, in mm.
pub fn equal(length: f64) -> f64 {
    // A micrometre beside it, so that a difference exactly on the limit is no matter of rounding.
    (length * SHARE).max(ABSOLUTE) + 0.001
}

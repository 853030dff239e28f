//! The one place where lengths are rounded, before anything is computed from them: what is taken goes up to a whole millimetre,
//! what there is goes down. So every sum on a sheet can be worked out again by hand.

/// A millimetre in µm.
pub const MILLIMETRE: i64 = 1_000;

/// A length that is taken of the fabric, µm.
pub fn taken(length: i64) -> i64 {
    down(length.saturating_add(MILLIMETRE - 1))
}

/// A length that there is, µm.
pub fn down(length: i64) -> i64 {
    length - length.rem_euclid(MILLIMETRE)
}

//! Exact numbers: fractions over `i128` whose arithmetic reports overflow.

use std::fmt;

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, Signed, Zero};

/// An exact fraction. Arithmetic gives `None` on overflow and never panics.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rational(Ratio<i128>);

impl Rational {
    /// Zero.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));

    /// The fraction `numerator / denominator` in lowest terms; `None` for a zero denominator or a
    /// part that is `i128::MIN`, whose absolute value does not fit.
    pub fn new(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator == 0 || numerator == i128::MIN || denominator == i128::MIN {
            return None;
        }
        Some(Self(Ratio::new(numerator, denominator)))
    }

    /// A whole number.
    pub fn whole(value: i64) -> Self {
        Self(Ratio::from_integer(i128::from(value)))
    }

    /// Reads decimal text: an optional `-`, digits, and optionally a point with digits after it.
    /// `None` for any other text and for numbers that do not fit.
    pub fn parse(text: &str) -> Option<Self> {
        let (negative, digits) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (int, frac) = digits.split_once('.').unwrap_or((digits, "0"));
        let plain = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if !plain(int) || !plain(frac) {
            return None;
        }
        let frac = frac.trim_end_matches('0');
        let scale = 10_i128.checked_pow(u32::try_from(frac.len()).ok()?)?;
        let mut numerator: i128 = 0;
        for digit in int.bytes().chain(frac.bytes()) {
            numerator = numerator.checked_mul(10)?.checked_add(i128::from(digit - b'0'))?;
        }
        Self::new(if negative { -numerator } else { numerator }, scale)
    }

    /// The numerator in lowest terms; it carries the sign.
    pub fn numerator(self) -> i128 {
        *self.0.numer()
    }

    /// The denominator in lowest terms, above zero.
    pub fn denominator(self) -> i128 {
        *self.0.denom()
    }

    /// The nearest floating-point number, within two units in the last place. For geometry and
    /// drawing only; compare exact values exactly.
    pub fn to_f64(self) -> f64 {
        self.numerator() as f64 / self.denominator() as f64
    }

    /// The sum, or `None` on overflow.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        Self::kept(self.0.checked_add(&other.0))
    }

    /// The difference, or `None` on overflow.
    pub fn checked_sub(self, other: Self) -> Option<Self> {
        Self::kept(self.0.checked_sub(&other.0))
    }

    /// The product, or `None` on overflow.
    pub fn checked_mul(self, other: Self) -> Option<Self> {
        Self::kept(self.0.checked_mul(&other.0))
    }

    /// The quotient, or `None` on overflow or division by zero.
    pub fn checked_div(self, other: Self) -> Option<Self> {
        if other.is_zero() {
            return None;
        }
        Self::kept(self.0.checked_div(&other.0))
    }

    /// The value without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The value with its sign turned.
    #[must_use]
    pub fn negated(self) -> Self {
        Self(-self.0)
    }

    /// True for zero.
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// True below zero.
    pub fn is_negative(self) -> bool {
        self.numerator() < 0
    }

    /// True above zero.
    pub fn is_positive(self) -> bool {
        self.numerator() > 0
    }

    /// True where the value has no fractional part.
    pub fn is_whole(self) -> bool {
        self.denominator() == 1
    }

    /// The greatest multiple of `step` that is not above the value; `None` on overflow or where
    /// `step` is not above zero.
    pub fn floor_to(self, step: Self) -> Option<Self> {
        if !step.is_positive() {
            return None;
        }
        let count = self.checked_div(step)?;
        let whole = count.numerator().div_euclid(count.denominator());
        Self::new(whole, 1)?.checked_mul(step)
    }

    /// The least multiple of `step` that is not below the value; `None` as for
    /// [`Rational::floor_to`].
    pub fn ceil_to(self, step: Self) -> Option<Self> {
        Some(self.negated().floor_to(step)?.negated())
    }

    /// The multiple of `step` nearest to the value, halves away from zero; `None` as for
    /// [`Rational::floor_to`].
    pub fn round_to(self, step: Self) -> Option<Self> {
        let half = step.checked_div(Self::whole(2))?;
        let size = self.abs().checked_add(half)?.floor_to(step)?;
        Some(if self.is_negative() { size.negated() } else { size })
    }

    /// The value as text with exactly `places` decimals, halves away from zero. For fixed columns
    /// of figures; `Display` writes the exact decimal.
    pub fn fixed(self, places: u32) -> String {
        let size = self.abs();
        let (mut int, mut rest) = size.int_and_rest();
        let denominator = size.denominator().unsigned_abs();
        let mut digits = Vec::new();
        for _ in 0..places {
            let (digit, left) = next_digit(rest, denominator);
            digits.push(digit);
            rest = left;
        }
        if rest >= denominator - rest {
            int += carry(&mut digits);
        }
        let zero = int == 0 && digits.iter().all(|&d| d == 0);
        joined(self.is_negative() && !zero, int, &digits)
    }

    /// True where the decimal expansion ends.
    fn is_finite_decimal(self) -> bool {
        let mut rest = self.denominator();
        for factor in [2, 5] {
            while rest % factor == 0 {
                rest /= factor;
            }
        }
        rest == 1
    }

    /// Whole part and remainder over the denominator of a value that is not negative.
    fn int_and_rest(self) -> (u128, u128) {
        let (numerator, denominator) = (self.numerator().unsigned_abs(), self.denominator().unsigned_abs());
        (numerator / denominator, numerator % denominator)
    }

    /// Drops results whose sign could not be turned.
    fn kept(result: Option<Ratio<i128>>) -> Option<Self> {
        result.filter(|r| *r.numer() != i128::MIN && *r.denom() > 0).map(Self)
    }
}

/// The next decimal digit of `rest / denominator` and what is left. Adds ten times instead of
/// multiplying, so that no denominator overflows: both are below 2^127.
fn next_digit(rest: u128, denominator: u128) -> (u8, u128) {
    let (mut digit, mut left) = (0, 0);
    for _ in 0..10 {
        left += rest;
        if left >= denominator {
            left -= denominator;
            digit += 1;
        }
    }
    (digit, left)
}

/// Adds one to the last digit; gives one where that carries into the whole part.
fn carry(digits: &mut [u8]) -> u128 {
    for digit in digits.iter_mut().rev() {
        if *digit < 9 {
            *digit += 1;
            return 0;
        }
        *digit = 0;
    }
    1
}

/// Sign, whole part and decimals as text.
fn joined(negative: bool, int: u128, digits: &[u8]) -> String {
    let mut text = format!("{}{int}", if negative { "-" } else { "" });
    if !digits.is_empty() {
        text.push('.');
        text.extend(digits.iter().map(|&d| char::from(b'0' + d)));
    }
    text
}

/// The exact decimal where it ends, else rounded to six places.
impl fmt::Display for Rational {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.is_finite_decimal() {
            return f.pad(&self.fixed(6));
        }
        let (int, mut rest) = self.abs().int_and_rest();
        let denominator = self.denominator().unsigned_abs();
        let mut digits = Vec::new();
        while rest != 0 {
            let (digit, left) = next_digit(rest, denominator);
            digits.push(digit);
            rest = left;
        }
        f.pad(&joined(self.is_negative(), int, &digits))
    }
}

impl From<i64> for Rational {
    fn from(value: i64) -> Self {
        Self::whole(value)
    }
}

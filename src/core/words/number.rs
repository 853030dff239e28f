//! Numbers as sheets print them: rounded once, from the unrounded value, half away from zero; a point before
//! decimals; digits in groups of three from 10 000 on (ISO 80000-1); never `-0`.
//!
//! Groups and units are set apart by a no-break space (U+00A0), which the built-in type has and the thin space it has
//! not.

use crate::units::{Quantity, Rational, Unit};

/// What stands between a number and its unit, and between groups of digits.
pub const SPACE: char = '\u{a0}';

/// What is printed for a number that is none (an infinity or a failed computation): visible, never a figure.
pub const NOT_A_NUMBER: &str = "not a number";

/// A number that can be written with a fixed count of decimals.
pub trait Decimal: Copy {
    /// The digits with exactly `places` decimals, halves away from zero, without groups; `None` if it is no number.
    fn digits(self, places: u32) -> Option<String>;
}

/// Exact.
impl Decimal for Rational {
    fn digits(self, places: u32) -> Option<String> {
        Some(self.fixed(places))
    }
}

/// Rounds the shortest decimal that stands for the number, so that 2.675 becomes 2.68 as its reader expects, although
/// the nearest binary fraction lies below.
impl Decimal for f64 {
    fn digits(self, places: u32) -> Option<String> {
        if !self.is_finite() {
            return None;
        }
        Some(shorten(&format!("{}", self.abs()), self < 0.0, places))
    }
}

impl Decimal for usize {
    fn digits(self, places: u32) -> Option<String> {
        Some(shorten(&self.to_string(), false, places))
    }
}

/// Rounds decimal text without a sign.
fn shorten(text: &str, negative: bool, places: u32) -> String {
    let (whole, rest) = text.split_once('.').unwrap_or((text, ""));
    let places = places as usize;
    let mut digits: Vec<u8> = whole.bytes().chain(rest.bytes()).map(|byte| byte - b'0').collect();
    let up = digits.get(whole.len() + places).is_some_and(|digit| *digit >= 5);
    digits.resize(whole.len() + places, 0);
    if up && raise(&mut digits) {
        digits.insert(0, 1);
    }
    let sign = if negative && digits.iter().any(|digit| *digit != 0) { "-" } else { "" };
    let mut out: String = digits.iter().map(|digit| char::from(b'0' + digit)).collect();
    if places > 0 {
        out.insert(out.len() - places, '.');
    }
    format!("{sign}{out}")
}

/// Adds one in the last place; true if it carries out of the first.
fn raise(digits: &mut [u8]) -> bool {
    for digit in digits.iter_mut().rev() {
        if *digit < 9 {
            *digit += 1;
            return false;
        }
        *digit = 0;
    }
    true
}

/// A number with `places` decimals, in groups of three digits from five whole digits on.
pub fn number(value: impl Decimal, places: u32) -> String {
    value.digits(places).map_or_else(|| NOT_A_NUMBER.to_owned(), |digits| grouped(&digits))
}

/// Digits without the decimals at their end that are zero.
pub fn shortened(digits: &str) -> String {
    if digits.contains('.') { digits.trim_end_matches('0').trim_end_matches('.').to_owned() } else { digits.to_owned() }
}

/// Groups the whole digits of plain decimal text.
pub fn grouped(digits: &str) -> String {
    let (sign, rest) = digits.strip_prefix('-').map_or(("", digits), |rest| ("-", rest));
    let (whole, decimals) = rest.find('.').map_or((rest, ""), |point| rest.split_at(point));
    if whole.len() < 5 {
        return digits.to_owned();
    }
    let mut out = sign.to_owned();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            out.push(SPACE);
        }
        out.push(digit);
    }
    out + decimals
}

/// How many decimals a number needs, `most` at most.
pub fn places(value: f64, most: u32) -> u32 {
    let mut scale = 1.0;
    for places in 0..most {
        if ((value * scale).round() / scale - value).abs() < 1e-9 {
            return places;
        }
        scale *= 10.0;
    }
    most
}

/// A number and its unit, which never part at a line end: `12.5 mm`.
pub fn with_unit(value: impl Decimal, places: u32, symbol: &str) -> String {
    format!("{}{SPACE}{}", number(value, places), unit(symbol))
}

/// A length in mm.
pub fn mm(value: impl Decimal, places: u32) -> String {
    with_unit(value, places, "mm")
}

/// An area in cm².
pub fn cm2(value: impl Decimal, places: u32) -> String {
    with_unit(value, places, "cm2")
}

/// A mass in g.
pub fn grams(value: impl Decimal, places: u32) -> String {
    with_unit(value, places, "g")
}

/// A share given in percent: 12.5 is `12.5 %` (ISO 80000-1 sets the sign apart).
pub fn percent(value: impl Decimal, places: u32) -> String {
    with_unit(value, places, "%")
}

/// A quantity as people print it: `320 g/m2 ±5 %` becomes `320 g/m² ±5 %`.
pub fn quantity(quantity: &Quantity) -> String {
    let printed = |word: &str| {
        let symbol = word.trim_end_matches([',', ')']);
        let known = Unit::from_symbol(symbol).is_some();
        if known { unit(symbol) + &word[symbol.len()..] } else { word.to_string() }
    };
    quantity.written().split(' ').map(printed).collect::<Vec<_>>().join(" ")
}

/// A unit as people print it: `g/m2` becomes `g/m²`, `um` becomes `µm`.
pub fn unit(symbol: &str) -> String {
    match symbol {
        "um" => return "µm".to_string(),
        "deg" => return "°".to_string(),
        "C" => return "°C".to_string(),
        _ => {}
    }
    let mut out = String::new();
    let mut last = ' ';
    for c in symbol.chars() {
        out.push(match c {
            '2' if last.is_alphabetic() => '²',
            '3' if last.is_alphabetic() => '³',
            _ => c,
        });
        last = c;
    }
    out
}

/// A count and the form of the noun that goes with it, for screens, which speak English.
pub fn counted(count: impl Decimal + PartialEq<usize>, one: &str, many: &str) -> String {
    format!("{} {}", number(count, 0), if count == 1 { one } else { many })
}

/// Limits: `243–257`; with a limit below zero `-3 to 5`, where a dash would be read as a sign.
pub fn limits(lower: impl Decimal, upper: impl Decimal, places: u32) -> String {
    let (lower, upper) = (number(lower, places), number(upper, places));
    let between = if lower.starts_with('-') || upper.starts_with('-') { " to " } else { "–" };
    format!("{lower}{between}{upper}")
}

/// A tolerance from its two amounts, both written without a sign: `±7`, or `+5/-3` where they differ as printed.
pub fn tolerance(plus: impl Decimal, minus: impl Decimal, places: u32) -> String {
    let (plus, minus) = (number(plus, places), number(minus, places));
    if plus == minus { format!("±{plus}") } else { format!("+{plus}/-{minus}") }
}

//! Numbers in a text: finding their end, reading them strictly, and guessing what was meant.

use super::Rational;

/// Digits accepted before the point and after it, so that conversions stay exact in `i128`.
const DIGITS: usize = 9;

/// Why a number was refused.
pub(super) enum Refused {
    /// Not digits with at most one point.
    Form,
    /// Too many digits.
    Size,
}

/// The end of everything at `start` that looks like part of one number, accepted or not: sign,
/// digits, points, separators, fractions, exponents.
pub(super) fn end(text: &str, start: usize) -> usize {
    let bytes = text.as_bytes();
    let at = |i: usize| bytes.get(i).copied().unwrap_or(0);
    let digit = |i: usize| at(i).is_ascii_digit();
    let sign = |i: usize| matches!(at(i), b'+' | b'-');
    let mut i = start + usize::from(sign(start));
    loop {
        i += match at(i) {
            b'0'..=b'9' | b'.' | b'_' => 1,
            b',' | b'/' if digit(i + 1) => 1,
            b' ' if i > start && digit(i - 1) && digit(i + 1) => 1,
            b'e' | b'E' if i > start && (digit(i + 1) || (sign(i + 1) && digit(i + 2))) => 2,
            _ => return i,
        };
    }
}

/// Reads a number of the accepted form.
pub(super) fn read(token: &str) -> Result<Rational, Refused> {
    let digits = token.strip_prefix('-').unwrap_or(token);
    let (int, frac) = digits.split_once('.').unwrap_or((digits, "0"));
    if !is_digits(int) || !is_digits(frac) {
        return Err(Refused::Form);
    }
    if int.trim_start_matches('0').len() > DIGITS || frac.len() > DIGITS {
        return Err(Refused::Size);
    }
    Rational::parse(token).ok_or(Refused::Size)
}

/// The accepted spelling of a refused number, where only one meaning is likely.
pub(super) fn repaired(token: &str) -> Option<String> {
    let token = token.strip_prefix('+').unwrap_or(token);
    let text = fraction(token).or_else(|| exponent(token)).or_else(|| separators(token))?;
    let text = match text.strip_prefix('.') {
        Some(rest) => format!("0.{rest}"),
        None => text.replacen("-.", "-0.", 1),
    };
    let text = text.strip_suffix('.').unwrap_or(&text).to_owned();
    read(&text).is_ok().then_some(text)
}

/// True where a comma in the token may part thousands or decimals: `1,250`.
pub(super) fn is_ambiguous(token: &str) -> bool {
    match token.trim_start_matches(['+', '-']).split_once(',') {
        Some((int, frac)) => {
            (1..=3).contains(&int.len())
                && !int.starts_with('0')
                && frac.len() == 3
                && is_digits(int)
                && is_digits(frac)
        }
        None => false,
    }
}

/// `3/4` and `1 3/4` as a decimal.
fn fraction(token: &str) -> Option<String> {
    let (before, below) = token.split_once('/')?;
    let (whole, above) = before.split_once(' ').unwrap_or(("0", before));
    let part = read(above).ok()?.checked_div(read(below).ok()?)?;
    let sum = read(whole).ok()?.checked_add(part)?;
    Some(sum.to_string()).filter(|_| 10_i128.pow(9) % sum.denominator() == 0 && !whole.starts_with('-'))
}

/// `1e3` written out.
fn exponent(token: &str) -> Option<String> {
    let (mantissa, power) = token.split_once(['e', 'E'])?;
    let power: i32 = power.parse().ok().filter(|p: &i32| p.abs() <= 9)?;
    let scale = Rational::new(10_i128.pow(power.unsigned_abs()), 1)?;
    let mantissa = read(mantissa).ok()?;
    let value = if power < 0 { mantissa.checked_div(scale)? } else { mantissa.checked_mul(scale)? };
    Some(value.to_string())
}

/// Thousands separators taken out and a decimal comma turned into a point.
fn separators(token: &str) -> Option<String> {
    if is_ambiguous(token) {
        return None;
    }
    if token.contains([' ', '_']) {
        let int = token.split('.').next()?;
        return grouped(int, [' ', '_'].as_slice()).then(|| token.replace([' ', '_'], ""));
    }
    match (token.rfind(','), token.rfind('.')) {
        (Some(comma), Some(point)) if comma < point => {
            grouped(token.get(..point)?, [','].as_slice()).then(|| token.replace(',', ""))
        }
        (Some(comma), Some(_)) => {
            grouped(token.get(..comma)?, ['.'].as_slice()).then(|| token.replace('.', "").replace(',', "."))
        }
        (Some(_), None) if token.matches(',').count() > 1 => {
            grouped(token, [','].as_slice()).then(|| token.replace(',', ""))
        }
        _ => Some(token.replace(',', ".")),
    }
}

/// True for one to three digits, then groups of exactly three.
fn grouped(text: &str, separators: &[char]) -> bool {
    let mut groups = text.trim_start_matches('-').split(separators);
    let first = groups.next().unwrap_or_default();
    is_digits(first) && first.len() <= 3 && groups.all(|g| g.len() == 3 && is_digits(g))
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

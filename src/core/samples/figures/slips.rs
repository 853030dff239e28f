//! Readings that look like a slip of the pen: another unit, ten times off, two rows exchanged. They are asked about.

use crate::units::{Quantity, Rational};
use crate::words::{Phrase, say, words};

use super::judge::{ReadLine, Verdict, sum_up};

words! {
    EXCHANGED "slip.exchanged" = "it would be inside the limits of {of}: were the rows exchanged?";
    OTHER_UNIT "slip.other-unit" = "{reading} would be inside: was it read in another unit?";
    TENFOLD "slip.tenfold" = "it would be inside with its point one place on: is it ten times off?";
}

/// A reading nearer to its target than this factor is bad, and no slip.
const FAR: (i128, i128) = (2, 1);

/// Two lines whose readings are all outside, and each inside the limits of the other; or the readings of single pieces.
pub(crate) fn swapped(lines: &mut [ReadLine]) {
    for first in 0..lines.len() {
        for second in first + 1..lines.len() {
            let (Some(one), Some(other)) = (lines.get(first), lines.get(second)) else { continue };
            if one.side != other.side {
                continue;
            }
            let whole = fits(one, other) && fits(other, one);
            let count = one.readings.len().min(other.readings.len());
            let pieces: Vec<usize> = if whole {
                (0..one.readings.len().max(other.readings.len())).collect()
            } else {
                (0..count).filter(|at| fits_at(one, other, *at) && fits_at(other, one, *at)).collect()
            };
            let (of_one, of_other) = (one.of.clone(), other.of.clone());
            for (at, of) in [(first, of_other), (second, of_one)] {
                lines.get_mut(at).into_iter().for_each(|line| ask(line, &of, &pieces));
            }
        }
    }
}

fn ask(line: &mut ReadLine, of: &str, pieces: &[usize]) {
    let asked = line.readings.iter_mut().enumerate().filter(|(at, one)| pieces.contains(at) && one.verdict.is_out());
    for (_, one) in asked {
        one.verdict = Verdict::Questioned;
        one.by = None;
        one.asks = Some(say!(EXCHANGED, of));
    }
}

/// Whether everything read for `line` is outside and would be inside for `other`.
fn fits(line: &ReadLine, other: &ReadLine) -> bool {
    let mut read = (0..line.readings.len()).filter(|at| line.readings[*at].verdict != Verdict::Unread).peekable();
    read.peek().is_some() && read.all(|at| fits_at(line, other, at))
}

/// Whether what was read for `line` on one piece is outside and would be inside for `other`.
fn fits_at(line: &ReadLine, other: &ReadLine, at: usize) -> bool {
    let inside = |quantity: &Quantity| {
        quantity.dimension() == other.against.unit.dimension()
            && other.against.limits.known().is_some_and(|limits| limits.contains(quantity.si()))
    };
    let reading = line.readings.get(at);
    reading.is_some_and(|one| one.verdict.is_out() && one.read.as_ref().is_some_and(inside))
}

/// Readings that would be inside in another unit, or ten times as large or small.
pub(crate) fn written(line: &mut ReadLine) {
    let against = line.against.clone();
    let (Some(target), Some(limits)) = (against.target.known(), against.limits.known()) else { return };
    for one in line.readings.iter_mut().filter(|one| one.verdict.is_out()) {
        let Some(read) = one.read.as_ref().filter(|read| is_far(read.si(), *target)) else { continue };
        let fits = |si: Option<Rational>| si.is_some_and(|si| limits.contains(si));
        let other =
            read.dimension().units().find(|unit| *unit != read.unit && fits(read.value.checked_mul(unit.si_factor())));
        let ten = Rational::whole(10);
        let tenfold = fits(read.si().checked_mul(ten)) || fits(read.si().checked_div(ten));
        let asks = match other {
            Some(unit) => say!(OTHER_UNIT, reading = format!("{} {unit}", read.value)),
            None if tenfold => Phrase::from(TENFOLD),
            None => continue,
        };
        one.verdict = Verdict::Questioned;
        one.by = None;
        one.asks = Some(asks);
    }
}

/// Whether a reading is twice its target or more, or half of it or less.
fn is_far(read: Rational, target: Rational) -> bool {
    let Some(far) = Rational::new(FAR.0, FAR.1).filter(|_| target.is_positive()) else { return false };
    let above = target.checked_mul(far).is_some_and(|most| read >= most);
    let below = target.checked_div(far).is_some_and(|least| read <= least);
    above || below
}

/// Asks about what looks like a slip, and sums up.
pub(crate) fn settle(lines: &mut [ReadLine]) {
    swapped(lines);
    for line in lines {
        written(line);
        sum_up(line);
    }
}

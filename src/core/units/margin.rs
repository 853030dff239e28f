//! The tolerance behind a target, and the cures of what comes near one.

use std::ops::Range;

use super::error::Fault;
use super::parser::{Parsed, Parser, Problem};
use super::{Amount, Dimension, Rational, Tolerance, Unit, number};

impl Parser<'_> {
    /// The tolerance at `start`, or none at the end of the text.
    pub(super) fn tolerance(&self, start: usize, target: Unit) -> Parsed<Option<Tolerance>> {
        let end = self.text.trim_end().len();
        if start >= end {
            return Ok(None);
        }
        let sign = ["±", "+/-", "+-"].into_iter().find(|sign| self.starts(start, sign));
        let Some(sign) = sign else { return self.split(start, end, target).map(Some) };
        let from = self.past_spaces(start + sign.len());
        if !self.starts(from, "max") {
            return Ok(Some(Tolerance::PlusMinus(self.amount(from..end, target, true)?)));
        }
        let open = self.past_spaces(from + "max".len());
        let inner = self.slice(&(open..end)).strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
        // A comma with a digit on either side is a decimal comma; the parser of numbers refuses it.
        let comma = inner.and_then(|inner| inner.find(", ").or_else(|| inner.find(','))).map(|i| open + 1 + i);
        let Some(comma) = comma else {
            return Err(self.bad_tolerance(start..end, Fault::Max));
        };
        let first = self.amount(open + 1..comma, target, false)?;
        Ok(Some(Tolerance::Max(first, self.amount(comma + 1..end - 1, target, false)?)))
    }

    /// `+5/-3 mm`, and the cures of what comes near it.
    fn split(&self, start: usize, end: usize, target: Unit) -> Parsed<Tolerance> {
        if self.starts(start, "max(") {
            let cure = Some(self.replaced(&(start..start), " ±"));
            return Err(Problem { cure, ..self.bad_tolerance(start..end, Fault::Tolerance) });
        }
        let tail = self.slice(&(start + 1..end));
        let slash = tail.char_indices().find(|(i, c)| {
            *c == '/' && tail.get(i + 1..).is_some_and(|rest| rest.trim_start().starts_with(['+', '-']))
        });
        let upward = self.starts(start, "+");
        let Some((slash, _)) = slash.map(|(i, c)| (start + 1 + i, c)) else {
            let zero =
                if upward { format!("+{}/-0 {target}", tail.trim()) } else { format!("+0 {target}/-{}", tail.trim()) };
            let cure = Some(self.replaced(&(start..end), &format!(" {zero}")));
            return Err(Problem { cure, ..self.bad_tolerance(start..end, Fault::OneWay) });
        };
        let second = self.past_spaces(slash + 1);
        if !upward || !self.starts(second, "-") {
            let cure = self.turned(start, slash, second, end).filter(|_| !upward && self.starts(second, "+"));
            return Err(Problem { cure, ..self.bad_tolerance(start..end, Fault::Tolerance) });
        }
        let minus = self.amount(second + 1..end, target, true)?;
        let first = self.trimmed(start + 1..slash);
        let number_end = number::end(self.text, first.start);
        if number_end < first.end {
            return Ok(Tolerance::Split { plus: self.amount(first, target, false)?, minus });
        }
        let (value, _) = self.amount_number(&first)?;
        Ok(Tolerance::Split { plus: Amount { value, unit: minus.unit }, minus })
    }

    /// `-3/+5 mm` as `+5/-3 mm`; each side keeps its own unit.
    fn turned(&self, start: usize, slash: usize, second: usize, end: usize) -> Option<String> {
        let minus = self.slice(&self.trimmed(start + 1..slash)).to_owned();
        let plus = self.slice(&self.trimmed(second + 1..end)).to_owned();
        let shared = plus.trim_start_matches(|c: char| c.is_ascii_digit() || ". ".contains(c));
        let bare = minus.ends_with(|c: char| c.is_ascii_digit());
        let minus = if bare { format!("{minus} {shared}") } else { minus };
        Some(self.replaced(&(start..end), &format!(" +{plus}/-{minus}")))
    }

    /// One amount, filling `span`. `assume` proposes the target's unit where none is written.
    fn amount(&self, span: Range<usize>, target: Unit, assume: bool) -> Parsed<Amount> {
        let span = self.trimmed(span);
        let (value, after) = self.amount_number(&span)?;
        let symbol = self.trimmed(after..span.end.max(after));
        if symbol.is_empty() {
            let cure = assume.then(|| self.replaced(&(after..after), &format!(" {target}")));
            return Err(Problem { cure, ..self.bad_tolerance(span, Fault::BareMargin) });
        }
        let unit = self.unit(&symbol, &[target.dimension(), Dimension::Percent])?;
        if unit != Unit::Percent && unit.dimension() != target.dimension() {
            return Err(self.bad_tolerance(symbol, Fault::OtherMargin { unit, target: target.dimension() }));
        }
        Ok(Amount { value, unit })
    }

    /// The number of an amount, not negative, and the place behind it.
    fn amount_number(&self, span: &Range<usize>) -> Parsed<(Rational, usize)> {
        if span.is_empty() {
            return Err(self.bad_tolerance(span.clone(), Fault::NoMargin));
        }
        let (value, after) = self.number(span.start)?;
        if self.starts(span.start, "-") {
            let cure = Some(self.replaced(&(span.start..span.start + 1), ""));
            return Err(Problem { cure, ..self.bad_tolerance(span.clone(), Fault::Negative) });
        }
        Ok((value, after))
    }
}

//! Text to quantity, and every refusal with the text to write instead.

use std::ops::Range;

use super::error::{Fault, QuantityError, QuantityErrorKind as Kind};
use super::parser::{Parsed, Parser, Problem};
use super::{Dimension, Quantity, Rational, Unit, fold, number};

/// Bytes read at most; the longest sensible quantity is far shorter.
const LONGEST: usize = 200;
/// Mistakes cured one after the other in one proposal.
const CURES: usize = 6;

impl Quantity {
    /// Reads a quantity that must measure one of `expected`; an empty list accepts anything.
    ///
    /// # Errors
    /// [`QuantityError`] with the place, the reason and, where the meaning is clear, the text to
    /// write instead.
    pub fn parse(text: &str, expected: &[Dimension]) -> Result<Self, QuantityError> {
        attempt(text, expected, CURES).map_err(|mut error| {
            let plain = plain(text);
            let read = Parser { text: &plain, expected }.quantity();
            error.certain = error.fix.is_some() && read.is_ok_and(|read| Some(read.written()) == error.fix);
            error
        })
    }
}

/// The same text with digits and signs in their ordinary width and a decimal point. A comma before exactly three digits
/// may divide thousands, and stays.
fn plain(text: &str) -> String {
    let narrow = |c: char| match u32::from(c) {
        code @ 0xFF01..=0xFF5E => char::from_u32(code - 0xFEE0).unwrap_or(c),
        0x3000 => ' ',
        _ => c,
    };
    let narrow: String = text.chars().map(narrow).collect();
    let digits = |text: &str| text.chars().take_while(char::is_ascii_digit).count();
    match narrow.split_once(',') {
        Some((whole, rest)) if !rest.contains(',') && !whole.contains('.') && !matches!(digits(rest), 0 | 3) => {
            format!("{whole}.{rest}")
        }
        _ => narrow,
    }
}

/// Reads, and on failure proposes the cure only if the cured text reads (itself cured if need be).
fn attempt(text: &str, expected: &[Dimension], cures: usize) -> Result<Quantity, QuantityError> {
    Parser { text, expected }.quantity().map_err(|problem| {
        let Problem { kind, span, fault, cure } = problem;
        let fix = cure.filter(|_| cures > 0).and_then(|cure| match attempt(&cure, expected, cures - 1) {
            Ok(read) => Some(read.written()),
            Err(error) => error.fix,
        });
        QuantityError { kind, span, fault, fix, certain: false }
    })
}

impl Parser<'_> {
    fn quantity(&self) -> Parsed<Quantity> {
        self.characters()?;
        let start = self.past_spaces(0);
        let (value, after) = self.number(start)?;
        let behind = self.tolerance_start(after);
        let unit = self.target_unit(start, after, behind)?;
        self.whole_pieces(value, unit, start..after)?;
        let tolerance = self.tolerance(behind, unit)?;
        let mut built = Quantity::new(value, unit, tolerance)
            .map_err(|error| self.problem(error.kind, start..self.text.trim_end().len(), error.fault))?;
        built.text = self.text.split_ascii_whitespace().collect::<Vec<_>>().join(" ");
        Ok(built)
    }

    /// Refuses empty, overlong and non-ASCII text.
    fn characters(&self) -> Parsed<()> {
        let whole = 0..self.text.len();
        if self.text.trim().is_empty() {
            return Err(self.problem(Kind::Empty, whole, Fault::Empty(self.expected.first().copied())));
        }
        if self.text.len() > LONGEST {
            let fault = Fault::Long { most: LONGEST, found: self.text.len() };
            return Err(self.problem(Kind::TooLarge, whole, fault));
        }
        let Some((span, cure)) = fold::foreign(self.text) else { return Ok(()) };
        let kind = if self.is_in_number(&span) { Kind::BadNumber } else { Kind::NonAscii };
        let fault = Fault::Foreign(self.shown(&span));
        Err(Problem { cure, ..self.problem(kind, span, fault) })
    }

    /// True for a full-width digit, point or comma.
    fn is_in_number(&self, span: &Range<usize>) -> bool {
        matches!(self.slice(span).chars().next(), Some('０'..='９' | '．' | '，' | '、' | '。'))
    }

    /// The number at `start` and the place behind it.
    pub(super) fn number(&self, start: usize) -> Parsed<(Rational, usize)> {
        let end = number::end(self.text, start);
        let span = start..end;
        let token = self.slice(&span);
        if token.is_empty() {
            let found = start..self.text.trim_end().len().max(start);
            let fault = Fault::NoNumber(self.shown(&found));
            return Err(self.problem(Kind::BadNumber, found, fault));
        }
        match number::read(token) {
            Ok(value) => Ok((value, end)),
            Err(number::Refused::Size) => Err(self.problem(Kind::TooLarge, span, Fault::Digits)),
            Err(number::Refused::Form) => {
                let shown = self.shown(&span);
                let fault = if number::is_ambiguous(token) { Fault::Ambiguous(shown) } else { Fault::Number(shown) };
                let cure = number::repaired(token).map(|plain| self.replaced(&span, &plain));
                Err(Problem { cure, ..self.problem(Kind::BadNumber, span, fault) })
            }
        }
    }

    /// Where the tolerance begins, at or behind `from`: the end of the text if there is none.
    fn tolerance_start(&self, from: usize) -> usize {
        let bytes = self.text.as_bytes();
        let rest = self.text.get(from..).unwrap_or_default();
        let starts = |at: usize, tail: &str| {
            let next = bytes.get(self.past_spaces(at + 1));
            tail.starts_with(['±', '+'])
                || tail.starts_with("max(")
                || (tail.starts_with('-') && next.is_some_and(u8::is_ascii_digit))
        };
        let found = rest.char_indices().find(|(i, _)| rest.get(*i..).is_some_and(|tail| starts(from + i, tail)));
        found.map_or(self.text.len(), |(i, _)| from + i)
    }

    /// The unit between the number and the tolerance; it must measure what is expected.
    fn target_unit(&self, start: usize, after: usize, behind: usize) -> Parsed<Unit> {
        let span = self.trimmed(after..behind);
        if span.is_empty() {
            return Err(self.bare_number(start, after, behind));
        }
        let unit = self.unit(&span, self.expected)?;
        let found = unit.dimension();
        if !self.expected.is_empty() && !self.expected.contains(&found) {
            let wanted = self.expected.to_vec();
            let kind = Kind::WrongDimension { found, expected: wanted.clone() };
            return Err(self.problem(kind, span, Fault::Measures { unit, wanted }));
        }
        Ok(unit)
    }

    /// The unit written in `span`.
    pub(super) fn unit(&self, span: &Range<usize>, expected: &[Dimension]) -> Parsed<Unit> {
        let written = self.slice(span).split_ascii_whitespace().collect::<Vec<_>>().join(" ");
        if let Some(unit) = Unit::from_symbol(&written) {
            return Ok(unit);
        }
        let named = fold::named(&written, expected);
        if let (None, Some(rest)) = (named, self.behind_unit(span)) {
            let fault = Fault::Behind(self.shown(&rest));
            return Err(self.bad_tolerance(rest, fault));
        }
        let nearest = named.or_else(|| fold::closest(&written, expected));
        let fault = Fault::UnknownUnit { written: self.shown(span), meant: nearest };
        let cure = nearest.map(|unit| self.replaced(span, &format!(" {unit} ")));
        Err(Problem { cure, ..self.problem(Kind::UnknownUnit { nearest }, span.clone(), fault) })
    }

    /// What stands behind a known unit and a space: it must not be lost in a proposal.
    fn behind_unit(&self, span: &Range<usize>) -> Option<Range<usize>> {
        let written = self.slice(span);
        let space = written.find(|c: char| c.is_ascii_whitespace())?;
        Unit::from_symbol(written.get(..space)?)?;
        Some(self.trimmed(span.start + space..span.end))
    }

    /// A number without a unit: proposes the one of the tolerance, else the usual one. Two numbers
    /// with a dash are a range, proposed as target and tolerance.
    fn bare_number(&self, start: usize, after: usize, behind: usize) -> Problem {
        let span = start..after;
        let fault = Fault::NoUnit(self.shown(&span));
        let usual = self.expected.first().map(|dimension| dimension.usual());
        let tail = self.text.get(behind..).unwrap_or_default();
        let own = tail.rfind(|c: char| c.is_ascii_digit() || c == ' ').and_then(|_| self.last_unit(behind));
        let cure = self.range(start, after, behind).or_else(|| {
            let unit = own.filter(|u| self.expected.is_empty() || self.expected.contains(&u.dimension())).or(usual)?;
            Some(self.replaced(&(after..after), &format!(" {unit} ")))
        });
        Problem { cure, ..self.problem(Kind::BareNumber, span, fault) }
    }

    /// The unit behind the last number at or behind `from`.
    fn last_unit(&self, from: usize) -> Option<Unit> {
        let tail = self.text.get(from..)?.trim_end_matches([' ', ')']);
        Unit::ALL
            .into_iter()
            .filter(|unit| {
                tail.strip_suffix(unit.symbol())
                    .is_some_and(|head| head.trim_end().ends_with(|c: char| c.is_ascii_digit()))
            })
            .max_by_key(|unit| unit.symbol().len())
    }

    /// `240-260 mm` as `250 mm ±10 mm`.
    fn range(&self, start: usize, after: usize, behind: usize) -> Option<String> {
        let rest = self.text.get(behind..)?.strip_prefix('-')?;
        let second = self.past_spaces(self.text.len() - rest.len());
        let end = number::end(self.text, second);
        let low = number::read(self.slice(&(start..after))).ok()?;
        let high = number::read(self.slice(&(second..end))).ok().filter(|high| *high > low)?;
        let half = high.checked_sub(low)?.checked_div(Rational::whole(2))?;
        let middle = low.checked_add(half)?;
        let unit = self.text.get(end..)?.trim();
        Some(format!("{middle} {unit} ±{half} {unit}"))
    }

    /// Pieces are counted whole.
    fn whole_pieces(&self, value: Rational, unit: Unit, span: Range<usize>) -> Parsed<()> {
        if unit == Unit::Pc && !value.is_whole() {
            return Err(self.problem(Kind::BadNumber, span, Fault::Fraction));
        }
        Ok(())
    }
}

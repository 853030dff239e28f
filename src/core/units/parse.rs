//! Text to quantity, and every refusal with the text to write instead.

use std::ops::Range;

use super::error::{QuantityError, QuantityErrorKind as Kind};
use super::margin::TOLERANCE;
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
        let Problem { kind, span, message, cure } = problem;
        let fix = cure.filter(|_| cures > 0).and_then(|cure| match attempt(&cure, expected, cures - 1) {
            Ok(read) => Some(read.written()),
            Err(error) => error.fix,
        });
        QuantityError { kind, span, message, fix, certain: false }
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
            .map_err(|error| self.problem(error.kind, start..self.text.trim_end().len(), error.message))?;
        built.text = self.text.split_ascii_whitespace().collect::<Vec<_>>().join(" ");
        Ok(built)
    }

    /// Refuses empty, overlong and non-ASCII text.
    fn characters(&self) -> Parsed<()> {
        let whole = 0..self.text.len();
        if self.text.trim().is_empty() {
            let message = match self.expected.first() {
                Some(dimension) => format!("{dimension} is wanted, such as \"10 {}\"", dimension.usual()),
                None => "a quantity is wanted, such as \"10 mm\"".to_owned(),
            };
            return Err(self.problem(Kind::Empty, whole, message));
        }
        if self.text.len() > LONGEST {
            let message = format!("a quantity has at most {LONGEST} bytes, this has {}", self.text.len());
            return Err(self.problem(Kind::TooLarge, whole, message));
        }
        let Some((span, cure)) = fold::foreign(self.text) else { return Ok(()) };
        let kind = if self.is_in_number(&span) { Kind::BadNumber } else { Kind::NonAscii };
        let message = format!("`{}` is not accepted: quantities are written in plain ASCII and ±", self.shown(&span));
        Err(Problem { cure, ..self.problem(kind, span, message) })
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
            let message = format!("a number is wanted, found `{}`", self.shown(&found));
            return Err(self.problem(Kind::BadNumber, found, message));
        }
        match number::read(token) {
            Ok(value) => Ok((value, end)),
            Err(number::Refused::Size) => {
                let message = "a number has at most 9 digits before the point and 9 after it".to_owned();
                Err(self.problem(Kind::TooLarge, span, message))
            }
            Err(number::Refused::Form) => {
                let shown = self.shown(&span);
                let message = if number::is_ambiguous(token) {
                    format!(
                        "`{shown}` can be read in two ways: write the number with a decimal point, without separators"
                    )
                } else {
                    format!("`{shown}` is not accepted as a number: write digits with at most one decimal point")
                };
                let cure = number::repaired(token).map(|plain| self.replaced(&span, &plain));
                Err(Problem { cure, ..self.problem(Kind::BadNumber, span, message) })
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
            let names: Vec<_> = self.expected.iter().map(|d| d.name()).collect();
            let message = format!("`{unit}` measures {found}, {} is wanted here", names.join(" or "));
            let kind = Kind::WrongDimension { found, expected: self.expected.to_vec() };
            return Err(self.problem(kind, span, message));
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
            let message = format!("`{}` behind the unit is no tolerance: {TOLERANCE}", self.shown(&rest));
            return Err(self.bad_tolerance(rest, &message));
        }
        let nearest = named.or_else(|| fold::closest(&written, expected));
        let message = match nearest {
            Some(unit) => format!("`{}` is no unit known here: is `{unit}` meant?", self.shown(span)),
            None => format!("`{}` is no unit known here", self.shown(span)),
        };
        let cure = nearest.map(|unit| self.replaced(span, &format!(" {unit} ")));
        Err(Problem { cure, ..self.problem(Kind::UnknownUnit { nearest }, span.clone(), message) })
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
        let message = format!("`{}` has no unit", self.shown(&span));
        let usual = self.expected.first().map(|dimension| dimension.usual());
        let tail = self.text.get(behind..).unwrap_or_default();
        let own = tail.rfind(|c: char| c.is_ascii_digit() || c == ' ').and_then(|_| self.last_unit(behind));
        let cure = self.range(start, after, behind).or_else(|| {
            let unit = own.filter(|u| self.expected.is_empty() || self.expected.contains(&u.dimension())).or(usual)?;
            Some(self.replaced(&(after..after), &format!(" {unit} ")))
        });
        Problem { cure, ..self.problem(Kind::BareNumber, span, message) }
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
            return Err(self.problem(Kind::BadNumber, span, "pieces are counted in whole numbers".to_owned()));
        }
        Ok(())
    }
}

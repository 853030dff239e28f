//! Exact readings held against exact limits.

use serde::Serialize;

use crate::compute::reason::DIGITS;
use crate::compute::{Figure, Number};
use crate::model::Reading;
use crate::units::{Limits, Quantity, Rational, Unit};
use crate::words::{Phrase, Word, english, say, words};

words! {
    NOT_READ "verdict.not-read" = "not read";
    NO_LIMITS "verdict.no-limits" = "no limits";
    INSIDE "verdict.inside" = "inside";
    ON_THE_LIMIT "verdict.on-the-limit" = "on the limit";
    TO_BE_ASKED "verdict.to-be-asked-about" = "to be asked about";
    BELOW "verdict.below" = "below";
    ABOVE "verdict.above" = "above";
}

words! {
    NO_READABLE_LIMITS "reading.no-limits" = "{title} has no limits that can be read";
    OTHER_DIMENSION "reading.other-dimension" = "{wanted} is wanted, and {written} was written";
}

/// How something read stands to its limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Not read.
    Unread,
    /// Read, and there are no limits.
    Unjudged,
    /// Between the limits.
    Inside,
    /// Exactly on a limit, which is inside, and not on the target.
    OnLimit,
    /// Looks like a slip: asked about, not judged.
    Questioned,
    /// Below the lower limit.
    Below,
    /// Above the upper limit.
    Above,
}

impl Verdict {
    /// Whether it is refused.
    pub fn is_out(self) -> bool {
        matches!(self, Verdict::Below | Verdict::Above)
    }

    /// Whether it was read and judged.
    pub fn is_judged(self) -> bool {
        matches!(self, Verdict::Inside | Verdict::OnLimit | Verdict::Below | Verdict::Above)
    }

    /// In words.
    pub fn word(self) -> Word {
        match self {
            Verdict::Unread => NOT_READ,
            Verdict::Unjudged => NO_LIMITS,
            Verdict::Inside => INSIDE,
            Verdict::OnLimit => ON_THE_LIMIT,
            Verdict::Questioned => TO_BE_ASKED,
            Verdict::Below => BELOW,
            Verdict::Above => ABOVE,
        }
    }
}

/// One reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ReadFigure {
    /// As it was written; absent where it was not read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// In the unit of its line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<Number>,
    /// How it stands to the limits.
    pub verdict: Verdict,
    /// How far outside, in the unit of its line; absent inside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<Number>,
    /// What to ask, where it looks like a slip.
    #[serde(skip_serializing_if = "Option::is_none", serialize_with = "english")]
    pub asks: Option<Phrase>,
    #[serde(skip)]
    pub(crate) read: Option<Quantity>,
}

/// The readings of one point, mass or stuffing on all pieces, of one side where both are read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ReadLine {
    /// Point of measure, `finished`, `shell`, or stuffing.
    pub of: String,
    /// `left`, `right`, or `difference` of the two; absent where sides are not told apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<&'static str>,
    /// Bulk is refused for it.
    pub critical: bool,
    /// For reference only.
    pub reference: bool,
    /// Symbol of the unit of every number here.
    pub unit: String,
    /// Target.
    pub target: Figure<Number>,
    /// Least reading that passes.
    pub lower: Figure<Number>,
    /// Greatest reading that passes.
    pub upper: Figure<Number>,
    /// One for each piece.
    pub readings: Vec<ReadFigure>,
    /// Mean of what was judged or has no limits.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mean: Option<Number>,
    /// Greatest less least of the same.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<Number>,
    /// Where every piece is outside on one side: how far the mean is off the target, percent of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off: Option<Number>,
    /// The worst of the verdicts.
    pub verdict: Verdict,
    #[serde(skip)]
    pub(crate) against: Against,
}

/// What readings are held against, exactly.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Against {
    /// The unit of printed numbers.
    pub unit: Unit,
    /// Target, in the unit its dimension is held in.
    pub target: Figure<Rational>,
    /// Limits, in the same.
    pub limits: Figure<Limits>,
}

impl Against {
    /// A target with its limits rounded inward to the step that is read.
    pub fn target(target: &Figure<Quantity>, step: Option<&Quantity>, title: impl Into<Phrase>) -> Against {
        let usable = |step: &&Quantity| target.known().is_none_or(|target| target.dimension() == step.dimension());
        let step = step.filter(usable);
        let limits = target.as_ref().then(|target| {
            let limits = match step {
                Some(step) => target.limits_at(step).ok(),
                None => target.limits(),
            };
            limits.map_or_else(|| Figure::not_yet(say!(NO_READABLE_LIMITS, title)), Figure::Known)
        });
        let unit = step.or(target.known()).map_or(Unit::Mm, |quantity| quantity.unit);
        Against { unit, target: target.as_ref().map(Quantity::si), limits }
    }

    /// A number in the unit of the line.
    pub fn number(&self, si: Rational) -> Option<Number> {
        si.checked_div(self.unit.si_factor()).map(Number::exact)
    }

    fn figure(&self, si: Figure<Rational>) -> Figure<Number> {
        si.then(|si| {
            let number = self.number(si).map(Figure::Known);
            number.unwrap_or_else(|| Figure::not_yet(DIGITS))
        })
    }

    /// How a value stands, and by how much it is outside.
    pub fn judge(&self, si: Rational) -> (Verdict, Option<Rational>) {
        let Some(limits) = self.limits.known() else { return (Verdict::Unjudged, None) };
        if si < limits.lower {
            return (Verdict::Below, limits.lower.checked_sub(si));
        }
        if si > limits.upper {
            return (Verdict::Above, si.checked_sub(limits.upper));
        }
        // What is exactly as wanted is not on the limit, even where the target is one.
        let ideal = self.target.known() == Some(&si);
        let on = !ideal && (si == limits.lower || si == limits.upper);
        (if on { Verdict::OnLimit } else { Verdict::Inside }, None)
    }

    /// The figure of one reading.
    pub fn read(&self, read: Option<&Quantity>) -> ReadFigure {
        let Some(read) = read else {
            return ReadFigure { text: None, value: None, verdict: Verdict::Unread, by: None, asks: None, read: None };
        };
        let text = Some(read.text.clone());
        if read.dimension() != self.unit.dimension() && self.target.known().is_some() {
            let asks = say!(OTHER_DIMENSION, wanted = self.unit.dimension(), written = &read.text);
            let read = Some(read.clone());
            return ReadFigure { text, value: None, verdict: Verdict::Questioned, by: None, asks: Some(asks), read };
        }
        let (verdict, by) = self.judge(read.si());
        let by = by.and_then(|by| self.number(by));
        ReadFigure { text, value: self.number(read.si()), verdict, by, asks: None, read: Some(read.clone()) }
    }
}

/// What a line is of.
pub(crate) struct Of<'a> {
    pub id: &'a str,
    pub side: Option<&'static str>,
    pub critical: bool,
    pub reference: bool,
}

/// A line before anything is asked about.
pub(crate) fn line(of: &Of<'_>, against: Against, readings: &[Reading], pieces: usize) -> ReadLine {
    let each = (0..pieces.max(readings.len())).map(|at| readings.get(at).and_then(|one| one.value.as_ref()));
    let readings = each.map(|one| against.read(one)).collect();
    ReadLine {
        of: of.id.to_string(),
        side: of.side,
        critical: of.critical,
        reference: of.reference,
        unit: against.unit.symbol().to_string(),
        target: against.figure(against.target.clone()),
        lower: against.figure(against.limits.clone().map(|limits| limits.lower)),
        upper: against.figure(against.limits.clone().map(|limits| limits.upper)),
        readings,
        mean: None,
        range: None,
        off: None,
        verdict: Verdict::Unread,
        against,
    }
}

pub(crate) fn sum_up(line: &mut ReadLine) {
    line.verdict = line.readings.iter().map(|one| one.verdict).max().unwrap_or(Verdict::Unread);
    let counted = |one: &&ReadFigure| one.verdict.is_judged() || one.verdict == Verdict::Unjudged;
    let values: Vec<Rational> =
        line.readings.iter().filter(counted).filter_map(|one| Some(one.read.as_ref()?.si())).collect();
    let (Some(least), Some(greatest)) = (values.iter().min(), values.iter().max()) else { return };
    line.range = greatest.checked_sub(*least).and_then(|range| line.against.number(range));
    let sum = values.iter().try_fold(Rational::ZERO, |sum, value| sum.checked_add(*value));
    let mean = sum.and_then(|sum| sum.checked_div(Rational::whole(i64::try_from(values.len()).ok()?)));
    line.mean = mean.and_then(|mean| line.against.number(mean));
    line.off = mean.and_then(|mean| off(line, mean));
}

/// How far the mean is off the target, percent, where at least two pieces were read and all are outside on one side.
fn off(line: &ReadLine, mean: Rational) -> Option<Number> {
    let target = line.against.target.known().filter(|target| target.is_positive())?;
    let all = |verdict| line.readings.len() > 1 && line.readings.iter().all(|one| one.verdict == verdict);
    if !(all(Verdict::Below) || all(Verdict::Above)) {
        return None;
    }
    let share = mean.checked_sub(*target)?.checked_div(*target)?;
    Some(Number::new(share.to_f64() * 100.0))
}

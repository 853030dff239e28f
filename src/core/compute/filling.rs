//! Masses of filling by stuffing and in all, with their limits.

use serde::Serialize;

use crate::model::{Stuffing, Variant};
use crate::standards::common::{FILLING_FLOOR, FILLING_STUFFING};
use crate::units::{Limits, Quantity, Rational};
use crate::words::{Phrase, Word, english, say, words};

use super::input::{Bought, ByVariant, Ground};
use super::number::{exact, small};
use super::reason::{CHECK_OF, FILLING_MASS_OF, FILLING_OF, NO_TOLERANCE};
use super::{Figure, Number};

words! {
    PROPOSED "filling.proposed" = "{basis}, {share} % and at least {least} g";
}

/// Masses from here on, g, are read in whole grams, lighter ones in tenths, where no scale is stated (common practice).
const WHOLE_FROM: i64 = 200;
/// How often a step is made ten times finer at most, where no limit lies on it.
const FINER: usize = 6;

/// The filling of one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Filling {
    /// One line for each stuffing, in the order of their ids.
    pub stuffings: Vec<StuffingLine>,
    /// All stuffings of one product together.
    pub total: Limited,
}

/// A mass with its limits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Limited {
    /// Target, g.
    pub target: Figure<Number>,
    /// Lower limit, g: as stated, or the sum of lower limits; of what is printed, rounded inward to what a scale reads.
    pub lower: Figure<Number>,
    /// Upper limit, g.
    pub upper: Figure<Number>,
}

/// One stuffing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct StuffingLine {
    /// Stuffing id.
    pub stuffing: String,
    /// The part it fills, if stated.
    pub part: Option<String>,
    /// How often the part is used in one product.
    pub uses: u64,
    /// The filling.
    pub bought: Figure<Bought>,
    /// Mass in one use of the part.
    pub each: Limited,
    /// Mass in all uses of the part.
    pub all: Limited,
    /// Limits of `each` to propose where no tolerance is stated (common practice); never used in a total.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub proposed: Option<Proposed>,
    /// The step that the scale reads, g; absent where none is stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub read_to: Option<Number>,
    /// How the mass is checked.
    pub check: Figure<String>,
}

/// Limits that nobody has stated.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Proposed {
    /// Lower limit, g.
    pub lower: Number,
    /// Upper limit, g.
    pub upper: Number,
    /// What they follow.
    #[serde(serialize_with = "english")]
    pub basis: Phrase,
}

pub(super) fn filling(ground: &Ground<'_>) -> ByVariant<Filling> {
    ground.by_variant(|variant| {
        let stuffings: Vec<StuffingLine> =
            ground.model.stuffings.iter().map(|(id, stuffing)| stuffing_line(ground, id, stuffing, variant)).collect();
        let total = Limited::sum(stuffings.iter().map(|line| &line.all));
        Filling { stuffings, total }
    })
}

impl Limited {
    /// Target and limits of a stated quantity; limits are not known where no tolerance is stated.
    pub(super) fn of(quantity: &Figure<Quantity>, what: impl Into<Phrase>) -> Limited {
        let limits = quantity.as_ref().then(|quantity| match quantity.limits() {
            Some(limits) => Figure::Known((limits, quantity.dimension())),
            None => Figure::not_yet(say!(NO_TOLERANCE, what)),
        });
        Limited {
            target: quantity.as_ref().then(|quantity| exact(quantity.si(), quantity.dimension())),
            lower: limits.clone().then(|(limits, dimension)| exact(limits.lower, dimension)),
            upper: limits.then(|(limits, dimension)| exact(limits.upper, dimension)),
        }
    }

    /// Targets and limits added up: the limits of the worst case.
    pub(super) fn sum<'l>(lines: impl Iterator<Item = &'l Limited> + Clone) -> Limited {
        Limited {
            target: Figure::sum(lines.clone().map(|line| line.target.clone())),
            lower: Figure::sum(lines.clone().map(|line| line.lower.clone())),
            upper: Figure::sum(lines.map(|line| line.upper.clone())),
        }
    }

    /// The same with limits rounded inward to what a scale reads: lower up, upper down; to a finer step where none that passes lies
    /// on that one. What is printed, judged and written to figures are these.
    #[must_use]
    pub(super) fn readable(&self, scale: Option<Rational>) -> Limited {
        let exact = |figure: &Figure<Number>| figure.known().and_then(|number| number.rational());
        let heavy = exact(&self.target).is_some_and(|target| target >= Rational::whole(WHOLE_FROM));
        let first = scale.or_else(|| Rational::new(1, if heavy { 1 } else { 10 }));
        let (Some(lower), Some(upper)) = (exact(&self.lower), exact(&self.upper)) else { return self.clone() };
        let finer = |step: &Rational| step.checked_div(Rational::whole(10));
        let mut steps = std::iter::successors(first, finer).take(FINER);
        match steps.find_map(|step| Limits { lower, upper }.inward(step).ok()) {
            Some(Limits { lower, upper }) => {
                let known = |limit| Figure::Known(Number::exact(limit));
                Limited { target: self.target.clone(), lower: known(lower), upper: known(upper) }
            }
            None => self.clone(),
        }
    }

    /// So many times the mass.
    pub(super) fn times(&self, count: u64) -> Limited {
        let times = |figure: &Figure<Number>| figure.clone().map(|number| number.multiplied(count));
        Limited { target: times(&self.target), lower: times(&self.lower), upper: times(&self.upper) }
    }
}

/// The same with every limit as it is read.
pub(super) fn readable(mut all: ByVariant<Filling>) -> ByVariant<Filling> {
    for filling in all.values_mut().flat_map(|by| by.values_mut()) {
        filling.total = filling.total.readable(None);
        for line in &mut filling.stuffings {
            let scale = line.read_to.and_then(|step| step.rational());
            line.each = line.each.readable(scale);
            line.all = line.all.readable(scale);
        }
    }
    all
}

fn stuffing_line(ground: &Ground<'_>, id: &str, stuffing: &Stuffing, variant: Variant<'_>) -> StuffingLine {
    let title = stuffing.entry.title();
    let part = stuffing.part.as_ref().map(|part| part.value.clone());
    let uses = part.as_ref().and_then(|part| ground.model.parts.get(part)).map_or(1, |part| part.uses.len() as u64);
    let mass = Figure::of(stuffing.mass.as_ref(), variant, say!(FILLING_MASS_OF, title));
    let each = Limited::of(&mass, say!(FILLING_OF, title));
    let material = stuffing.filling.as_ref().map(|material| material.value.as_str());
    StuffingLine {
        stuffing: id.to_string(),
        uses,
        bought: ground.bought(material, variant.colourway, say!(FILLING_OF, title)),
        all: each.times(uses),
        proposed: proposed(&mass),
        read_to: stuffing.read_to.as_ref().and_then(|step| step.known(variant)).and_then(grams),
        check: Figure::stated(stuffing.check.as_ref(), say!(CHECK_OF, title)),
        part,
        each,
    }
}

/// A step that can be used, g.
fn grams(step: &Quantity) -> Option<Number> {
    let step = exact(step.si(), step.dimension()).known().copied();
    step.filter(|step| step.raw() > 0.0)
}

/// A tenth of the mass, but no finer than can be kept.
fn proposed(mass: &Figure<Quantity>) -> Option<Proposed> {
    let quantity = mass.known()?;
    if quantity.tolerance.is_some() {
        return None;
    }
    let target = small(quantity);
    let margin = (target * FILLING_STUFFING.high / 100.0).max(FILLING_FLOOR.high);
    let basis = FILLING_STUFFING.basis;
    Some(Proposed {
        lower: Number::new((target - margin).max(0.0)),
        upper: Number::new(target + margin),
        basis: say!(
            PROPOSED,
            basis = Word { key: basis.key(), en: basis.words() },
            share = FILLING_STUFFING.high.to_string(),
            least = FILLING_FLOOR.high.to_string()
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limited(target: &str, lower: &str, upper: &str) -> Limited {
        let number = |text: &str| Figure::Known(Number::exact(Rational::parse(text).unwrap()));
        Limited { target: number(target), lower: number(lower), upper: number(upper) }
    }

    fn read(limited: &Limited, scale: Option<&str>) -> [f64; 2] {
        let read = limited.readable(scale.map(|step| Rational::parse(step).unwrap()));
        [read.lower.get().unwrap(), read.upper.get().unwrap()]
    }

    #[test]
    fn limits_go_inward_from_their_exact_values() {
        assert_eq!(read(&limited("900", "855", "945"), None), [855.0, 945.0]);
        assert_eq!(read(&limited("900", "855.0000000001", "944.9999999999"), None), [856.0, 944.0]);
        assert_eq!(read(&limited("30", "28.45", "31.549"), None), [28.5, 31.5]);
        assert_eq!(read(&limited("164.7", "155.42", "173.94"), None), [155.5, 173.9]);
    }

    #[test]
    fn limits_go_inward_to_what_the_scale_reads() {
        assert_eq!(read(&limited("164.7", "155.42", "173.94"), Some("0.5")), [155.5, 173.5]);
        assert_eq!(read(&limited("900", "855.3", "944.7"), Some("5")), [860.0, 940.0]);
    }

    #[test]
    fn limits_too_narrow_for_their_step_are_read_finer() {
        assert_eq!(read(&limited("250.4", "250.2", "250.6"), None), [250.2, 250.6]);
        assert_eq!(read(&limited("250.4", "250.21", "250.23"), None), [250.21, 250.23]);
    }
}

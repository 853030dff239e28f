//! Figures of one sample: readings with their verdicts, what was looked at, grades, and how many of each.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::compute::reason::{DIFFERENCE_OF, DIGITS, MASS_PER_AREA_OF, TARGET_OF};
use crate::compute::{ByVariant, Figure, Filling, Limited, Mass, Number};
use crate::model::{Graded, Model, PointOfMeasure, Reading, Readings, Sample, Stated, Variant};
use crate::source::Spanned;
use crate::standards::grey::{Scale, find, reaches};
use crate::units::{Date, Limits, Quantity, Rational, Unit};
use crate::words::say;

use super::colours;
use super::colours::ColourLine;
use super::judge::{Against, Of, ReadLine, Verdict, line};
use super::slips::settle;

/// One sample.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SampleResult {
    /// What it is called.
    pub name: String,
    /// What kind of sample.
    pub kind: Option<String>,
    /// The revision it was made to.
    pub of: Option<String>,
    /// Size.
    pub size: Option<String>,
    /// Colourway.
    pub colourway: Option<String>,
    /// How many pieces.
    pub pieces: usize,
    /// `real` or `substitute`.
    pub material: Option<String>,
    /// When it was asked for.
    pub asked: Option<Date>,
    /// When it is due.
    pub due: Option<Date>,
    /// To whom it goes.
    pub to: Option<String>,
    /// When it came.
    pub received: Option<Date>,
    /// When it was measured.
    pub measured: Option<Date>,
    /// Who measured.
    pub by: Option<String>,
    /// With what.
    pub tool: Option<String>,
    /// How long it rested before.
    pub rest: Option<String>,
    /// A remark.
    pub note: Option<String>,
    /// Whether only the own edition shows it.
    pub own: bool,
    /// Whether it is the last of its size that came or was measured.
    pub last: bool,
    /// Every point of measure, both sides and their difference where they are read.
    pub points: Vec<ReadLine>,
    /// Masses: `finished`, `shell`, then stuffings, then mass per area as `fabric.ID`.
    pub masses: Vec<ReadLine>,
    /// Colours.
    pub colours: Vec<ColourLine>,
    /// What was looked at.
    pub checks: Vec<LookedLine>,
    /// Grades of colour fastness.
    pub grades: Vec<GradeLine>,
    /// Readings of points and masses by verdict.
    pub tally: Tally,
    /// The sealed revision whose limits judge it; none where those of the specification do.
    #[serde(skip)]
    pub judged_by: Option<String>,
    /// The readings held against the specification, where a sealed revision judges them.
    #[serde(skip)]
    pub today: Vec<ReadLine>,
}

impl SampleResult {
    /// Judged as the sealed revision judges it that it was made to; what the specification says of it stays beside.
    pub(crate) fn judge_by(&mut self, revision: &str, then: &SampleResult) {
        let now = std::mem::replace(&mut self.points, then.points.clone());
        let weighed = std::mem::replace(&mut self.masses, then.masses.clone());
        self.today = now.into_iter().chain(weighed).collect();
        self.colours.clone_from(&then.colours);
        self.tally = then.tally;
        self.judged_by = Some(revision.to_string());
    }
}

/// How many readings have which verdict.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Tally {
    /// Inside, those on a limit too.
    pub inside: usize,
    /// Of these, exactly on a limit.
    pub on_limit: usize,
    /// Below or above.
    pub outside: usize,
    /// To be asked about.
    pub questioned: usize,
    /// Not read.
    pub unread: usize,
    /// Read, without limits.
    pub unjudged: usize,
}

/// Something that was looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LookedLine {
    /// What.
    pub text: String,
    /// Whether it passes; absent as long as nobody looked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub passes: Option<bool>,
    /// A remark.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A grade.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct GradeLine {
    /// The test.
    pub test: String,
    /// What it was made on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// The grade found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<String>,
    /// The least that is accepted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub required: Option<String>,
    /// Difference of the pair of greys of the grade that was found, CIELAB units of 1976.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub contrast: Option<Number>,
    /// Whether it passes; absent where a grade is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub passes: Option<bool>,
}

/// Masses of the product and of its portions.
type Weighed<'a> = (&'a ByVariant<Mass>, &'a ByVariant<Filling>);

pub(crate) fn samples(
    model: &Model,
    mass: &ByVariant<Mass>,
    filling: &ByVariant<Filling>,
) -> BTreeMap<String, SampleResult> {
    let only = model.sizes.first().map_or("", |size| size.entry.id.value.as_str());
    let last = model.samples.last(only);
    let of = |(id, sample): (&String, &Sample)| {
        let is_last = last.values().any(|one| one.entry.id.value == *id);
        (id.clone(), figures(model, (mass, filling), sample, is_last))
    };
    model.samples.samples.iter().map(of).collect()
}

fn figures(model: &Model, weighed: Weighed<'_>, sample: &Sample, last: bool) -> SampleResult {
    let word = |word: &Option<Spanned<String>>| word.as_ref().map(|word| word.value.clone());
    let day = |day: &Option<Stated<Date>>| day.as_ref().and_then(|day| day.known().copied());
    let pieces = pieces(sample);
    let variant = variant(model, sample);
    let points = variant.map_or_else(Vec::new, |variant| points(model, sample, variant, pieces));
    let masses = variant.map_or_else(Vec::new, |variant| masses(model, weighed, sample, (variant, pieces)));
    let colourway = sample.colourway.as_ref().map(|colourway| colourway.value.as_str());
    SampleResult {
        name: sample.entry.title().to_string(),
        kind: word(&sample.kind),
        of: word(&sample.of),
        size: word(&sample.size),
        colourway: word(&sample.colourway),
        material: word(&sample.material),
        asked: day(&sample.asked),
        due: day(&sample.due),
        to: word(&sample.to),
        received: day(&sample.received),
        measured: day(&sample.measured),
        by: word(&sample.by),
        tool: word(&sample.tool),
        rest: sample.rest.as_ref().and_then(|rest| Some(rest.known()?.text.clone())),
        note: word(&sample.note),
        own: sample.own,
        last,
        tally: tally(points.iter().chain(&masses)),
        colours: sample.colours.values().map(|one| colours::line(model, one, colourway)).collect(),
        checks: sample.checks.iter().filter_map(looked).collect(),
        grades: sample.grades.iter().map(graded).collect(),
        judged_by: None,
        today: Vec::new(),
        pieces,
        points,
        masses,
    }
}

/// How many pieces: as stated, or as many as were read.
fn pieces(sample: &Sample) -> usize {
    let stated = sample.pieces.as_ref().and_then(|pieces| pieces.known()).map(|pieces| *pieces as usize);
    let read = || sample.readings.values().flat_map(Readings::sides).map(|(_, list)| list.len()).max();
    stated.or_else(read).unwrap_or(0)
}

/// The product it is of; the only size and colourway where none is named.
pub(crate) fn variant<'a>(model: &'a Model, sample: &'a Sample) -> Option<Variant<'a>> {
    let size = match &sample.size {
        Some(size) => model.size(&size.value)?,
        None => model.sizes.first().filter(|_| model.sizes.len() == 1)?,
    };
    let colourway = match &sample.colourway {
        Some(colourway) => model.colourways.get_key_value(&colourway.value)?.0,
        None => model.ways().into_iter().next()?,
    };
    Some(Variant { size: &size.entry.id.value, colourway })
}

fn points(model: &Model, sample: &Sample, variant: Variant<'_>, pieces: usize) -> Vec<ReadLine> {
    let mut lines = Vec::new();
    let mut differences = Vec::new();
    for (id, point) in &model.measures {
        let flag = |flag: &Option<Spanned<bool>>| flag.as_ref().is_some_and(|flag| flag.value);
        let of = |side| Of { id, side, critical: flag(&point.critical), reference: flag(&point.reference) };
        let against = against(point, variant);
        match sample.readings.get(id) {
            None => lines.push(line(&of(None), against, &[], pieces)),
            Some(readings) => {
                for (side, list) in readings.sides() {
                    lines.push(line(&of(side), against.clone(), list, pieces));
                }
                if let Some(right) = &readings.right {
                    let apart = apart(&readings.first, right);
                    differences.push(line(&of(Some("difference")), difference(point, against.unit), &apart, pieces));
                }
            }
        }
    }
    settle(&mut lines);
    settle(&mut differences);
    for one in differences {
        let at = lines.iter().rposition(|line| line.of == one.of).map_or(lines.len(), |at| at + 1);
        lines.insert(at, one);
    }
    lines
}

/// The target of a point for one product with the limits that are printed on its sheet.
pub(crate) fn against(point: &PointOfMeasure, variant: Variant<'_>) -> Against {
    let title = point.entry.title();
    let target = Figure::of(point.target.as_ref(), variant, say!(TARGET_OF, title));
    Against::target(&target, point.read_to.as_ref().and_then(|step| step.known(variant)), title)
}

/// No difference, up to the largest one either way.
fn difference(point: &PointOfMeasure, unit: Unit) -> Against {
    let title = point.entry.title();
    let most = Figure::stated(point.difference.as_ref(), say!(DIFFERENCE_OF, title));
    let limits = most.map(|most| Limits {
        lower: Rational::ZERO.checked_sub(most.si()).unwrap_or(Rational::ZERO),
        upper: most.si(),
    });
    Against { unit, target: Figure::Known(Rational::ZERO), limits }
}

/// Left less right on each piece, where both were read.
fn apart(left: &[Reading], right: &[Reading]) -> Vec<Reading> {
    let each = left.iter().zip(right).map(|(left, right)| {
        let both = left.value.as_ref().zip(right.value.as_ref());
        let apart = both.and_then(|(one, other)| {
            let value = one.si().checked_sub(other.si())?;
            let value = value.checked_div(one.unit.si_factor())?;
            Quantity::new(value, one.unit, None).ok().filter(|_| one.dimension() == other.dimension())
        });
        Spanned::new(apart, left.span)
    });
    each.collect()
}

fn masses(
    model: &Model,
    (mass, filling): Weighed<'_>,
    sample: &Sample,
    (variant, pieces): (Variant<'_>, usize),
) -> Vec<ReadLine> {
    let all = mass.get(variant.size).and_then(|by| by.get(variant.colourway));
    let portions = filling.get(variant.size).and_then(|by| by.get(variant.colourway));
    let mut lines = Vec::new();
    fn of(id: &str) -> Of<'_> {
        Of { id, side: None, critical: false, reference: false }
    }
    let whole: [(&str, &Option<Readings>, Option<&Limited>); 2] = [
        ("finished", &sample.finished, all.map(|mass| &mass.product)),
        ("shell", &sample.shell, all.map(|mass| &mass.shell)),
    ];
    for (id, readings, limited) in whole {
        let (Some(readings), Some(limited)) = (readings, limited) else { continue };
        let stated = all.and_then(|mass| model.measures.get(mass.stated.as_ref().filter(|_| id == "finished")?));
        let reference = stated.is_some_and(|point| point.reference.as_ref().is_some_and(|flag| flag.value));
        lines.push(line(&Of { reference, ..of(id) }, weighed(limited), &readings.first, pieces));
    }
    for (id, readings) in &sample.stuffings {
        let portion = portions.and_then(|all| all.stuffings.iter().find(|line| line.stuffing == *id));
        let Some(portion) = portion else { continue };
        lines.push(line(&of(id), weighed(&portion.each), &readings.first, pieces));
    }
    for (id, readings) in &sample.fabric {
        let Some(article) = model.articles.get(id) else { continue };
        let what = say!(MASS_PER_AREA_OF, title = article.entry.title());
        let target = Figure::of(article.quantity("mass"), variant, what.clone());
        let id = format!("fabric.{id}");
        lines.push(line(&of(&id), Against::target(&target, None, what), &readings.first, pieces));
    }
    settle(&mut lines);
    lines
}

/// A mass, g, with its limits as they are printed.
fn weighed(limited: &Limited) -> Against {
    let exact = |figure: &Figure<Number>| {
        figure.clone().then(|number| {
            let held = number.rational().and_then(|grams| grams.checked_div(Rational::whole(1_000)));
            held.map_or_else(|| Figure::not_yet(DIGITS), Figure::Known)
        })
    };
    let limits = exact(&limited.lower).with(exact(&limited.upper), |lower, upper| Limits { lower, upper });
    Against { unit: Unit::G, target: exact(&limited.target), limits }
}

fn looked(one: &crate::model::Looked) -> Option<LookedLine> {
    Some(LookedLine {
        text: one.text.as_ref()?.value.clone(),
        passes: one.result.as_ref().map(|result| result.value == "pass"),
        note: one.note.as_ref().map(|note| note.value.clone()),
    })
}

fn graded(one: &Graded) -> GradeLine {
    let word = |word: &Option<Spanned<String>>| word.as_ref().map(|word| word.value.clone());
    let test = word(&one.test).unwrap_or_default();
    let scale = if test == "change in colour" { Scale::Change } else { Scale::Staining };
    let (grade, required) = (word(&one.grade), word(&one.required));
    GradeLine {
        of: word(&one.of),
        contrast: grade.as_ref().and_then(|grade| Some(Number::new(find(scale, grade)?.difference))),
        passes: grade.as_ref().zip(required.as_ref()).and_then(|(grade, wanted)| reaches(grade, wanted)),
        test,
        grade,
        required,
    }
}

fn tally<'a>(lines: impl Iterator<Item = &'a ReadLine>) -> Tally {
    let mut tally = Tally::default();
    for verdict in lines.flat_map(|line| &line.readings).map(|one| one.verdict) {
        let count = match verdict {
            Verdict::Inside => &mut tally.inside,
            Verdict::OnLimit => {
                tally.on_limit += 1;
                &mut tally.inside
            }
            Verdict::Below | Verdict::Above => &mut tally.outside,
            Verdict::Questioned => &mut tally.questioned,
            Verdict::Unread => &mut tally.unread,
            Verdict::Unjudged => &mut tally.unjudged,
        };
        *count += 1;
    }
    tally
}

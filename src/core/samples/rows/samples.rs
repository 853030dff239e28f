//! What the samples show: a sheet for each sample, with every reading between its limits.

use crate::compute::Number;
use crate::samples::figures::{ColourLine, ColourRead, GradeLine, ReadFigure, ReadLine, SampleResult, Verdict};
use crate::scene::{Chart, ChartReading, readings};
use crate::units::Date;
use crate::words::{Phrase, Word, head as heads, number, say, sheet as sentences, words};

use crate::rows::cell::Cell;
use crate::rows::choice::{begun, said};
use crate::rows::data::{BesideRow, MoreReadings, Read, ReadRow, Samples, Sheet};
use crate::rows::package::{Drawing, Fact, Head};
use crate::rows::view::View;
use crate::rows::written::day as on;

words! {
    TITLE "samples.title" = "{sample}: {name}";
    MADE_TO "samples.made-to" = "Made to revision";
    MADE_IN "samples.made-in" = "Size, colourway";
    ASKED_FOR "samples.asked-for" = "Asked for";
    DUE "samples.due" = "Due";
    TO "samples.to" = "To";
    RECEIVED "samples.received" = "Received";
    MEASURED "samples.measured" = "Measured";
    BY_WITH "samples.by-with" = "By, with";
    RESTED "samples.rested" = "Rested";
    INSIDE "samples.inside" = "Inside";
    ON_LIMIT "samples.on-limit" = "{inside}, {count} of them on the limit";
    OUTSIDE "samples.outside" = "Outside";
    QUESTIONED "samples.questioned" = "To be asked about";
    UNREAD "samples.unread" = "Not read";
    UNJUDGED "samples.unjudged" = "Without limits";
    FILLING "samples.filling" = "{name}, filling";
    AREA_MASS "samples.area-mass" = "{name}, mass per area";
    FINISHED "samples.finished" = "Finished product, without hangtag and packing";
    FINISHED_STATED "samples.finished-stated" = "Finished product, without hangtag and packing, as stated at {point}";
    SHELL "samples.shell" = "Shell before filling";
    AGAINST "samples.against" = "{name}, left against right";
    ON_SIDE "samples.on-side" = "{name}, {side}";
    BY_UP_TO "samples.by-up-to" = "{verdict} by up to {amount}";
    REFERENCE_ONLY "samples.reference-only" = "{verdict}, for reference only";
    AT_LEAST "samples.at-least" = "at least {value}";
    AT_MOST "samples.at-most" = "at most {value}";
    CHART_ALT "samples.chart-alt" = "Readings of {title} on {count} pieces: {verdict}";
    NOT_LOOKED "samples.not-looked" = "not looked at";
    NOT_JUDGED "samples.not-judged" = "not judged";
    PASSES "samples.passes" = "passes";
    FAILS "samples.fails" = "fails";
    GRADE "samples.grade" = "grade {grade}";
    GRADE_ASKED "samples.grade-asked" = "grade {grade} or better";
    COLOUR_OF "samples.colour-of" = "Colour of {material}";
    COLOUR_LIMIT "samples.colour-limit" = "CIEDE2000 at most {limit}";
    COLOUR_MEAN "samples.colour-mean" = "{readings}, mean {mean}";
    JUDGED_BY "samples.judged-by" = "Judged by the limits of";
    OF_REVISION "samples.of-revision" = "revision {revision}";
    TODAY "samples.today" = "Limits of revision {revision}";
    NOT_ITS_OWN "samples.not-its-own" = "Made to revision {made} and judged by the limits of revision {judge}, because revision {made} is not the last sealed one here.";
    ASKS "samples.asks" = "{name}, piece {piece}: {asks}";
    LONG "samples.long" = "{name}: every piece is outside on the same side, {share} off the target on average. A hint only: the edges this point spans may be about that much too long in the pattern.";
    SHORT "samples.short" = "{name}: every piece is outside on the same side, {share} off the target on average. A hint only: the edges this point spans may be about that much too short in the pattern.";
}

/// Columns of readings beside the limits, and in a table of further pieces.
const COLUMNS: usize = 5;
const MORE: usize = 14;
/// Decimals at most.
const PLACES: u32 = 2;

/// A sheet for each sample, the last one first.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut samples: Vec<(&String, &SampleResult)> = view.samples.samples.iter().collect();
    samples.sort_by_key(|(id, sample)| (std::cmp::Reverse(day(sample)), (*id).clone()));
    samples.into_iter().map(|(_, sample)| Sheet::Samples(sheet(view, sample))).collect()
}

fn day(sample: &SampleResult) -> Option<Date> {
    sample.measured.or(sample.received).or(sample.due).or(sample.asked)
}

fn sheet(view: &View<'_>, sample: &SampleResult) -> Samples {
    let lines = || sample.points.iter().chain(&sample.masses);
    let shown = sample.pieces.min(COLUMNS);
    let all: Vec<&ReadLine> = lines().collect();
    Samples {
        head: Head {
            title: sentences::SAMPLE_TITLE.into(),
            name: say!(TITLE, sample = sentences::SAMPLE, name = &sample.name),
            lead: sentences::SAMPLE_LEAD.into(),
        },
        facts: facts(view, sample),
        pieces: (1..=shown).map(|number| number.to_string()).collect(),
        rows: lines().map(|line| ReadRow { today: today(sample, line), ..row(view, line, shown) }).collect(),
        more: more(view, &all, sample.pieces),
        today: if sample.today.is_empty() { Phrase::none() } else { say!(TODAY, revision = now(view)) },
        beside: beside(view, sample),
        notes: notes(view, sample),
    }
}

/// The revision of the specification.
fn now<'a>(view: &View<'a>) -> &'a str {
    view.text(view.model.revision.id.as_ref())
}

/// The limits of the specification beside those that judge, with the verdict where it is another one.
fn today(sample: &SampleResult, line: &ReadLine) -> Cell {
    let Some(now) = sample.today.iter().find(|one| one.of == line.of && one.side == line.side) else {
        return Cell::Empty;
    };
    let differs = now.verdict != line.verdict;
    let parts = [Some(limits(now)), differs.then(|| Cell::from(verdict(now)))];
    Cell::Lines(parts.into_iter().flatten().collect())
}

fn facts(view: &View<'_>, sample: &SampleResult) -> Vec<Fact> {
    let text = |text: &Option<String>| text.as_ref().map_or_else(Phrase::none, Phrase::from);
    let word = |text: &Option<String>| text.as_deref().map_or_else(Phrase::none, begun);
    let tally = &sample.tally;
    let inside = match tally.on_limit {
        0 => Phrase::from(tally.inside),
        count => say!(ON_LIMIT, inside = tally.inside, count),
    };
    let counted = [(QUESTIONED, tally.questioned), (UNREAD, tally.unread), (UNJUDGED, tally.unjudged)];
    let mut all = vec![
        Fact::of(heads::KIND, word(&sample.kind)),
        Fact::of(MADE_TO, word(&sample.of)),
        Fact::of(JUDGED_BY, say!(OF_REVISION, revision = sample.judged_by.as_deref().unwrap_or(now(view)))),
        Fact::of(MADE_IN, Phrase::list([text(&sample.size), text(&sample.colourway)])),
        Fact::of(heads::PIECES_CUT, Phrase::from(sample.pieces)),
        Fact::of(heads::MATERIAL, word(&sample.material)),
        Fact::of(ASKED_FOR, on(sample.asked)),
        Fact::of(DUE, on(sample.due)),
        Fact::of(TO, text(&sample.to)),
        Fact::of(RECEIVED, on(sample.received)),
        Fact::of(MEASURED, on(sample.measured)),
        Fact::of(BY_WITH, Phrase::list([text(&sample.by), text(&sample.tool)])),
        Fact::of(RESTED, text(&sample.rest)),
        Fact::of(INSIDE, inside),
        Fact::of(OUTSIDE, Phrase::from(tally.outside)),
    ];
    all.extend(
        counted.into_iter().filter(|(_, count)| *count > 0).map(|(label, count)| Fact::of(label, Phrase::from(count))),
    );
    all.retain(|fact| !fact.value.is_blank());
    all
}

fn row(view: &View<'_>, line: &ReadLine, shown: usize) -> ReadRow {
    let weight = match (line.critical, line.reference) {
        (true, _) => heads::CRITICAL.into(),
        (_, true) => heads::FOR_REFERENCE.into(),
        _ => Phrase::none(),
    };
    let plain = |value: &Option<Number>| value.map_or(Cell::Empty, |value| amount(value, ""));
    ReadRow {
        number: point(view, line),
        name: name(view, line),
        weight,
        target: plain_with(line.target.known(), &line.unit),
        limits: limits(line),
        readings: line.readings.iter().take(shown).map(read).collect(),
        chart: line.readings.iter().any(|one| one.value.is_some()).then(|| chart(line)),
        mean: plain(&line.mean),
        range: plain(&line.range),
        verdict: verdict(line),
        out: line.verdict.is_out(),
        today: Cell::Empty,
    }
}

/// The number of a point of measure; empty for masses.
fn point(view: &View<'_>, line: &ReadLine) -> String {
    if view.model.measures.contains_key(&line.of) { line.of.clone() } else { String::new() }
}

/// Readings of the pieces that find no room beside the limits.
fn more(view: &View<'_>, lines: &[&ReadLine], pieces: usize) -> Vec<MoreReadings> {
    let numbers: Vec<usize> = (COLUMNS..pieces).collect();
    let table = |some: &[usize]| {
        let reading = |line: &ReadLine, at: usize| line.readings.get(at).map(read).unwrap_or_default();
        let row = |line: &&ReadLine| {
            (point(view, line), name(view, line), some.iter().map(|at| reading(line, *at)).collect())
        };
        MoreReadings {
            pieces: some.iter().map(|at| (at + 1).to_string()).collect(),
            rows: lines.iter().map(row).collect(),
        }
    };
    numbers.chunks(MORE).map(table).collect()
}

/// A number that may be absent, with its unit.
fn plain_with(value: Option<&Number>, unit: &str) -> Cell {
    value.map_or(Cell::Empty, |value| amount(*value, unit))
}

/// A number as this sheet shows it: up to two decimals.
fn amount(value: Number, unit: &str) -> Cell {
    Cell::amount(value, PLACES, unit)
}

/// What is read, for people, with its side.
fn name(view: &View<'_>, line: &ReadLine) -> Phrase {
    let article =
        |id: &str| view.model.articles.get(id).map_or(id.into(), |article| Phrase::from(article.entry.title()));
    let name = match (view.model.measures.get(&line.of), view.model.stuffings.get(&line.of), line.of.as_str()) {
        (Some(point), ..) => point.entry.title().into(),
        (_, Some(stuffing), _) => say!(FILLING, name = stuffing.entry.title()),
        (.., "finished") => stated(view).map_or_else(|| FINISHED.into(), |point| say!(FINISHED_STATED, point)),
        (.., "shell") => SHELL.into(),
        (.., other) => match other.strip_prefix("fabric.") {
            Some(id) => say!(AREA_MASS, name = article(id)),
            None => other.into(),
        },
    };
    match line.side {
        Some("difference") => say!(AGAINST, name),
        Some(side) => say!(ON_SIDE, name, side = said(side)),
        None => name,
    }
}

/// The point of measure that states the mass of the product.
fn stated<'a>(view: &View<'a>) -> Option<&'a str> {
    view.figures.mass.values().flat_map(|by| by.values()).find_map(|mass| mass.stated.as_deref())
}

/// The worst verdict, and by how much.
fn verdict(line: &ReadLine) -> Phrase {
    let worst = line.readings.iter().filter(|one| one.verdict == line.verdict);
    let by = worst.filter_map(|one| one.by).max_by(|a, b| a.get().total_cmp(&b.get()));
    let verdict = Phrase::from(line.verdict.word());
    let verdict = match by.filter(|by| by.get() > 0.0) {
        Some(by) => say!(BY_UP_TO, verdict, amount = amount(by, &line.unit).phrase()),
        None => verdict,
    };
    if line.verdict.is_out() && line.reference { say!(REFERENCE_ONLY, verdict) } else { verdict }
}

fn read(one: &ReadFigure) -> Read {
    let mark = match one.verdict {
        Verdict::Above => "↑",
        Verdict::Below => "↓",
        Verdict::OnLimit => "=",
        Verdict::Questioned => "?",
        _ => "",
    };
    let text = match (one.value, &one.text) {
        (Some(value), _) => Phrase::row([amount(value, "").phrase(), mark.into()], " ").into(),
        // Without a known target there is no unit that all have: then as it was written.
        (None, Some(written)) => written.into(),
        (None, None) => Cell::Dash,
    };
    Read { text, out: one.verdict.is_out() }
}

fn limits(line: &ReadLine) -> Cell {
    match (line.lower.known(), line.upper.known()) {
        (Some(lower), Some(upper)) => {
            let places = needed(*lower).max(needed(*upper));
            Cell::Limits { lower: *lower, upper: *upper, unit: String::new(), places }
        }
        (Some(lower), None) => say!(AT_LEAST, value = short(*lower)).into(),
        (None, Some(upper)) => say!(AT_MOST, value = short(*upper)).into(),
        (None, None) => Cell::Empty,
    }
}

/// Decimals that a number needs on this sheet.
fn needed(value: Number) -> u32 {
    short(value).split_once('.').map_or(0, |(_, decimals)| decimals.len() as u32)
}

fn short(value: Number) -> String {
    number::shortened(&number::number(value, PLACES))
}

fn chart(line: &ReadLine) -> Drawing {
    let reading = |one: &ReadFigure| ChartReading { value: one.value.map(Number::get), out: one.verdict.is_out() };
    let title = match line.side {
        Some(side) => Phrase::row([(&line.of).into(), said(side)], " "),
        None => (&line.of).into(),
    };
    let scene = readings(&Chart {
        target: line.target.get(),
        lower: line.lower.get(),
        upper: line.upper.get(),
        readings: line.readings.iter().map(reading).collect(),
        alt: say!(CHART_ALT, title, count = line.readings.len(), verdict = line.verdict.word()),
    });
    Drawing::of(scene, Phrase::none())
}

/// Colours against their targets, what was looked at, grades of fastness.
fn beside(view: &View<'_>, sample: &SampleResult) -> Vec<BesideRow> {
    let mut all: Vec<BesideRow> = sample.colours.iter().map(|line| colour(view, line)).collect();
    all.extend(sample.checks.iter().map(|check| BesideRow {
        what: (&check.text).into(),
        asked: Cell::Empty,
        found: check.note.as_ref().map_or(Cell::Empty, Cell::from),
        verdict: passes(check.passes, NOT_LOOKED),
        out: check.passes == Some(false),
    }));
    all.extend(sample.grades.iter().map(|line| grade(view, line)));
    all
}

fn grade(view: &View<'_>, line: &GradeLine) -> BesideRow {
    let of = line.of.as_ref().map_or_else(Phrase::none, |of| view.material(of).into());
    BesideRow {
        what: Phrase::list([begun(&line.test), of]),
        asked: line.required.as_ref().map_or(Cell::Empty, |grade| say!(GRADE_ASKED, grade).into()),
        found: line.grade.as_ref().map_or(Cell::Empty, |grade| say!(GRADE, grade).into()),
        verdict: passes(line.passes, NOT_JUDGED),
        out: line.passes == Some(false),
    }
}

fn passes(passes: Option<bool>, unknown: Word) -> Phrase {
    passes.map_or(unknown, |passes| if passes { PASSES } else { FAILS }).into()
}

fn colour(view: &View<'_>, line: &ColourLine) -> BesideRow {
    let readings = Phrase::row(line.readings.iter().map(|one| difference(one).phrase()), " · ");
    let found = match line.mean.difference {
        Some(mean) => say!(COLOUR_MEAN, readings, mean = number::number(mean, PLACES)),
        None => readings,
    };
    BesideRow {
        what: say!(COLOUR_OF, material = view.material(&line.of)),
        asked: line.limit.map_or(Cell::Empty, |limit| say!(COLOUR_LIMIT, limit = number::number(limit, PLACES)).into()),
        found: found.into(),
        verdict: line.mean.verdict.word().into(),
        out: line.mean.verdict.is_out(),
    }
}

fn difference(one: &ColourRead) -> Cell {
    one.difference.map_or(Cell::Dash, |difference| Cell::fixed(difference, PLACES, ""))
}

fn notes(view: &View<'_>, sample: &SampleResult) -> Vec<Phrase> {
    let mut all = Vec::new();
    if let Some(made) = sample.of.as_deref().filter(|made| sample.judged_by.is_none() && *made != now(view)) {
        all.push(say!(NOT_ITS_OWN, made, judge = now(view)));
    }
    for line in sample.points.iter().chain(&sample.masses) {
        let asks = line.readings.iter().enumerate().filter_map(|(at, one)| Some((at + 1, one.asks.as_ref()?)));
        all.extend(asks.map(|(piece, asks)| say!(ASKS, name = name(view, line), piece, asks)));
        if let Some(off) = line.off {
            let hint = if off.get() > 0.0 { LONG } else { SHORT };
            all.push(say!(hint, name = name(view, line), share = number::percent(off.get().abs(), 1)));
        }
    }
    all.extend(sample.note.as_ref().map(Phrase::from));
    all
}

//! What the samples show: a sheet for each sample, with every reading between its limits.

use crate::compute::samples::{ColourLine, ColourRead, ReadFigure, ReadLine, SampleResult, Verdict};
use crate::compute::{Figure, Number};
use crate::scene::{Chart, ChartReading, readings};
use crate::words::{head as heads, number, sheet as words};

use super::data::{BesideRow, Read, ReadRow, Samples, Sheet};
use super::package::{Drawing, Fact, Head, ROW, ROW_GAP};
use super::view::{View, capital};
use super::written::date;

/// Width of a chart, mm: four stand in a row.
const CHART: f64 = (ROW - 3.0 * ROW_GAP) / 4.0;
/// Columns of readings at most; what is measured on more pieces stands in the charts and in the figures.
const COLUMNS: usize = 8;

/// A sheet for each sample, the last one first.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut samples: Vec<(&String, &SampleResult)> = view.samples.samples.iter().collect();
    samples.sort_by_key(|(id, sample)| (std::cmp::Reverse(day(sample)), (*id).clone()));
    samples.into_iter().map(|(_, sample)| Sheet::Samples(sheet(view, sample))).collect()
}

fn day(sample: &SampleResult) -> Option<&String> {
    sample.measured.as_ref().or(sample.received.as_ref()).or(sample.due.as_ref()).or(sample.asked.as_ref())
}

fn sheet(view: &View<'_>, sample: &SampleResult) -> Samples {
    let lines = || sample.points.iter().chain(&sample.masses);
    let shown = sample.pieces.min(COLUMNS);
    let charts: Vec<Drawing> =
        lines().filter(|line| line.readings.iter().any(|one| one.value.is_some())).map(chart).collect();
    Samples {
        head: Head {
            title: words::SAMPLE_TITLE.en.into(),
            name: format!("{}: {}", words::SAMPLE.en, sample.name).into(),
            lead: words::SAMPLE_LEAD.en.into(),
        },
        facts: facts(sample),
        pieces: (1..=shown).map(|number| number.to_string()).collect(),
        rows: lines().map(|line| row(view, line, shown)).collect(),
        beside: beside(view, sample),
        charts: charts.chunks(4).map(<[Drawing]>::to_vec).collect(),
        notes: notes(view, sample, shown),
    }
}

fn facts(sample: &SampleResult) -> Vec<Fact> {
    let fact = |label: &str, value: String| Fact { label: label.into(), value: value.into() };
    let word = |text: &Option<String>| text.as_deref().map(capital).unwrap_or_default();
    let on = |text: &Option<String>| text.as_deref().and_then(date).unwrap_or_default();
    let tally = &sample.tally;
    let limit = if tally.on_limit > 0 { format!(", {} of them on the limit", tally.on_limit) } else { String::new() };
    let mut all = vec![
        fact("Kind", word(&sample.kind)),
        fact("Made to revision", word(&sample.of)),
        fact(
            "Size, colourway",
            [&sample.size, &sample.colourway].into_iter().flatten().cloned().collect::<Vec<_>>().join(", "),
        ),
        fact("Pieces", sample.pieces.to_string()),
        fact("Material", word(&sample.material)),
        fact("Asked for", on(&sample.asked)),
        fact("Due", on(&sample.due)),
        fact("To", sample.to.clone().unwrap_or_default()),
        fact("Received", on(&sample.received)),
        fact("Measured", on(&sample.measured)),
        fact("By, with", [&sample.by, &sample.tool].into_iter().flatten().cloned().collect::<Vec<_>>().join(", ")),
        fact("Rested", sample.rest.clone().unwrap_or_default()),
        fact("Inside", format!("{}{limit}", tally.inside)),
        fact("Outside", tally.outside.to_string()),
    ];
    for (label, count) in
        [("To be asked about", tally.questioned), ("Not read", tally.unread), ("Without limits", tally.unjudged)]
    {
        if count > 0 {
            all.push(fact(label, count.to_string()));
        }
    }
    all.retain(|fact| !fact.value.is_blank());
    all
}

fn row(view: &View<'_>, line: &ReadLine, shown: usize) -> ReadRow {
    let weight = match (line.critical, line.reference) {
        (true, _) => heads::CRITICAL.en,
        (_, true) => heads::FOR_REFERENCE.en,
        _ => "",
    };
    let plain = |value: &Option<Number>| value.map_or(String::new(), |value| short(value.get()));
    ReadRow {
        number: if view.model.measures.contains_key(&line.of) { line.of.clone() } else { String::new() },
        name: name(view, line),
        weight: weight.into(),
        target: line
            .target
            .get()
            .map_or(String::new(), |target| number::with_unit(target, number::places(target, 2), &line.unit)),
        limits: limits(&line.lower, &line.upper),
        readings: line.readings.iter().take(shown).map(read).collect(),
        mean: plain(&line.mean),
        range: plain(&line.range),
        verdict: verdict(line),
        out: line.verdict.is_out(),
    }
}

/// What is read, for people, with its side.
fn name(view: &View<'_>, line: &ReadLine) -> String {
    let name = match (view.model.measures.get(&line.of), view.model.stuffings.get(&line.of), line.of.as_str()) {
        (Some(point), ..) => point.entry.title().to_string(),
        (_, Some(stuffing), _) => format!("{}, filling", stuffing.entry.title()),
        (.., of) if of.starts_with("fabric.") => {
            let id = of.trim_start_matches("fabric.");
            format!("{}, mass per area", view.model.articles.get(id).map_or(id, |article| article.entry.title()))
        }
        (.., "finished") => "Finished product".into(),
        (.., "shell") => "Shell before filling".into(),
        (.., other) => other.into(),
    };
    match line.side {
        Some("difference") => format!("{name}, left against right"),
        Some(side) => format!("{name}, {side}"),
        None => name,
    }
}

/// The worst verdict, and by how much.
fn verdict(line: &ReadLine) -> String {
    let worst = line.readings.iter().filter(|one| one.verdict == line.verdict);
    let by = worst.filter_map(|one| one.by).map(Number::get).fold(0.0, f64::max);
    let text = line.verdict.words();
    let reference = if line.verdict.is_out() && line.reference { ", for reference only" } else { "" };
    match by > 0.0 {
        true => format!("{text} by up to {}{reference}", number::with_unit(by, number::places(by, 2), &line.unit)),
        false => format!("{text}{reference}"),
    }
}

fn read(one: &ReadFigure) -> Read {
    let mark = match one.verdict {
        Verdict::Above => " ↑",
        Verdict::Below => " ↓",
        Verdict::OnLimit => " =",
        Verdict::Questioned => " ?",
        _ => "",
    };
    // Without a known target there is no unit that all have: then as it was written.
    let written = || one.text.clone().unwrap_or_else(|| "–".into());
    let text = one.value.map_or_else(written, |value| format!("{}{mark}", short(value.get())));
    Read { text, out: one.verdict.is_out() }
}

fn limits(lower: &Figure<Number>, upper: &Figure<Number>) -> String {
    match (lower.get(), upper.get()) {
        (Some(lower), Some(upper)) => format!("{} – {}", short(lower), short(upper)),
        (Some(lower), None) => format!("at least {}", short(lower)),
        (None, Some(upper)) => format!("at most {}", short(upper)),
        (None, None) => String::new(),
    }
}

fn short(value: f64) -> String {
    number::number(value, number::places(value, 2))
}

fn chart(line: &ReadLine) -> Drawing {
    let side = line.side.map_or(String::new(), |side| format!(" {side}"));
    let limit = |limit: &Figure<Number>| limit.get().map(|limit| (limit, short(limit)));
    let reading = |(at, one): (usize, &ReadFigure)| ChartReading {
        label: (at + 1).to_string(),
        value: one.value.map(Number::get),
        text: one.value.map_or(String::new(), |value| short(value.get())),
        out: one.verdict.is_out(),
    };
    let title = format!("{}{side}, {}", line.of, number::unit(&line.unit));
    let scene = readings(
        &Chart {
            target: line.target.get(),
            lower: limit(&line.lower),
            upper: limit(&line.upper),
            readings: line.readings.iter().enumerate().map(reading).collect(),
            alt: format!("Readings of {title} on {} pieces: {}", line.readings.len(), line.verdict.words()).into(),
        },
        CHART,
    );
    Drawing::of(scene, &title)
}

/// Colours against their targets, what was looked at, grades of fastness.
fn beside(view: &View<'_>, sample: &SampleResult) -> Vec<BesideRow> {
    let mut all: Vec<BesideRow> = sample.colours.iter().map(|line| colour(view, line)).collect();
    all.extend(sample.checks.iter().map(|check| BesideRow {
        what: check.text.clone(),
        asked: String::new(),
        found: check.note.clone().unwrap_or_default(),
        verdict: passes(check.passes, "not looked at"),
        out: check.passes == Some(false),
    }));
    all.extend(sample.grades.iter().map(|grade| {
        BesideRow {
            what: [Some(capital(&grade.test)), grade.of.as_ref().map(|of| view.material(of))]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(", "),
            asked: grade.required.as_ref().map_or(String::new(), |required| format!("grade {required} or better")),
            found: grade.grade.as_ref().map_or(String::new(), |found| format!("grade {found}")),
            verdict: passes(grade.passes, "not judged"),
            out: grade.passes == Some(false),
        }
    }));
    all
}

fn passes(passes: Option<bool>, unknown: &str) -> String {
    passes.map_or(unknown, |passes| if passes { "passes" } else { "fails" }).into()
}

fn colour(view: &View<'_>, line: &ColourLine) -> BesideRow {
    let differences: Vec<String> = line.readings.iter().map(difference).collect();
    let mean = line.mean.difference.map_or(String::new(), |mean| format!(", mean {}", number::number(mean.get(), 2)));
    BesideRow {
        what: format!("Colour of {}", view.material(&line.of)),
        asked: line
            .limit
            .map_or(String::new(), |limit| format!("CIEDE2000 at most {}", number::number(limit.get(), 2))),
        found: format!("{}{mean}", differences.join(" · ")),
        verdict: line.mean.verdict.words().into(),
        out: line.mean.verdict.is_out(),
    }
}

fn difference(one: &ColourRead) -> String {
    one.difference.map_or("–".into(), |difference| number::number(difference.get(), 2))
}

fn notes(view: &View<'_>, sample: &SampleResult, shown: usize) -> Vec<String> {
    let mut all = Vec::new();
    if shown < sample.pieces {
        all.push(format!("Of {} pieces the first {shown} stand in the table, all in the charts.", sample.pieces));
    }
    for line in sample.points.iter().chain(&sample.masses) {
        let asks = line.readings.iter().enumerate().filter_map(|(at, one)| Some((at + 1, one.asks.as_ref()?)));
        all.extend(asks.map(|(piece, asks)| format!("{}, piece {piece}: {asks}", name(view, line))));
        if let Some(off) = line.off {
            let way = if off.get() > 0.0 { "long" } else { "short" };
            all.push(format!(
                "{}: every piece is outside on the same side, {} off the target on average. A hint only: the edges this point spans may be about that much too {way} in the pattern.",
                name(view, line),
                number::percent(off.get().abs(), 1),
            ));
        }
    }
    all.extend(sample.note.clone());
    all
}

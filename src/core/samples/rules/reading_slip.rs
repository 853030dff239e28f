//! Rule: a reading looks like a slip: another unit, ten times off, two rows exchanged.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Readings};
use crate::samples::figures::{ReadFigure, SampleFigures, Verdict};
use crate::source::Span;
use crate::words::{Phrase, say, words};

use super::critical_point_out_of_tolerance::name;
use crate::compute::rules::telling::{row, with_target};

/// A reading that was perhaps not meant so.
pub const RULE: Rule = Rule {
    code: "reading-slip",
    family: "sample",
    severity: Severity::Should,
    summary: "a reading looks like a slip: another unit, ten times off, two rows exchanged",
    explanation: "A reading far outside its limits that would be inside them in another unit, with its point one place on, \
                  or in the row of another point was probably written wrongly. It is asked about and not judged: it counts \
                  neither as outside nor as read.",
    failing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\n[sample.first]\nreadings = { H1 = [\"9.1 mm\"] }",
    passing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\n[sample.first]\nreadings = { H1 = [\"9.1 cm\"] }",
    source: "common practice",
};

words! {
    MESSAGE "reading-slip.message" = "sample {id}, {line}: {slips} looks like a slip";
    SEVERAL "reading-slip.several" = "sample {id}, {line}: {slips} look like slips";
    ONE "reading-slip.one" = "{text} on piece {at}";
    HERE "reading-slip.here" = "not judged";
}

/// Reports each row once, with every such reading of it.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, sample) in &samples.samples {
        for line in sample.points.iter().filter(|line| line.side != Some("difference")).chain(&sample.masses) {
            let asked = line.readings.iter().enumerate().filter(|(_, one)| one.verdict == Verdict::Questioned);
            let asked: Vec<_> = asked.collect();
            let place = |at: usize| place(model, id, (&line.of, line.side), at);
            let mut places: Vec<Span> = asked.iter().filter_map(|(at, _)| place(*at)).collect();
            if places.is_empty() {
                places.extend(row(model, id, &line.of));
            }
            if asked.is_empty() || places.is_empty() {
                continue;
            }
            let slip = |(at, reading): &(usize, &ReadFigure)| {
                say!(ONE, text = reading.text.as_deref().unwrap_or(""), at = at + 1)
            };
            let slips = Phrase::and(asked.iter().map(slip));
            let word = if asked.len() == 1 { MESSAGE } else { SEVERAL };
            let finding = Finding::new(&RULE, say!(word, id, line = name(line), slips));
            let finding = places.into_iter().fold(finding, |finding, place| finding.at(place, HERE));
            let mut finding = with_target(model, &line.of, finding);
            let mut told: Vec<&Phrase> = Vec::new();
            for asks in asked.iter().filter_map(|(_, reading)| reading.asks.as_ref()) {
                if !told.contains(&asks) {
                    told.push(asks);
                    finding = finding.help(asks.clone());
                }
            }
            findings.push(finding);
        }
    }
}

/// Where a reading stands.
fn place(model: &Model, sample: &str, (of, side): (&str, Option<&'static str>), at: usize) -> Option<Span> {
    let sample = model.samples.samples.get(sample)?;
    let whole = match of {
        "finished" => sample.finished.as_ref(),
        "shell" => sample.shell.as_ref(),
        _ => None,
    };
    let readings: &Readings = sample.readings.get(of).or(whole).or_else(|| sample.stuffings.get(of))?;
    let (_, list) = readings.sides().into_iter().find(|(one, _)| *one == side)?;
    list.get(at).map(|reading| reading.span)
}

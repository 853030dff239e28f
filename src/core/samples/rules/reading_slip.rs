//! Rule: a reading looks like a slip: another unit, ten times off, two rows exchanged.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Readings};
use crate::samples::figures::{SampleFigures, Verdict};
use crate::source::Span;
use crate::words::{say, words};

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
    MESSAGE "reading-slip.message" = "sample {id}, {line}: {text} on piece {at} looks like a slip";
    HERE "reading-slip.here" = "not judged";
}

/// Reports each row once, for its first such reading.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, sample) in &samples.samples {
        for line in sample.points.iter().filter(|line| line.side != Some("difference")).chain(&sample.masses) {
            let asked = line.readings.iter().enumerate().find(|(_, one)| one.verdict == Verdict::Questioned);
            let Some((at, reading)) = asked else { continue };
            let place = place(model, id, (&line.of, line.side), at).or_else(|| row(model, id, &line.of));
            let Some(place) = place else { continue };
            let text = reading.text.as_deref().unwrap_or("");
            let message = say!(MESSAGE, id, line = name(line), text, at = at + 1);
            let finding = with_target(model, &line.of, Finding::new(&RULE, message).at(place, HERE));
            findings.push(finding.help(reading.asks.clone().unwrap_or_default()));
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

//! Rule: a critical point of measure is outside its limits on the last sample.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::samples::figures::{ReadLine, SampleFigures, Verdict};
use crate::words::{Phrase, number, say, words};

use crate::compute::rules::telling::{must_at_bulk, row, with_target};

/// A critical point outside its limits.
pub const RULE: Rule = Rule {
    code: "critical-point-out-of-tolerance",
    family: "sample",
    severity: Severity::Should,
    summary: "a critical point of measure is outside its limits on the last sample",
    explanation: "Bulk is refused for a critical point. If the last sample is outside, so will be the goods: change the \
                  pattern, the filling or the limits, and make another sample. A reading exactly on a limit is inside. Points \
                  for reference never block.",
    failing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\ncritical = true\n[sample.first]\npieces = 1\nreadings = { H1 = \
              [\"94 mm\"] }",
    passing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\ncritical = true\n[sample.first]\npieces = 1\nreadings = { H1 = \
              [\"93 mm\"] }",
    source: "common practice",
};

words! {
    ABOVE "critical-point-out-of-tolerance.above" = "piece {piece} reads {text}, {by} {unit} above";
    BELOW "critical-point-out-of-tolerance.below" = "piece {piece} reads {text}, {by} {unit} below";
    MESSAGE "critical-point-out-of-tolerance.message" = "critical point {point} is out on sample {id}: {told}";
    HERE "critical-point-out-of-tolerance.here" = "outside its limits";
    HELP "critical-point-out-of-tolerance.help" = "change what makes it so, and measure another sample; or change the limits";
}

/// Reports each critical row of the last sample of a size with a reading outside.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, sample) in samples.samples.iter().filter(|(_, sample)| sample.last) {
        let critical = sample.points.iter().filter(|line| line.critical && !line.reference);
        for line in critical {
            let out = line.readings.iter().enumerate().filter(|(_, one)| one.verdict.is_out());
            let told: Vec<Phrase> = out
                .map(|(at, one)| {
                    let by = one.by.map_or(0.0, |by| by.get());
                    let text = one.text.as_deref().unwrap_or("");
                    let by = number::number(by, number::places(by, 6));
                    let word = if one.verdict == Verdict::Above { ABOVE } else { BELOW };
                    say!(word, piece = at + 1, text, by, unit = &line.unit)
                })
                .collect();
            if told.is_empty() {
                continue;
            }
            let Some(place) = row(model, id, &line.of) else { continue };
            let message = say!(MESSAGE, point = name(line), id, told = Phrase::row(told, "; "));
            let finding = Finding::new(&RULE, message).at(place, HERE);
            let finding = with_target(model, &line.of, finding);
            findings.push(must_at_bulk(model, finding.help(HELP)));
        }
    }
}

/// `H1`, `H1 left`.
pub(crate) fn name(line: &ReadLine) -> String {
    line.side.map_or_else(|| line.of.clone(), |side| format!("{} {side}", line.of))
}

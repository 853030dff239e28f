//! Rule: a critical point of measure was not read on every piece of the last sample.

use crate::compute::samples::{RoundFigures, SampleFigures, Verdict};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Round, Stage};

use super::{must_at_bulk, row};

/// A critical point nobody read.
pub const RULE: Rule = Rule {
    code: "critical-point-unmeasured",
    family: "sample",
    severity: Severity::Should,
    summary: "a critical point of measure was not read on every piece of the last round of samples",
    explanation: "Bulk is refused for a critical point, so it has to be known that samples meet it. Reported for the last \
                  round of each size that came or was measured; at bulk also where no round of a size did, as long as \
                  rounds are kept here. A reading that looks like a slip does not count as read.",
    failing: "[point-of-measure.H1]\ncritical = true\n[round.first]\npieces = 2\nreadings = { H1 = [\"90 mm\", \"\"] }",
    passing: "[point-of-measure.H1]\ncritical = true\n[round.first]\npieces = 2\nreadings = { H1 = [\"90 mm\", \"91 mm\"] }",
    source: "common practice",
};

/// Reports each critical point of the last rounds once, and sizes without a round at bulk.
pub(super) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, round) in samples.rounds.iter().filter(|(_, round)| round.last) {
        let Some(written) = model.samples.rounds.get(id) else { continue };
        let critical = model.measures.keys().filter(|point| is_critical(round, point));
        for point in critical {
            let read = read(round, point);
            if read >= round.pieces && round.pieces > 0 {
                continue;
            }
            let pieces = crate::words::number::counted(round.pieces, "piece", "pieces");
            let message = format!("critical point {point} was read on {read} of {pieces} of round {id}");
            let place = row(model, id, point).unwrap_or(written.entry.span());
            let finding = Finding::new(&RULE, message).at(place, "not read on every piece");
            let help = format!("measure it, and write its readings under [round.{id}.readings]");
            findings.push(must_at_bulk(model, finding.help(help)));
        }
    }
    if Stage::of(model) == Stage::Bulk {
        never(model, findings);
    }
}

fn is_critical(round: &RoundFigures, point: &str) -> bool {
    round.points.iter().any(|line| line.of == point && line.critical && !line.reference)
}

/// On how many pieces a point was read, on both sides where sides are told apart.
fn read(round: &RoundFigures, point: &str) -> usize {
    let rows = round.points.iter().filter(|line| line.of == point && line.side != Some("difference"));
    let counts = |one: &Verdict| !matches!(one, Verdict::Unread | Verdict::Questioned);
    rows.map(|line| line.readings.iter().filter(|one| counts(&one.verdict)).count()).min().unwrap_or(0)
}

/// Sizes of which no round was measured, once.
fn never(model: &Model, findings: &mut Findings) {
    let critical = |point: &crate::model::PointOfMeasure| point.critical.as_ref().is_some_and(|flag| flag.value);
    if !model.measures.values().any(critical) {
        return;
    }
    let only = model.sizes.first().map_or("", |size| size.entry.id.value.as_str());
    let last = model.samples.last(only);
    let Some(first) = last.values().next() else { return };
    for size in super::sizes(model).filter(|size| !last.contains_key(size)) {
        let own = |round: &&Round| round.size.as_ref().is_none_or(|one| one.value == size);
        let place = model.samples.rounds.values().find(own).unwrap_or(*first).entry.span();
        let finding = Finding::new(&RULE, format!("no round of size {size} was measured, and it has critical points"))
            .at(place, "rounds are kept here");
        findings
            .push(must_at_bulk(model, finding.help("measure a sample of this size, or waive it by name and reason")));
    }
}

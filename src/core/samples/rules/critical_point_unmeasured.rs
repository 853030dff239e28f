//! Rule: a critical point of measure was not read on every piece of the last sample.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Sample, Stage};
use crate::samples::figures::{SampleFigures, SampleResult, Verdict};
use crate::words::counted;
use crate::words::{say, words};

use crate::compute::rules::telling::{must_at_bulk, row};

/// A critical point nobody read.
pub const RULE: Rule = Rule {
    code: "critical-point-unmeasured",
    family: "sample",
    severity: Severity::Should,
    summary: "a critical point of measure was not read on every piece of the last sample",
    explanation: "Bulk is refused for a critical point, so it has to be known that samples meet it. Reported for the last \
                  sample of each size that came or was measured; at bulk also where no sample of a size did, as long as \
                  samples are kept here. A reading that looks like a slip does not count as read.",
    failing: "[point-of-measure.H1]\ncritical = true\n[sample.first]\npieces = 2\nreadings = { H1 = [\"90 mm\", \"\"] }",
    passing: "[point-of-measure.H1]\ncritical = true\n[sample.first]\npieces = 2\nreadings = { H1 = [\"90 mm\", \"91 mm\"] }",
    source: "common practice",
};

words! {
    NOT_ALL "critical-point-unmeasured.not-all" = "critical point {point} was read on {read} of {pieces} of sample {id}";
    PIECE "critical-point-unmeasured.piece" = "{count} piece";
    PIECES "critical-point-unmeasured.pieces" = "{count} pieces";
    NOT_READ "critical-point-unmeasured.not-read" = "not read on every piece";
    MEASURE "critical-point-unmeasured.measure" = "measure it, and write its readings under [sample.{id}.readings]";
    NO_SAMPLE "critical-point-unmeasured.no-sample" = "no sample of size {size} was measured, and it has critical points";
    SAMPLES_KEPT "critical-point-unmeasured.samples-kept" = "samples are kept here";
    MEASURE_SIZE "critical-point-unmeasured.measure-size" = "measure a sample of this size, or concede it by name and reason";
}

/// Reports each critical point of the last samples once, and sizes without a sample at bulk.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, sample) in samples.samples.iter().filter(|(_, sample)| sample.last) {
        let Some(written) = model.samples.samples.get(id) else { continue };
        let critical = model.measures.keys().filter(|point| is_critical(sample, point));
        for point in critical {
            let read = read(sample, point);
            if read >= sample.pieces && sample.pieces > 0 {
                continue;
            }
            let pieces = counted(sample.pieces, PIECE, PIECES);
            let message = say!(NOT_ALL, point, read, pieces, id);
            let place = row(model, id, point).unwrap_or(written.entry.span());
            let finding = Finding::new(&RULE, message).at(place, NOT_READ);
            let help = say!(MEASURE, id);
            findings.push(must_at_bulk(model, finding.help(help)));
        }
    }
    if Stage::of(model) == Stage::Bulk {
        never(model, findings);
    }
}

fn is_critical(sample: &SampleResult, point: &str) -> bool {
    sample.points.iter().any(|line| line.of == point && line.critical && !line.reference)
}

/// On how many pieces a point was read, on both sides where sides are told apart.
fn read(sample: &SampleResult, point: &str) -> usize {
    let rows = sample.points.iter().filter(|line| line.of == point && line.side != Some("difference"));
    let counts = |one: &Verdict| !matches!(one, Verdict::Unread | Verdict::Questioned);
    rows.map(|line| line.readings.iter().filter(|one| counts(&one.verdict)).count()).min().unwrap_or(0)
}

/// Sizes of which no sample was measured, once.
fn never(model: &Model, findings: &mut Findings) {
    let critical = |point: &crate::model::PointOfMeasure| point.critical.as_ref().is_some_and(|flag| flag.value);
    if !model.measures.values().any(critical) {
        return;
    }
    let only = model.sizes.first().map_or("", |size| size.entry.id.value.as_str());
    let last = model.samples.last(only);
    let Some(first) = last.values().next() else { return };
    for size in crate::compute::rules::telling::sizes(model).filter(|size| !last.contains_key(size)) {
        let own = |sample: &&Sample| sample.size.as_ref().is_none_or(|one| one.value == size);
        let place = model.samples.samples.values().find(own).unwrap_or(*first).entry.span();
        let finding = Finding::new(&RULE, say!(NO_SAMPLE, size)).at(place, SAMPLES_KEPT);
        findings.push(must_at_bulk(model, finding.help(MEASURE_SIZE)));
    }
}

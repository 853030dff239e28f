//! Rule: a point of measure is outside its limits on every piece, on the same side.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::samples::figures::SampleFigures;
use crate::units::Dimension;
use crate::words::{number, say, words};

use super::critical_point_out_of_tolerance::name;
use crate::compute::rules::telling::{row, with_target};

/// Every piece off the same way.
pub const RULE: Rule = Rule {
    code: "readings-all-on-one-side",
    family: "sample",
    severity: Severity::Note,
    summary: "a point of measure is outside its limits on every piece, on the same side",
    explanation: "One piece outside is how it was sewn or filled; all of them on one side is how it was cut, or what was \
                  asked. If filling and sewing were as stated, the edges that the point spans are off by about as much in \
                  percent as the mean. Told of the last sample of each size, where at least two pieces were read.",
    failing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\n[sample.first]\npieces = 2\nreadings = { H1 = [\"95 mm\", \"96 \
              mm\"] }",
    passing: "[point-of-measure.H1]\ntarget = \"90 mm ±3 mm\"\n[sample.first]\npieces = 2\nreadings = { H1 = [\"95 mm\", \"89 \
              mm\"] }",
    source: "arithmetic; that a measure grows with the edges it spans holds for shapes that only grow",
};

words! {
    ABOVE "readings-all-on-one-side.above" = "sample {id}: {point} is above its limits on all {count} pieces, {mean} {unit} on average";
    BELOW "readings-all-on-one-side.below" = "sample {id}: {point} is below its limits on all {count} pieces, {mean} {unit} on average";
    ALL_ABOVE "readings-all-on-one-side.all-above" = "all above";
    ALL_BELOW "readings-all-on-one-side.all-below" = "all below";
    TOO_LONG "readings-all-on-one-side.too-long" = "if it is sewn and filled as stated, each of the edges that this point spans is about {share} % too long";
    TOO_SHORT "readings-all-on-one-side.too-short" = "if it is sewn and filled as stated, each of the edges that this point spans is about {share} % too short";
}

/// Reports each such row of a length.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, sample) in samples.samples.iter().filter(|(_, sample)| sample.last) {
        for line in &sample.points {
            let (Some(off), Some(mean)) = (line.off, line.mean) else { continue };
            let Some(place) = row(model, id, &line.of).filter(|_| line.against.unit.dimension() == Dimension::Length)
            else {
                continue;
            };
            let (word, here, help) =
                if off.get() > 0.0 { (ABOVE, ALL_ABOVE, TOO_LONG) } else { (BELOW, ALL_BELOW, TOO_SHORT) };
            let tenth = |value: f64| number::shortened(&number::number(value, 1));
            let (share, mean) = (tenth(off.get().abs()), tenth(mean.get()));
            let unit = &line.unit;
            let message = say!(word, id, point = name(line), count = line.readings.len(), mean, unit);
            let finding = with_target(model, &line.of, Finding::new(&RULE, message).at(place, here));
            findings.push(finding.help(say!(help, share)));
        }
    }
}

//! Rule: a sample has other readings than it has pieces.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Sample;
use crate::words::counted;
use crate::words::{say, words};

/// As many readings as there are pieces.
pub const RULE: Rule = Rule {
    code: "readings-do-not-match-pieces",
    family: "sample",
    severity: Severity::Should,
    summary: "a sample has other readings than it has pieces",
    explanation: "The first reading is that of the first piece, the second that of the second. Where there are more or fewer \
                  readings than pieces, it is not known which piece was read, and a row is easily out of step. What was not \
                  read is written \"\".",
    failing: "[sample.first]\npieces = 3\nreadings = { H1 = [\"90 mm\", \"91 mm\"] }",
    passing: "[sample.first]\npieces = 3\nreadings = { H1 = [\"90 mm\", \"\", \"91 mm\"] }",
    source: "follows from the terms",
};

words! {
    UNLIKE "readings-do-not-match-pieces.unlike" = "sample {sample} has {readings} of {of} and {samples}";
    HERE "readings-do-not-match-pieces.here" = "{readings} here";
    ONE_EACH "readings-do-not-match-pieces.one-each" = "write one reading for each piece, \"\" where it was not read";
    READING "readings-do-not-match-pieces.reading" = "{count} reading";
    READINGS "readings-do-not-match-pieces.readings" = "{count} readings";
    PIECE "readings-do-not-match-pieces.piece" = "{count} piece";
    PIECES "readings-do-not-match-pieces.pieces" = "{count} pieces";
}

/// Reports each row that differs.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, sample) in &context.model.samples.samples {
        let Some(stated) = &sample.pieces else { continue };
        let Some(pieces) = stated.known().map(|pieces| *pieces as usize) else { continue };
        for (of, span, count) in rows(sample).into_iter().filter(|(.., count)| *count != pieces) {
            let readings = counted(count, READING, READINGS);
            let samples = counted(pieces, PIECE, PIECES);
            let message = say!(UNLIKE, sample = id, readings = &readings, of, samples = &samples);
            findings.push(
                Finding::new(&RULE, message).at(span, say!(HERE, readings)).at(stated.span, samples).help(ONE_EACH),
            );
        }
    }
}

/// Every row of readings, what it is of, and how long it is.
fn rows(sample: &Sample) -> Vec<(String, crate::source::Span, usize)> {
    let masses =
        sample.finished.iter().chain(&sample.shell).chain(sample.stuffings.values()).chain(sample.fabric.values());
    let all = sample.readings.values().chain(masses);
    let mut rows = Vec::new();
    for readings in all {
        for (side, list) in readings.sides() {
            let of = side.map_or_else(|| readings.of.value.clone(), |side| format!("{} {side}", readings.of.value));
            rows.push((of, readings.of.span, list.len()));
        }
    }
    rows.extend(sample.colours.values().map(|one| (one.of.value.clone(), one.of.span, one.list.len())));
    rows
}

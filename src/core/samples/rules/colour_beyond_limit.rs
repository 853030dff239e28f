//! Rule: a colour is farther from its target than its limit, and was approved or is on the last sample.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Judgement, Model};
use crate::samples::figures::{ColourLine, SampleFigures, Verdict};
use crate::source::Span;
use crate::words::{Phrase, number, say, words};

/// A colour farther from its target than its own limit.
pub const RULE: Rule = Rule {
    code: "colour-beyond-limit",
    family: "sample",
    severity: Severity::Should,
    summary: "a colour is farther from its target than its limit, and was approved or is on the last sample",
    explanation: "The CIEDE2000 difference of the mean reading from the target is held against the `limit` of the colour. On \
                  pile a reading depends on how it is brushed: brushed, folded until it is opaque and turned, the mean of \
                  four directions says something. The signed swatch decides; a difference only asks for another look.",
    failing: "[colour.soot]\nlab = [\"25\", \"0\", \"0\"]\nlimit = \"1\"\n[approval.dip]\nof = \"colour.soot\"\nsubmissions = [{ \
              verdict = \"approved\", lab = [\"28\", \"0\", \"0\"] }]",
    passing: "[colour.soot]\nlab = [\"25\", \"0\", \"0\"]\nlimit = \"1\"\n[approval.dip]\nof = \"colour.soot\"\nsubmissions = [{ \
              verdict = \"approved\", lab = [\"25.5\", \"0\", \"0\"] }]",
    source: "CIE 142:2001 for the difference; its use on pile is common practice",
};

words! {
    SUBMISSION "colour-beyond-limit.submission" = "submission {number} of approval {id}";
    SAMPLE "colour-beyond-limit.sample" = "{of} on sample {id}";
    MESSAGE "colour-beyond-limit.message" = "{what} is {difference} from its target, and the limit is {limit} (CIEDE2000)";
    BEYOND_LIMIT "colour-beyond-limit.beyond-limit" = "beyond its limit";
    TARGET "colour-beyond-limit.target" = "its target";
    LIMIT "colour-beyond-limit.limit" = "its limit";
    HELP "colour-beyond-limit.help" = "look at it beside the swatch, in daylight and in the light of a shop; ask for another dip if it shows";
}

/// Reports approved submissions, and the colours of the last samples.
pub(crate) fn check(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    for (id, approval) in &model.samples.approvals {
        let Some(line) = samples.approvals.iter().find(|line| line.approval == *id) else { continue };
        for (written, figure) in approval.submissions.iter().zip(&line.submissions) {
            let approved = written.verdict.as_ref().filter(|verdict| verdict.value != Judgement::Rejected);
            let Some((colour, place)) = figure.colour.as_ref().zip(approved) else { continue };
            let what = say!(SUBMISSION, number = figure.number, id);
            findings.extend(report(model, what, colour, place.span));
        }
    }
    for (id, sample) in samples.samples.iter().filter(|(_, sample)| sample.last) {
        for colour in &sample.colours {
            let written = model.samples.samples.get(id).and_then(|sample| sample.colours.get(&colour.of));
            let Some(written) = written else { continue };
            findings.extend(report(model, say!(SAMPLE, of = &colour.of, id), colour, written.of.span));
        }
    }
}

fn report(model: &Model, what: Phrase, line: &ColourLine, place: Span) -> Option<Finding> {
    let (difference, limit) = (line.mean.difference?.get(), line.limit?.get());
    let colour = model.colours.get(line.colour.as_ref()?)?;
    let (target, most) = (colour.lab.as_ref()?, colour.limit.as_ref()?);
    if line.mean.verdict != Verdict::Above {
        return None;
    }
    let message = say!(MESSAGE, what, difference = number::number(difference, 2), limit = number::number(limit, 2));
    let finding = Finding::new(&RULE, message).at(place, BEYOND_LIMIT).at(target.span, TARGET).at(most.span, LIMIT);
    Some(finding.help(HELP))
}

//! Rule: the last submission of something that must be approved was rejected.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Judgement;

use super::must_at_bulk;

/// Something whose last submission was rejected.
pub const RULE: Rule = Rule {
    code: "rejected-approval",
    family: "sample",
    severity: Severity::Should,
    summary: "the last submission of something that must be approved was rejected",
    explanation: "It has to be submitted again, and that takes its time: a lab dip a week, a strike-off two. Bulk is not \
                  released with it.",
    failing: "[approval.dip]\nof = \"plush/soot\"\nsubmissions = [{ verdict = \"rejected\" }]",
    passing: "[approval.dip]\nof = \"plush/soot\"\nsubmissions = [{ verdict = \"rejected\" }, { verdict = \"approved\" }]",
    source: "common practice",
};

/// Reports each required approval that stands so.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, approval) in context.model.samples.approvals.iter().filter(|(_, approval)| approval.is_required()) {
        let verdict = approval.last().and_then(|last| last.verdict.as_ref());
        let Some(verdict) = verdict.filter(|verdict| verdict.value == Judgement::Rejected) else { continue };
        let of = approval.of.as_ref().map_or_else(String::new, |of| format!(" of {}", of.value));
        let finding = Finding::new(&RULE, format!("the last submission of approval {id}{of} was rejected"))
            .at(verdict.span, "rejected")
            .help("ask for another, and add it to `submissions`");
        findings.push(must_at_bulk(context, finding));
    }
}

//! Rule: the last submission of something that must be approved was rejected.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Judgement;
use crate::words::{Phrase, say, words};

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

words! {
    OF "rejected-approval.of" = " of {of}";
    MESSAGE "rejected-approval.message" = "the last submission of approval {id}{of} was rejected";
    HERE "rejected-approval.here" = "rejected";
    HELP "rejected-approval.help" = "ask for another, and add it to `submissions`";
}

/// Reports each required approval that stands so.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, approval) in context.model.samples.approvals.iter().filter(|(_, approval)| approval.is_required()) {
        let verdict = approval.last().and_then(|last| last.verdict.as_ref());
        let Some(verdict) = verdict.filter(|verdict| verdict.value == Judgement::Rejected) else { continue };
        let of = approval.of.as_ref().map_or_else(Phrase::none, |of| say!(OF, of = &of.value));
        let finding = Finding::new(&RULE, say!(MESSAGE, id, of)).at(verdict.span, HERE).help(HELP);
        findings.push(must_at_bulk(context, finding));
    }
}

//! Rule: an approval or a sealed sample is past the day until which it holds.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Stated;
use crate::units::Date;
use crate::words::{say, words};

use super::must_at_bulk;

/// An approval that no longer holds.
pub const RULE: Rule = Rule {
    code: "approval-expired",
    family: "sample",
    severity: Severity::Should,
    summary: "an approval or a sealed sample is past the day until which it holds",
    explanation: "Swatches fade, artwork is replaced, and a sealed sample is good for a season. Past its day the factory \
                  makes bulk to something that nobody stands for any more. The day is held against the date of the revision.",
    failing: "[revision]\ndate = \"2026-11-20\"\n[approval.dip]\nuntil = \"2026-10-31\"",
    passing: "[revision]\ndate = \"2026-11-20\"\n[approval.dip]\nuntil = \"2027-10-31\"",
    source: "common practice",
};

words! {
    MESSAGE "approval-expired.message" = "approval {id} no longer holds";
    PAST_DAY "approval-expired.past-day" = "past this day";
    DATE "approval-expired.date" = "the date of the revision";
    HELP "approval-expired.help" = "have it approved again, and write until when that holds";
}

/// Reports each required one.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(date) = &context.model.revision.date else { return };
    let Some(now) = date.known() else { return };
    let past = |until: &&Stated<Date>| until.known().is_some_and(|until| until < now);
    for (id, approval) in context.model.samples.approvals.iter().filter(|(_, approval)| approval.is_required()) {
        let sealed = approval.sealed.as_ref().and_then(|sealed| sealed.until.as_ref());
        for until in approval.until.iter().chain(sealed).filter(past) {
            let finding =
                Finding::new(&RULE, say!(MESSAGE, id)).at(until.span, PAST_DAY).at(date.span, DATE).help(HELP);
            findings.push(must_at_bulk(context, finding));
        }
    }
}

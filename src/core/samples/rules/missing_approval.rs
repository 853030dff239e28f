//! Rule: something that must be approved before bulk is not approved.

use crate::check::{Context, Stage};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{Phrase, say, words};

use super::must_at_bulk;

/// Something that bulk needs and nobody approved.
pub const RULE: Rule = Rule {
    code: "missing-approval",
    family: "sample",
    severity: Severity::Should,
    summary: "something that must be approved before bulk is not approved",
    explanation: "Fabric is dyed, labels are printed and toys are filled by the thousand to what was approved. From \
                  pre-production on a missing approval is asked for, and bulk is not released without it. What bulk does not \
                  need says `required = false`.",
    failing: "[revision]\nstage = \"bulk\"\n[approval.dip]\nof = \"plush/soot\"\nkind = \"lab dip\"",
    passing: "[revision]\nstage = \"bulk\"\n[approval.dip]\nof = \"plush/soot\"\nkind = \"lab dip\"\nsubmissions = [{ verdict = \
              \"approved\" }]",
    source: "common practice",
};

words! {
    OF "missing-approval.of" = " of {of}";
    NOTHING "missing-approval.nothing" = "approval {id}{of} is missing: nothing was submitted";
    NOTHING_SUBMITTED "missing-approval.nothing-submitted" = "nothing submitted";
    NO_VERDICT "missing-approval.no-verdict" = "approval {id}{of} is missing: its last submission has no verdict";
    HERE "missing-approval.here" = "no verdict";
    HELP "missing-approval.help" = "write verdict = \"approved\" once it is, or required = false";
}

/// Reports each required approval without a verdict on its last submission, from pre-production on.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    if Stage::of(context.model) < Stage::PreProduction {
        return;
    }
    for (id, approval) in &context.model.samples.approvals {
        let judged = approval.last().is_some_and(|last| last.verdict.is_some());
        if !approval.is_required() || judged || context.model.was_refused("approval", id, "submissions") {
            continue;
        }
        let of = approval.of.as_ref().map_or_else(Phrase::none, |of| say!(OF, of = &of.value));
        let finding = match approval.last() {
            None => Finding::new(&RULE, say!(NOTHING, id, of)).at(approval.entry.span(), NOTHING_SUBMITTED),
            Some(last) => Finding::new(&RULE, say!(NO_VERDICT, id, of)).at(last.span, HERE),
        };
        findings.push(must_at_bulk(context, finding.help(HELP)));
    }
}

//! Rule: a comment that must be changed is open.

use crate::check::{Context, Stage};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{Phrase, say, words};

use super::must_at_bulk;

/// A comment that nobody answered.
pub const RULE: Rule = Rule {
    code: "open-comment",
    family: "sample",
    severity: Severity::Should,
    summary: "a comment that must be changed is open",
    explanation: "What somebody saw on a sample and wants changed is forgotten unless it is answered: by a revision, by \
                  putting it right in bulk, or by a reason for leaving it. At prototype stage an open comment is a note; bulk \
                  is not released while one stands that must be changed.",
    failing: "[comment.c1]\nabout = \"style\"\naction = \"must change\"\ntext = \"Eyes too far apart\"",
    passing: "[comment.c1]\nabout = \"style\"\naction = \"must change\"\ntext = \"Eyes too far apart\"\nstate = \
              \"answered\"\nanswered-in = \"C\"",
    source: "common practice",
};

words! {
    ON "open-comment.on" = " on {about}";
    MESSAGE "open-comment.message" = "comment {id}{about} must be changed, and is open";
    HERE "open-comment.here" = "not answered";
    HELP "open-comment.help" = "answer it: state = \"answered\" and answered-in = \"the revision\"; or \"correct in bulk\", or \"dropped\"";
}

/// Reports each open comment that must be changed.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, comment) in context.model.samples.comments.iter().filter(|(_, comment)| comment.is_in_the_way()) {
        let about = comment.about.as_ref().map_or_else(Phrase::none, |about| say!(ON, about = &about.value));
        let mut finding = Finding::new(&RULE, say!(MESSAGE, id, about)).at(comment.entry.span(), HERE).help(HELP);
        if Stage::of(context.model) == Stage::Prototype {
            finding.severity = Severity::Note;
        }
        findings.push(must_at_bulk(context, finding));
    }
}

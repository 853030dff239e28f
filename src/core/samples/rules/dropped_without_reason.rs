//! Rule: a comment was dropped and nobody says why.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::CommentState;
use crate::words::{say, words};

/// A comment that was given up.
pub const RULE: Rule = Rule {
    code: "dropped-without-reason",
    family: "sample",
    severity: Severity::Must,
    summary: "a comment was dropped and nobody says why",
    explanation: "Whoever made a comment finds it gone, and makes it again at the next sample or at final inspection. The \
                  reason is what makes an end of it.",
    failing: "[comment.c1]\nabout = \"style\"\nstate = \"dropped\"",
    passing: "[comment.c1]\nabout = \"style\"\nstate = \"dropped\"\nreason = \"as on the sealed sample\"",
    source: "common practice",
};

words! {
    MESSAGE "dropped-without-reason.message" = "comment {id} was dropped without a reason";
    HERE "dropped-without-reason.here" = "why?";
    HELP "dropped-without-reason.help" = "add under [comment.{id}]: reason = \"..\"";
}

/// Reports each such comment.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, comment) in &context.model.samples.comments {
        let told = comment.reason.is_some() || context.model.was_refused("comment", id, "reason");
        let Some(state) = comment.state.as_ref().filter(|state| state.value == CommentState::Dropped && !told) else {
            continue;
        };
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(state.span, HERE);
        findings.push(finding.help(say!(HELP, id)));
    }
}

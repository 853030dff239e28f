//! Rule: a comment is answered, and no revision is named.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::CommentState;
use crate::source::{Edit, Help, quoted};
use crate::words::{say, words};

/// An answer that cannot be looked up.
pub const RULE: Rule = Rule {
    code: "answered-without-revision",
    family: "sample",
    severity: Severity::Should,
    summary: "a comment is answered, and no revision is named",
    explanation: "A comment is answered by a change of the specification. The revision that holds the change is what the \
                  other side compares with the sample; without it an answer is a promise.",
    failing: "[comment.c1]\nabout = \"style\"\nstate = \"answered\"\nanswer = \"Moved by 3 mm\"",
    passing: "[comment.c1]\nabout = \"style\"\nstate = \"answered\"\nanswer = \"Moved by 3 mm\"\nanswered-in = \"C\"",
    source: "common practice",
};

words! {
    MESSAGE "answered-without-revision.message" = "comment {id} is {kind} and names no revision";
    HERE "answered-without-revision.here" = "in which revision?";
    HELP "answered-without-revision.help" = "add under [comment.{id}]: answered-in = \"{now}\"";
}

/// Reports each such comment.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, comment) in &context.model.samples.comments {
        let told = comment.answered_in.is_some() || context.model.was_refused("comment", id, "answered-in");
        let answered = |state: CommentState| matches!(state, CommentState::Answered | CommentState::Agreed);
        let Some(state) = comment.state.as_ref().filter(|state| answered(state.value) && !told) else { continue };
        let finding = Finding::new(&RULE, say!(MESSAGE, id, kind = state.value.word())).at(state.span, HERE);
        let now = context.model.revision.id.as_ref().and_then(|id| id.known()).map_or("B", String::as_str);
        findings.push(finding.help(Help::with(
            say!(HELP, id, now),
            Edit::line(comment.entry.span(), format!("answered-in = {}", quoted(now))),
        )));
    }
}

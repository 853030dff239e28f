//! Rule: a picture without a description of what it shows.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A picture that some cannot read.
pub const RULE: Rule = Rule {
    code: "picture-without-text",
    family: "release",
    severity: Severity::Must,
    summary: "a picture without a description of what it shows",
    explanation: "The package is a tagged document that is also read aloud, searched and machine-translated. A picture \
                  without text is a hole in it, and the file would break the standards for archives and accessibility \
                  that it is written to.",
    failing: "[view.front]\npicture = \"pictures/front.png\"",
    passing: "[view.front]\npicture = \"pictures/front.png\"\nalt = \"A round puffin, seen from the front\"",
    source: "ISO 14289-1 (PDF/UA-1), 7.3; ISO 19005-3, conformance level A",
};

words! {
    MESSAGE "picture-without-text.message" = "the picture of view {id} is described by no text";
    HERE "picture-without-text.here" = "what does it show?";
    HELP "picture-without-text.help" = "add under [view.{id}]: alt = \"what it shows, in one sentence\"";
}

/// Reports views with a picture and no text.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, view) in &context.model.views {
        let Some(picture) = view.picture.as_ref().filter(|_| view.alt.is_none()) else { continue };
        if context.model.was_refused("view", id, "alt") {
            continue;
        }
        findings.push(Finding::new(&RULE, say!(MESSAGE, id)).at(picture.span, HERE).help(say!(HELP, id)));
    }
}

//! Rule: no picture shows the product.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::words;

/// A specification without a picture.
pub const RULE: Rule = Rule {
    code: "no-view",
    family: "release",
    severity: Severity::Should,
    summary: "no picture shows the product",
    explanation: "The first thing a merchandiser looks for is what it looks like. A photograph of a mock-up or a clean \
                  drawing of the front and the side answers more questions than a page of text.",
    failing: "[style]\nid = \"BN-01\"\n# and no [view.ID]",
    passing: "[view.front]\npicture = \"pictures/front.png\"\nalt = \"A round puffin, seen from the front\"",
    source: "common practice",
};

words! {
    MESSAGE "no-view.message" = "no picture shows the product";
    HELP "no-view.help" = "put a picture into the folder and add:\n[view.front]\npicture = \"pictures/front.png\"\nalt = \"what it shows\"";
}

/// Reports a style without a view that has a picture.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    if context.model.views.values().any(|view| view.picture.is_some()) {
        return;
    }
    if context.model.views.keys().any(|id| context.model.was_refused("view", id, "picture")) {
        return;
    }
    findings.push(Finding::new(&RULE, MESSAGE).help(HELP));
}

//! Rule: filling goes into a part that is said to be flat or a cover.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Form;
use crate::words::{say, words};

/// Filling in a part that does not close.
pub const RULE: Rule = Rule {
    code: "stuffing-in-open-part",
    family: "filling",
    severity: Severity::Must,
    summary: "filling goes into a part that is said to be flat or a cover",
    explanation: "Loose filling stays only in a shell that is closed on all sides. A flat part has no inside; a cover \
                  holds another part, which is the one that is stuffed.",
    failing: "[part.cover]\nform = \"cover\"\n[stuffing.inside]\npart = \"cover\"",
    passing: "[part.cover]\nform = \"cover\"\n[part.inner]\n[stuffing.inside]\npart = \"inner\"",
    source: "common practice",
};

words! {
    MESSAGE "stuffing-in-open-part.message" = "stuffing {id} fills part {part}, which is said to be {form_said}";
    FLAT "stuffing-in-open-part.flat" = "flat";
    COVER "stuffing-in-open-part.cover" = "a cover";
    STUFFED "stuffing-in-open-part.stuffed" = "stuffed";
    SAID "stuffing-in-open-part.said" = "said to be {form_said}";
    HELP "stuffing-in-open-part.help" = "name the part that is stuffed, or take `form` out of [part.{part}]";
}

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, stuffing) in &context.model.stuffings {
        let Some(named) = &stuffing.part else { continue };
        let form = context.model.parts.get(&named.value).and_then(|part| part.form.as_ref());
        let Some(form) = form.filter(|form| matches!(form.value, Form::Flat | Form::Cover)) else { continue };
        let form_said = if form.value == Form::Flat { FLAT } else { COVER };
        let part = &named.value;
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, id, part, form_said))
                .at(named.span, STUFFED)
                .at(form.span, say!(SAID, form_said))
                .help(say!(HELP, part)),
        );
    }
}

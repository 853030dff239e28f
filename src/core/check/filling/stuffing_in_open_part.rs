//! Rule: filling goes into a part that is said to be flat or a cover.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Form;

/// Filling in a part that does not close.
pub const RULE: Rule = Rule {
    code: "stuffing-in-open-part",
    family: "filling",
    severity: Severity::Must,
    summary: "filling goes into a part that is said to be flat or a cover",
    explanation: "Loose filling stays only in a shell that is closed on all sides. A flat part has no inside; a cover \
                  holds another part, which is the one that is filled.",
    failing: "[part.cover]\nform = \"cover\"\n[stuffing.inside]\npart = \"cover\"",
    passing: "[part.cover]\nform = \"cover\"\n[part.inner]\n[stuffing.inside]\npart = \"inner\"",
    source: "common practice",
};

/// Reports them.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, stuffing) in &context.model.stuffings {
        let Some(named) = &stuffing.part else { continue };
        let form = context.model.parts.get(&named.value).and_then(|part| part.form.as_ref());
        let Some(form) = form.filter(|form| matches!(form.value, Form::Flat | Form::Cover)) else { continue };
        let word = if form.value == Form::Flat { "flat" } else { "a cover" };
        let part = &named.value;
        findings.push(
            Finding::new(&RULE, format!("stuffing {id} fills part {part}, which is said to be {word}"))
                .at(named.span, "filled")
                .at(form.span, format!("said to be {word}"))
                .help(format!("name the part that is filled, or take `form` out of [part.{part}]")),
        );
    }
}

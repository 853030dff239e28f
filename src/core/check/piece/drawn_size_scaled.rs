//! Rule: the drawn size has a scale.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Size;
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// A size scaled from itself.
pub const RULE: Rule = Rule {
    code: "drawn-size-scaled",
    family: "piece",
    severity: Severity::Must,
    summary: "the drawn size has a scale",
    explanation: "Outlines are drawn in one size, the first of `sizes` unless `drawn` names another. The others are scaled from it. \
                  Where that size has a scale as well, either another one is drawn, or its pieces come out larger or smaller than \
                  they are drawn.",
    failing: "[style]\nsizes = [\"S\", \"M\"]\n[size.S]\nscale = { along = \"0.8\", across = \"0.8\" }",
    passing: "[style]\nsizes = [\"S\", \"M\"]\ndrawn = \"M\"\n[size.S]\nscale = { along = \"0.8\", across = \"0.8\" }",
    source: "follows from the terms",
};

words! {
    NAMED "drawn-size-scaled.named" = "size {size} is the drawn one, and has a scale";
    FIRST "drawn-size-scaled.first" = "size {size}, the first, is the drawn one unless another is named, and has a scale";
    HERE "drawn-size-scaled.here" = "scaled from itself";
    DRAWN "drawn-size-scaled.drawn" = "the drawn size";
    NAME "drawn-size-scaled.name" = "write under [style]: drawn = \"{size}\"";
    CHANGE "drawn-size-scaled.change" = "write drawn = \"{size}\"";
    TAKE_OUT "drawn-size-scaled.take-out" = "take the scale of size {size} out, or name the size under [style] that is drawn: drawn = \"..\"";
}

/// Reports it where the scale changes any piece.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let Some(drawn) = model.drawn_size() else { return };
    let id = drawn.entry.id.value.as_str();
    let Some(scale) = &drawn.scale else { return };
    if !context.assembly.outlines.is_scaled(id) {
        return;
    }
    let plain: Vec<&Size> = model.sizes.iter().filter(|size| size.scale.is_none()).collect();
    let other = match plain.as_slice() {
        [only] => Some(only.entry.id.value.as_str()),
        _ => None,
    };
    let stated = model.style.drawn.as_ref().map(|drawn| drawn.span);
    let message = if stated.is_some() { say!(NAMED, size = id) } else { say!(FIRST, size = id) };
    let finding = Finding::new(&RULE, message).at(scale.span, HERE);
    let finding = stated.into_iter().fold(finding, |finding, span| finding.at(span, DRAWN));
    findings.push(match (other, stated, model.style.span) {
        (Some(size), Some(span), _) => {
            finding.help(Help::with(say!(CHANGE, size), Edit::replace(span, format!("\"{size}\""))))
        }
        (Some(size), None, Some(span)) => {
            finding.help(Help::with(say!(NAME, size), Edit::line(span, format!("drawn = \"{size}\""))))
        }
        _ => finding.help(say!(TAKE_OUT, size = id)),
    });
}

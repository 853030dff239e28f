//! Rule: no step of the order of work fills a stuffing.

use crate::check::Context;
use crate::check::sewing::does;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// Filling that nobody puts in.
pub const RULE: Rule = Rule {
    code: "stuffing-never-filled",
    family: "filling",
    severity: Severity::Should,
    summary: "no step of the order of work fills a stuffing",
    explanation: "The order of work is what the line is set up by. A filling that no step puts in has no place in it: nobody \
                  knows whether it goes in before the part is caught or after, and through which opening.",
    failing: "[stuffing.body]\npart = \"body\"\n[work]\norder = [\"side\", \"turn\", \"back\"]",
    passing: "[stuffing.body]\npart = \"body\"\n[step.fill]\ndo = \"fill\"\nstuffing = \"body\"\n[work]\norder = [\"side\", \
              \"turn\", \"fill\", \"back\"]",
    source: "common practice",
};

words! {
    MESSAGE "stuffing-never-filled.message" = "no step of the order of work fills stuffing {id}";
    HERE "stuffing-never-filled.here" = "filled when?";
    ORDER "stuffing-never-filled.order" = "the order of work";
    HELP "stuffing-never-filled.help" = "add a step, and name it in the order after its part is turned and before the opening that closes it:\n[step.fill_{id}]\ndo = \"fill\"\nstuffing = \"{id}\"";
}

/// Reports each stuffing that neither a step names nor a step fills the part of.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    if model.work.order.is_empty() {
        return;
    }
    for (id, stuffing) in &model.stuffings {
        let fills = |step: &crate::model::Step| {
            let part = stuffing.part.as_ref().map(|part| &part.value);
            match (&step.stuffing, &step.part) {
                (Some(named), _) => named.value == *id,
                (None, Some(named)) => Some(&named.value) == part,
                (None, None) => true,
            }
        };
        if stuffing.part.is_none() || model.steps.values().any(|step| does(step, "fill") && fills(step)) {
            continue;
        }
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(stuffing.entry.span(), HERE);
        let finding = model.work.span.into_iter().fold(finding, |finding, span| finding.at(span, ORDER));
        findings.push(finding.help(say!(HELP, id)));
    }
}

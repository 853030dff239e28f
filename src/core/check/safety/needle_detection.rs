//! Rule: a toy has no step after its last needle in which it is searched for needles.

use crate::check::Context;
use crate::check::sewing::{does, moved_behind};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Step};
use crate::standards::safety;
use crate::words::{say, words};

/// Needles left in.
pub const RULE: Rule = Rule {
    code: "needle-detection",
    family: "safety",
    severity: Severity::Note,
    summary: "a toy has no step after its last needle in which it is searched for needles",
    explanation: "Needles break. Fragments left in a soft toy are found by a metal detector only if somebody has put that step into the order of work, behind the last seam, closing or stitching: a needle that breaks later is not found.",
    failing: "[style]\nkind = \"toy\"\n[work]\norder = [\"crown\", \"fill\"]",
    passing: "[style]\nkind = \"toy\"\n[step.search]\ndo = \"detect\"\n[work]\norder = [\"crown\", \"fill\", \"search\"]",
    source: "common practice of factories for sewn products; the law of the destination and an accredited laboratory decide",
};

words! {
    MESSAGE "needle-detection.message" = "no step searches the product for broken needles";
    HERE "needle-detection.here" = "the order of work";
    HELP "needle-detection.help" = "add a step and name it in the order:\n[step.search]\ndo = \"detect\"";
    EARLY "needle-detection.early" = "step {id} searches for broken needles, and {last} is sewn after it";
    TOO_EARLY "needle-detection.too-early" = "too early";
    LAST "needle-detection.last" = "the last needle";
}

/// Notes a toy whose order of work has no such step, or has it before the last needle.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let order = &model.work.order;
    if !super::is_toy(model) || order.is_empty() {
        return;
    }
    let listed = |id: &str| model.steps.get(id).is_some_and(searches);
    let search = order.iter().rposition(|step| listed(&step.value));
    let last = order.iter().rposition(|step| is_sewn(model, &step.value));
    let finding = match (search, last) {
        (Some(search), Some(last)) if search < last => {
            let (id, needle) = (&order[search], &order[last]);
            let finding = Finding::new(&RULE, say!(EARLY, id = &id.value, last = &needle.value)).at(id.span, TOO_EARLY);
            finding.at(needle.span, LAST).help(moved_behind(context, &id.value, &needle.value))
        }
        (Some(_), _) => return,
        // One that is declared and not listed is a finding of the order.
        (None, _) if model.steps.values().any(searches) => return,
        (None, _) => {
            let finding = Finding::new(&RULE, MESSAGE);
            model.work.span.into_iter().fold(finding, |finding, place| finding.at(place, HERE)).help(HELP)
        }
    };
    findings.push(super::caution(finding, &safety::NEEDLES));
}

/// Whether a step searches for needles.
fn searches(step: &Step) -> bool {
    does(step, "detect")
        || [step.word.as_ref().map_or("", |word| word.value.as_str()), step.entry.title()]
            .iter()
            .any(|text| text.to_lowercase().contains("detect"))
}

/// Whether a needle works there: seams, closings, finishes, stitching; and steps that say so.
fn is_sewn(model: &Model, id: &str) -> bool {
    const NEEDLES: [&str; 4] = ["embroider", "sew", "stitch", "tack"];
    match model.steps.get(id) {
        Some(step) => step.word.as_ref().is_some_and(|word| {
            let word = word.value.to_lowercase();
            NEEDLES.iter().any(|one| word.contains(one))
        }),
        None => true,
    }
}

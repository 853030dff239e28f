//! Rule: a toy has no step in which it is searched for needles.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::standards::safety;
use crate::words::words;

/// Needles left in.
pub const RULE: Rule = Rule {
    code: "needle-detection",
    family: "safety",
    severity: Severity::Note,
    summary: "a toy has no step in which it is searched for needles",
    explanation: "Needles break. Fragments left in a soft toy are found by a metal detector only if somebody has put that step into the order of work.",
    failing: "[style]\nkind = \"toy\"\n[work]\norder = [\"crown\", \"fill\"]",
    passing: "[style]\nkind = \"toy\"\n[step.search]\ndo = \"detect\"\n[work]\norder = [\"crown\", \"fill\", \"search\"]",
    source: "common practice of factories for sewn products; the law of the destination and an accredited laboratory decide",
};

words! {
    MESSAGE "needle-detection.message" = "no step searches the product for broken needles";
    HERE "needle-detection.here" = "the order of work";
    HELP "needle-detection.help" = "add a step and name it in the order:\n[step.search]\ndo = \"detect\"";
}

/// Notes a toy whose order of work has no such step.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let searches = |step: &crate::model::Step| {
        let word = step.word.as_ref().map_or("", |word| word.value.as_str());
        [word, step.entry.title()].iter().any(|text| text.to_lowercase().contains("detect"))
    };
    if !super::is_toy(model) || model.work.order.is_empty() || model.steps.values().any(searches) {
        return;
    }
    let finding = Finding::new(&RULE, MESSAGE);
    let finding = model.work.span.into_iter().fold(finding, |finding, place| finding.at(place, HERE));
    let finding = finding.help(HELP);
    findings.push(super::caution(finding, &safety::NEEDLES));
}

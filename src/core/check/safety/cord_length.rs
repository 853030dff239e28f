//! Rule: a toy for the youngest has cords, ribbons or loops.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::hazard;
use crate::standards::safety;

/// Cords and loops.
pub const RULE: Rule = Rule {
    code: "cord-length",
    family: "safety",
    severity: Severity::Note,
    summary: "a toy for the youngest has cords, ribbons or loops",
    explanation: "A cord or loop can close round a neck. How long it may be, how thick, and how it is measured stands in the standards of the destination.",
    failing: "[style]\nage = \"0+\"\n[trim.ribbon]\ntype = \"ribbon\"\nuse = \"400 mm\"",
    passing: "[style]\nage = \"not a toy\"\n[trim.ribbon]\ntype = \"ribbon\"\nuse = \"400 mm\"",
    source: "EN 71-1:2005+A8:2009, 5.4; the law of the destination and an accredited laboratory decide",
};

/// Notes each cord.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    if !super::is_for_the_youngest(context.model) {
        return;
    }
    for trim in hazard::cords(context.model) {
        let id = &trim.entry.id.value;
        let finding = Finding::new(&RULE, format!("trim {id} may be a free cord or a loop on a toy for the youngest"))
            .at(trim.entry.span(), "how long is its free end?");
        findings.push(super::caution(finding, &safety::CORDS));
    }
}

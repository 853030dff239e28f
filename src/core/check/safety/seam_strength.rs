//! Rule: the seams of a filled toy say nothing about the force they must hold.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::standards::safety;
use crate::words::words;

/// Seams that must hold.
pub const RULE: Rule = Rule {
    code: "seam-strength",
    family: "safety",
    severity: Severity::Note,
    summary: "the seams of a filled toy say nothing about the force they must hold",
    explanation: "Filling that comes out can choke. Which force the seams are tested with depends on the destination and the age, and a laboratory tests it; the factory needs to know before it chooses thread and stitch.",
    failing: "[style]\nkind = \"toy\"\n[stuffing.body]\npart = \"body\"",
    passing: "[style]\nkind = \"toy\"\ndestinations = [\"EU\"]\n[stuffing.body]\npart = \"body\"",
    source: "EN 71-1; ISO 8124-1; 16 CFR 1500.51; the law of the destination and an accredited laboratory decide",
};

words! {
    MESSAGE "seam-strength.message" = "a filled toy does not say where it is sold, so nobody knows how its seams are tested";
    FILLED "seam-strength.filled" = "filled";
    NO "seam-strength.no" = "no `destinations`";
    HELP "seam-strength.help" = "add under [style]: destinations = [\"EU\"], or where it is sold";
}

/// Notes a filled toy that does not say where it is sold, so that nobody knows which test its seams must pass.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let Some(stuffing) = model.stuffings.values().next() else { return };
    if !super::is_toy(model) || !model.style.destinations.is_empty() {
        return;
    }
    let finding = Finding::new(&RULE, MESSAGE).at(stuffing.entry.span(), FILLED);
    let finding = model.style.span.into_iter().fold(finding, |finding, place| finding.at(place, NO));
    findings.push(super::caution(finding.help(HELP), &safety::SEAMS));
}

//! Rule: a toy for the youngest has parts that could come off.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{ArticleKind, hazard};
use crate::standards::safety;

/// Parts that may come off.
pub const RULE: Rule = Rule {
    code: "small-parts",
    family: "safety",
    severity: Severity::Note,
    summary: "a toy for the youngest has parts that could come off",
    explanation: "Eyes, noses, buttons and bells that come off can choke a small child. The note names them so that the question is asked before the sample is made; embroidery avoids it.",
    failing: "[style]\nage = \"0+\"\n[trim.eye]\ntype = \"eye\"\nuse = \"2 pc\"",
    passing: "[style]\nage = \"0+\"\n[step.eyes]\ndo = \"embroider\"",
    source: "16 CFR 1501.4; EN 71-1; the law of the destination and an accredited laboratory decide",
};

/// Notes each trim that may be a small part.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    if !super::is_for_the_youngest(context.model) {
        return;
    }
    // What is filled in is kept by its seams, about which another rule asks.
    for trim in hazard::small_parts(context.model).into_iter().filter(|one| one.kind == ArticleKind::Trim) {
        let id = &trim.entry.id.value;
        let finding = Finding::new(&RULE, format!("trim {id} may come off a toy that the youngest can get"))
            .at(trim.entry.span(), "a small part?");
        let age = context.model.style.age.as_ref();
        let finding = age.into_iter().fold(finding, |finding, age| finding.at(age.span, "the age"));
        findings.push(super::caution(finding, &safety::SMALL_PARTS));
    }
}

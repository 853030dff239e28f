//! Rule: a toy does not say from which age it is meant, or who graded it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Product;
use crate::words::words;

/// The age grade of a toy.
pub const RULE: Rule = Rule {
    code: "age-grade-missing",
    family: "release",
    severity: Severity::Should,
    summary: "a toy does not say from which age it is meant, or who graded it",
    explanation: "The age grade decides about small parts, cords, force of seams and the warning that is printed. It is \
                  not free: a toy is graded by what a child does with it, so it counts who graded it and after what. While \
                  no age is given, cautions are those for the youngest.",
    failing: "[style]\nkind = \"toy\"",
    passing: "[style]\nkind = \"toy\"\nage = { from = \"0 months\", basis = \"laboratory, after ISO 8124-8\" }",
    source: "ISO 8124-8 (age determination guidelines; from memory); 16 CFR 1501.2(b); an accredited laboratory decides",
};

words! {
    NO_AGE "age-grade-missing.no-age" = "the toy does not say from which age it is meant";
    NO_FROM "age-grade-missing.no-from" = "no age from which it is meant";
    ADD_AGE "age-grade-missing.add-age" = "add under [style]: age = { from = \"36 months\", basis = \"who graded it\" }";
    NO_BASIS "age-grade-missing.no-basis" = "the age grade does not say who graded it, and after what";
    WHO "age-grade-missing.who" = "by whom?";
    ADD_BASIS "age-grade-missing.add-basis" = "add to the age: basis = \"own estimate\", or the laboratory and what it went by";
}

/// Reports a toy without either.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let style = &context.model.style;
    let Some(kind) = style.kind.as_ref().filter(|kind| kind.value == Product::Toy) else { return };
    if context.model.was_refused("style", "style", "age") {
        return;
    }
    let Some(age) = &style.age else {
        findings.push(Finding::new(&RULE, NO_AGE).at(kind.span, NO_FROM).help(ADD_AGE));
        return;
    };
    if age.from.is_none() {
        findings.push(Finding::new(&RULE, NO_AGE).at(age.span, NO_FROM).help(ADD_AGE));
    }
    if age.basis.is_none() {
        findings.push(Finding::new(&RULE, NO_BASIS).at(age.span, WHO).help(ADD_BASIS));
    }
}

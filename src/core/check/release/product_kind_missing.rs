//! Rule: a specification does not say what kind of product it is.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Product};
use crate::words::{Phrase, say, words};

/// What it is to the law.
pub const RULE: Rule = Rule {
    code: "product-kind-missing",
    family: "release",
    severity: Severity::Should,
    summary: "a specification does not say what kind of product it is",
    explanation: "A toy is tested for small parts, cords and seams, a household textile for fire and labelling. Which \
                  cautions are printed and which questions are asked follows from what the product is, and words such as \
                  \"plush\" do not say it.",
    failing: "[style]\nproduct = \"plush puffin\"\ndestinations = [\"EU\"]",
    passing: "[style]\nproduct = \"plush puffin\"\nkind = \"toy\"\ndestinations = [\"EU\"]",
    source: "Directive 2009/48/EC, article 2 (from memory); the law of the destination decides",
};

words! {
    NOT_SAID "product-kind-missing.not-said" = "the specification does not say what kind of product it is";
    HERE "product-kind-missing.here" = "no `kind`";
    ADD "product-kind-missing.add" = "add under [style]: kind = \"{first}\", or {others}";
}

/// Reports a style without a kind where cautions or tests depend on it.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let style = &context.model.style;
    if style.kind.is_some() || !is_needed(context.model) || context.model.was_refused("style", "style", "kind") {
        return;
    }
    let others = Phrase::list(Product::ALL[1..].iter().map(|kind| kind.word()));
    let finding = Finding::new(&RULE, NOT_SAID).help(say!(ADD, first = Product::Toy.word(), others));
    findings.push(style.span.into_iter().fold(finding, |finding, span| finding.at(span, HERE)));
}

/// Whether it is sold somewhere, graded, filled, or has trims.
fn is_needed(model: &Model) -> bool {
    let style = &model.style;
    style.span.is_some() && (!style.destinations.is_empty() || style.age.is_some() || !model.stuffings.is_empty())
}

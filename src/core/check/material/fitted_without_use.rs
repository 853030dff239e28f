//! Rule: a step fits a trim, and nothing says how many.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::ArticleKind;
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// A trim of unknown number.
pub const RULE: Rule = Rule {
    code: "fitted-without-use",
    family: "material",
    severity: Severity::Should,
    summary: "a step fits a trim, and nothing says how many",
    explanation: "What lies in a seam is measured there; what a step fits is counted by `use`. If you leave it out, the bill of \
                  materials cannot say how many to buy, and the mass of the product lacks them.",
    failing: "[trim.eye]\ntype = \"eye\"\n[step.eyes]\ndo = \"fit the eyes\"\ntrim = \"eye\"",
    passing: "[trim.eye]\ntype = \"eye\"\nuse = \"2 pc\"\n[step.eyes]\ndo = \"fit the eyes\"\ntrim = \"eye\"",
    source: "common practice",
};

words! {
    MESSAGE "fitted-without-use.message" = "step {step} fits trim {id}, which does not say how many go into one product";
    HERE "fitted-without-use.here" = "how many?";
    FITTED "fitted-without-use.fitted" = "fitted here";
    HELP "fitted-without-use.help" = "add use = \"1 pc\", or how many it is";
}

/// Reports each trim once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let mut told = BTreeSet::new();
    for (step, trim) in model.steps.iter().filter_map(|(id, step)| Some((id, step.trim.as_ref()?))) {
        for way in model.colourways.keys() {
            let Some((article, _)) = model.resolve(&trim.value, way) else { continue };
            let id = article.entry.id.value.as_str();
            if article.kind != ArticleKind::Trim
                || article.properties.contains_key("use")
                || model.was_refused("trim", id, "use")
                || !told.insert(id)
            {
                continue;
            }
            let finding =
                Finding::new(&RULE, say!(MESSAGE, step, id)).at(article.entry.span(), HERE).at(trim.span, FITTED);
            let edit = Edit::line(article.entry.span(), "use = \"1 pc\"");
            findings.push(finding.help(Help::with(HELP, edit)));
        }
    }
}

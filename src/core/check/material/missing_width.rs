//! Rule: a fabric is cut and its cuttable width is not stated.

use crate::check::Context;
use crate::check::mention::cut_cloths;
use crate::diag::{Finding, Findings, Rule, Severity};

/// A cloth whose width is not stated.
pub const RULE: Rule = Rule {
    code: "missing-width",
    family: "material",
    severity: Severity::Must,
    summary: "a cloth is cut and its usable width is not stated",
    explanation: "Cloth is bought by length. How much of it one product needs depends on the width between the \
                  selvedges that can really be cut: without it no quotation for material can be checked.",
    failing: "[cloth.canvas]\nmass = \"320 g/m2 ±5 %\"",
    passing: "[cloth.canvas]\nmass = \"320 g/m2 ±5 %\"\nusable-width = \"1450 mm\"",
    source: "ISO 22198 (width of fabrics, from memory); common practice",
};

/// Reports cloth that is cut without a usable width.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, article) in cut_cloths(model) {
        if article.properties.contains_key("usable-width") || model.was_refused("cloth", id, "usable-width") {
            continue;
        }
        let finding = Finding::new(&RULE, format!("cloth {id} does not say how much of its width can be cut"))
            .at(article.entry.span(), "no usable width");
        let finding = match article.quantity("width") {
            Some(full) => finding.at(full.span, "the full width"),
            None => finding,
        };
        findings.push(finding.help(
            "add usable-width = \"1450 mm\", or what it is, without selvedges and pin holes; \"by factory\" leaves it \
             to the factory",
        ));
    }
}

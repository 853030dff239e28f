//! Rule: a fabric is cut and its cuttable width is not stated.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::cut_fabrics;
use crate::words::{say, words};

/// A fabric whose width is not stated.
pub const RULE: Rule = Rule {
    code: "missing-width",
    family: "material",
    severity: Severity::Must,
    summary: "a fabric is cut and its cuttable width is not stated",
    explanation: "Fabric is bought by length. How much of it one product needs depends on the width between the \
                  selvedges that can really be cut: without it no quotation for material can be checked.",
    failing: "[fabric.canvas]\nmass = \"320 g/m2 ±5 %\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2 ±5 %\"\ncuttable-width = \"1450 mm\"",
    source: "ISO 22198 (width of fabrics, from memory); common practice",
};

words! {
    MESSAGE "missing-width.message" = "fabric {id} does not say how much of its width can be cut";
    CUTTABLE_WIDTH "missing-width.cuttable-width" = "no cuttable width";
    FULL_WIDTH "missing-width.full-width" = "the full width";
    HELP "missing-width.help" = "add cuttable-width = \"1450 mm\", or what it is, without selvedges and pin holes; \"by factory\" leaves it to the factory";
}

/// Reports fabric that is cut without a cuttable width.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, article) in cut_fabrics(model) {
        if article.properties.contains_key("cuttable-width") || model.was_refused("fabric", id, "cuttable-width") {
            continue;
        }
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(article.entry.span(), CUTTABLE_WIDTH);
        let finding = match article.quantity("width") {
            Some(full) => finding.at(full.span, FULL_WIDTH),
            None => finding,
        };
        findings.push(finding.help(HELP));
    }
}

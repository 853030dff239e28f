//! Rule: a fabric or trim in use whose mass is not stated.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::{Wanted, articles, cut_fabrics, mentions};
use crate::model::{Article, ArticleKind, Held, Model};
use crate::words::{say, words};

/// An article whose mass is not stated.
pub const RULE: Rule = Rule {
    code: "missing-mass",
    family: "material",
    severity: Severity::Must,
    summary: "a fabric or trim in use whose mass is not stated",
    explanation: "Mass per area is how a fabric is recognised, bought and checked on arrival: two canvases that look alike \
                  may differ by half. The mass of the product, of its carton and the freight also follow from it. For \
                  trims the finding is a `should`.",
    failing: "[fabric.canvas]\nwidth = \"1500 mm\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2 ±5 %\"\nwidth = \"1500 mm\"",
    source: "ISO 3801 (mass per unit area of fabrics); common practice",
};

words! {
    FABRIC "missing-mass.fabric" = "fabric {id} does not say what it weighs per area";
    ADD_PER_AREA "missing-mass.add-per-area" = "add mass = \"320 g/m2 ±5 %\", or what it is; \"by factory\" leaves it to the factory";
    HERE "missing-mass.here" = "no mass";
    ADD_PER_LENGTH "missing-mass.add-per-length" = "add mass-per-length = \"9 g/m\", or what it is; \"by factory\" leaves it to the factory";
    ADD_EACH "missing-mass.add-each" = "add mass-each = \"6 g\", or what it is; \"by factory\" leaves it to the factory";
    TRIM "missing-mass.trim" = "trim {id} does not say what it weighs";
}

/// Reports fabric that is cut and trims that are used without a mass.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, article) in cut_fabrics(model) {
        if lacks(model, article, "mass") {
            findings.push(Finding::new(&RULE, say!(FABRIC, id)).at(article.entry.span(), HERE).help(ADD_PER_AREA));
        }
    }
    trims(model, findings);
}

fn lacks(model: &Model, article: &Article, key: &str) -> bool {
    let refused = model.was_refused(article.kind.word(), &article.entry.id.value, key);
    !article.properties.contains_key(key) && !refused
}

/// Trims weigh by the piece or by length.
fn trims(model: &Model, findings: &mut Findings) {
    let by_length = length_goods(model);
    let named: Vec<&str> = mentions(model)
        .iter()
        .filter(|one| matches!(one.wanted, Wanted::Material(ArticleKind::Trim)))
        .flat_map(|one| articles(model, one.id))
        .map(|article| article.entry.id.value.as_str())
        .collect();
    for (id, trim) in model.articles.iter().filter(|(_, article)| article.kind == ArticleKind::Trim) {
        let used = named.contains(&id.as_str()) || trim.properties.contains_key("use");
        if !used || !lacks(model, trim, "mass-each") || !lacks(model, trim, "mass-per-length") {
            continue;
        }
        let help = if by_length.contains(&id.as_str()) { ADD_PER_LENGTH } else { ADD_EACH };
        let mut finding = Finding::new(&RULE, say!(TRIM, id)).at(trim.entry.span(), HERE).help(help);
        finding.severity = Severity::Should;
        findings.push(finding);
    }
}

/// Trims that are caught in seams or used as a tape.
fn length_goods(model: &Model) -> Vec<&str> {
    let caught = model.joints.values().flat_map(|joint| &joint.between).filter_map(|layer| match &layer.held {
        Held::Trim(trim) => Some(trim),
        Held::Chain(_) => None,
    });
    let tapes = model.edge_finishes.values().filter_map(|finish| finish.tape.as_ref());
    caught
        .chain(tapes)
        .flat_map(|layer| articles(model, &layer.trim.value))
        .map(|article| article.entry.id.value.as_str())
        .collect()
}

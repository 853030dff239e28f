//! Rule: fabric with a pile is said to have two equal faces.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::EQUAL;
use crate::model::{ArticleKind, Stated, Value};
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// A pile on fabric without a right side.
pub const RULE: Rule = Rule {
    code: "pile-on-equal-faces",
    family: "material",
    severity: Severity::Must,
    summary: "fabric with a pile is said to have two equal faces",
    explanation: "Pieces of a fabric with equal faces are turned over as they come: a left and a right piece are cut alike, with \
                  one die. A pile is on one face, so that every second piece would have it inside.",
    failing: "[fabric.plush]\npile = \"9 mm\"\nfaces = \"equal\"",
    passing: "[fabric.felt]\nthickness = \"2 mm\"\nfaces = \"equal\"",
    source: "common practice",
};

words! {
    MESSAGE "pile-on-equal-faces.message" = "fabric {id} has a pile, and its two faces are said to be equal";
    HERE "pile-on-equal-faces.here" = "one face has the pile";
    PILE "pile-on-equal-faces.pile" = "its pile";
    HELP "pile-on-equal-faces.help" = "write faces = \"right and wrong\"";
}

/// Reports each such fabric.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in context.model.articles.iter().filter(|(_, one)| one.kind == ArticleKind::Fabric) {
        let Some(pile) = article.quantity("pile") else { continue };
        let faces = article.text("faces").into_iter().flat_map(Value::all);
        let equal = |stated: &&Stated<String>| stated.known().is_some_and(|faces| faces == EQUAL);
        let Some(stated) = faces.into_iter().find(equal) else { continue };
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(stated.span, HERE).at(pile.span, PILE);
        findings.push(finding.help(Help::with(HELP, Edit::replace(stated.span, "\"right and wrong\""))));
    }
}

//! Rule: fabric with a pile may be laid two ways or any way.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{ArticleKind, Stated, Value};
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// A pile that runs up on one piece and down on the next.
pub const RULE: Rule = Rule {
    code: "pile-cut-both-ways",
    family: "material",
    severity: Severity::Should,
    summary: "fabric with a pile may be laid two ways or any way",
    explanation: "Pile looks darker against the stroke. Where pieces may lie with their heads up or down, neighbours of one \
                  product come out in two shades. Pile that really stands straight, such as a short velour, says so with this \
                  finding silenced; all other lies one way, which is the default.",
    failing: "[fabric.plush]\npile = \"9 mm\"\ndirection = \"two ways\"",
    passing: "[fabric.plush]\npile = \"9 mm\"\ndirection = \"one way\"",
    source: "common practice",
};

words! {
    MESSAGE "pile-cut-both-ways.message" = "fabric {id} has a pile, and its pieces may be laid {way}";
    HERE "pile-cut-both-ways.here" = "pile runs one way";
    PILE "pile-cut-both-ways.pile" = "its pile";
    HELP "pile-cut-both-ways.help" = "write direction = \"one way\"";
}

/// Reports each such fabric.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in context.model.articles.iter().filter(|(_, one)| one.kind == ArticleKind::Fabric) {
        let Some(pile) = article.quantity("pile") else { continue };
        let ways = article.text("direction").into_iter().flat_map(Value::all);
        let free = |stated: &&Stated<String>| stated.known().is_some_and(|way| way != "one way");
        let Some(stated) = ways.into_iter().find(free) else { continue };
        let Some(way) = stated.known() else { continue };
        let finding = Finding::new(&RULE, say!(MESSAGE, id, way)).at(stated.span, HERE).at(pile.span, PILE);
        findings.push(finding.help(Help::with(HELP, Edit::replace(stated.span, "\"one way\""))));
    }
}

//! Rule: a piece says which way the pile lies, but its fabric has none.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::articles;
use crate::words::{say, words};

/// A pile on a piece whose fabric has none.
pub const RULE: Rule = Rule {
    code: "direction-without-pile",
    family: "piece",
    severity: Severity::Should,
    summary: "a piece says which way the pile lies, but its fabric has none",
    explanation: "Either the fabric has a pile that is not stated, and then pieces may not be turned on it and more of it \
                  is needed; or the arrow on the piece means nothing, and the cutting room asks. Fabric that looks \
                  different from one end, by a print or a weave, says so with `direction`.",
    failing: "[fabric.felt]\n[piece.EAR]\nmaterial = \"felt\"\npile = \"n-s\"",
    passing: "[fabric.plush]\npile = \"9 mm\"\n[piece.EAR]\nmaterial = \"plush\"\npile = \"n-s\"",
    source: "common practice",
};

words! {
    MESSAGE "direction-without-pile.message" = "piece {id} says which way the pile lies, but {name} has no pile";
    WRITTEN "direction-without-pile.written" = "this way";
    DRAWN "direction-without-pile.drawn" = "its drawing shows a pile";
    HERE "direction-without-pile.here" = "no pile here";
    HELP "direction-without-pile.help" = "add pile = \"..\" to [fabric.{name}], or direction = \"one way\" if it has another direction; or take the pile off the piece";
}

/// Reports pieces with a direction, written or drawn, none of whose fabrics has a pile or a direction.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, piece) in &model.pieces {
        let drawn = context.assembly.outlines.any(id).is_some_and(|outline| outline.pile.is_some());
        let span = match &piece.pile {
            Some(pile) => pile.span,
            None if drawn => piece.entry.span(),
            None => continue,
        };
        let cut = piece.cuts.values().filter_map(|cut| cut.material.as_ref());
        let fabrics: Vec<_> = cut.flat_map(|material| articles(model, &material.value)).collect();
        let directed = |key: &str| fabrics.iter().any(|fabric| fabric.properties.contains_key(key));
        let Some(fabric) = fabrics.first().filter(|_| !directed("pile") && !directed("direction")) else { continue };
        let name = &fabric.entry.id.value;
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, id, name))
                .at(span, if piece.pile.is_some() { WRITTEN } else { DRAWN })
                .at(fabric.entry.span(), HERE)
                .help(say!(HELP, name)),
        );
    }
}

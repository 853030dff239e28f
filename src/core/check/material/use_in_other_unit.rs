//! Rule: the use of a trim is a length though it is counted, or a count though it comes off a roll.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, ArticleKind, Stated, Value};
use crate::standards::things::SMALL_PARTS;
use crate::units::Dimension;
use crate::words::{Word, say, words};

/// Two metres of eyes.
pub const RULE: Rule = Rule {
    code: "use-in-other-unit",
    family: "material",
    severity: Severity::Must,
    summary: "the use of a trim is a length though it is counted, or a count though it comes off a roll",
    explanation: "Eyes, buttons and labels are bought by the piece, cord and tape by length. What `use` says is bought, priced and \
                  weighed: \"2 m\" of eyes or \"2 pc\" of cord is a slip of the unit. A cord that is bought in cut pieces states \
                  `mass-each` or its `length`.",
    failing: "[trim.eye]\ntype = \"eye\"\nmass-each = \"0.8 g\"\nuse = \"2 m\"",
    passing: "[trim.eye]\ntype = \"eye\"\nmass-each = \"0.8 g\"\nuse = \"2 pc\"",
    source: "follows from the units",
};

words! {
    COUNTED "use-in-other-unit.counted" = "trim {id} is counted, and {use_said} of it are used";
    ROLLED "use-in-other-unit.rolled" = "trim {id} is bought by length, and {use_said} of it are used";
    HERE "use-in-other-unit.here" = "in another unit";
    BY_PIECE "use-in-other-unit.by-piece" = "counted by the piece";
    BY_LENGTH "use-in-other-unit.by-length" = "bought by length";
    WRITE_COUNT "use-in-other-unit.write-count" = "write how many: use = \"2 pc\"";
    WRITE_LENGTH "use-in-other-unit.write-length" = "write the length that one product takes: use = \"600 mm\"; for cut pieces add their `length`";
}

/// Reports each such trim once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in context.model.articles.iter().filter(|(_, one)| one.kind == ArticleKind::Trim) {
        let Some(written) = article.quantity("use") else { continue };
        let has = |key: &str| article.properties.contains_key(key);
        let counted = has("mass-each") || (is_small(article) && !has("mass-per-length"));
        let rolled = has("mass-per-length") && !has("mass-each") && !has("length");
        let wrong = |stated: &&Stated<crate::units::Quantity>| {
            let dimension = stated.known().map(crate::units::Quantity::dimension);
            (counted && dimension == Some(Dimension::Length)) || (rolled && dimension == Some(Dimension::Count))
        };
        let Some(stated) = written.all().find(wrong) else { continue };
        let Some(use_said) = stated.known() else { continue };
        let (word, why, help): (Word, Word, Word) =
            if counted { (COUNTED, BY_PIECE, WRITE_COUNT) } else { (ROLLED, BY_LENGTH, WRITE_LENGTH) };
        let shown = if counted { "mass-each" } else { "mass-per-length" };
        let place = article.quantity(shown).map_or(article.entry.span(), |value| value.span);
        let finding = Finding::new(&RULE, say!(word, id, use_said)).at(stated.span, HERE);
        findings.push(finding.at(place, why).help(help));
    }
}

fn is_small(article: &Article) -> bool {
    let mut types = article.text("type").into_iter().flat_map(Value::all).filter_map(Stated::known);
    types.any(|text| SMALL_PARTS.are(text))
}

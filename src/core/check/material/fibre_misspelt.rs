//! Rule: a fibre has nearly the name of a known one.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::source::{Edit, Help};
use crate::standards::fibre::{FIBRES, meant};
use crate::words::{say, words};

/// A fibre that no label may name.
pub const RULE: Rule = Rule {
    code: "fibre-misspelt",
    family: "material",
    severity: Severity::Should,
    summary: "a fibre has nearly the name of a known one",
    explanation: "The composition goes onto the label word for word, and the law says which names a fibre may have. One letter off \
                  is another word there, and the label is printed by the thousand. Names that are like no known one are taken as \
                  they are: sand, pellets, down.",
    failing: "[fabric.plush]\ncomposition = \"100 % polyestr\"",
    passing: "[fabric.plush]\ncomposition = \"100 % polyester\"",
    source: "names: Regulation (EU) No 1007/2011, Annex I (from memory)",
};

words! {
    MESSAGE "fibre-misspelt.message" = "{what} is of \"{word}\", which is no fibre";
    HERE "fibre-misspelt.here" = "{near}?";
    HELP "fibre-misspelt.help" = "write {near}";
}

/// Reports each such word.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in &context.model.articles {
        for (name, _) in article.composition.iter().flat_map(|layer| &layer.fibres) {
            let words = name.value.split(|c: char| !c.is_alphabetic());
            for (word, near) in words.filter_map(|word| Some((word, meant(word)?))) {
                let message = say!(MESSAGE, what = kind::named(article.kind.word(), id), word);
                let edit = Edit::respell(name.span, word, near, FIBRES.iter().copied());
                let finding = Finding::new(&RULE, message).at(name.span, say!(HERE, near));
                findings.push(finding.help(Help::with(say!(HELP, near), edit)));
            }
        }
    }
}

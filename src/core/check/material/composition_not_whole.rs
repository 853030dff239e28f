//! Rule: the fibres of an article do not add up to 100 %.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Composition, kind};
use crate::units::{Rational, Unit};
use crate::words::{Phrase, say, words};

/// Fibres that do not make a whole.
pub const RULE: Rule = Rule {
    code: "composition-not-whole",
    family: "material",
    severity: Severity::Must,
    summary: "the fibres of an article do not add up to 100 %",
    explanation: "The composition goes onto the care label and into the customs papers. Shares that do not add up mean \
                  that a fibre was forgotten or a figure is wrong, and the label cannot be printed.",
    failing: "[fabric.canvas]\ncomposition = \"80 % cotton, 10 % polyester\"",
    passing: "[fabric.canvas]\ncomposition = \"80 % cotton, 20 % polyester\"",
    source: "Regulation (EU) No 1007/2011, article 9 (from memory)",
};

words! {
    WHOLE "composition-not-whole.whole" = "composition";
    LAYER "composition-not-whole.layer" = "composition of the {name}";
    MISSING "composition-not-whole.missing" = "{gap} % missing";
    TOO_MUCH "composition-not-whole.too-much" = "{gap} % too much";
    MESSAGE "composition-not-whole.message" = "the {what} of {kind} {id} adds up to {sum} %";
    HELP "composition-not-whole.help" = "write each fibre with its share, so that all together make 100 %";
}

/// Reports each layer whose shares do not make 100 %.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in &context.model.articles {
        if context.model.was_refused(article.kind.word(), id, "composition") {
            continue;
        }
        for layer in &article.composition {
            let Some(sum) = sum(layer).filter(|sum| *sum != Rational::whole(100)) else { continue };
            let kind = kind::word(article.kind.word());
            let what = match layer.layer.value.as_str() {
                "all" => WHOLE.into(),
                name => say!(LAYER, name),
            };
            let hundred = Rational::whole(100);
            let (way, gap) =
                if sum < hundred { (MISSING, hundred.checked_sub(sum)) } else { (TOO_MUCH, sum.checked_sub(hundred)) };
            let label = gap.map_or_else(Phrase::none, |gap| say!(way, gap));
            findings.push(Finding::new(&RULE, say!(MESSAGE, what, kind, id, sum)).at(layer.span, label).help(HELP));
        }
    }
}

/// The shares together, in percent; `None` where one is not known.
fn sum(layer: &Composition) -> Option<Rational> {
    layer.fibres.iter().try_fold(Rational::whole(0), |sum, (_, share)| {
        sum.checked_add(share.known()?.in_unit(Unit::from_symbol("%")?)?)
    })
}

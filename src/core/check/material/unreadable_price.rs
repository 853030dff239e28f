//! Rule: a price cannot be read, so that nothing is computed from it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::source::{Edit, Help, quoted};
use crate::units::Price;
use crate::words::{say, words};

/// A price in a form of its own.
pub const RULE: Rule = Rule {
    code: "unreadable-price",
    family: "material",
    severity: Severity::Should,
    summary: "a price cannot be read, so that nothing is computed from it",
    explanation: "The cost of an order is worked out from prices of a metre, a yard or a kilogram: the amount with a decimal point, \
                  the currency, a stroke and the unit. A price in another form is left out of the cost, which is then too low.",
    failing: "[fabric.plush]\nprice = \"EUR 4,20\"",
    passing: "[fabric.plush]\nprice = \"4.20 EUR/m\"",
    source: "follows from what is computed",
};

words! {
    MESSAGE "unreadable-price.message" = "the price of {what} cannot be read";
    HERE "unreadable-price.here" = "an amount, a currency and what it is of";
    WRITE "unreadable-price.write" = "write \"{text}\"";
    HELP "unreadable-price.help" = "write it as \"4.20 EUR/m\", \"4.20 EUR/yd\" or \"14 EUR/kg\"";
}

/// Reports each price in another form.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in &context.model.articles {
        for stated in article.text("price").into_iter().flat_map(|price| price.all()) {
            let Some(text) = stated.known().filter(|text| Price::parse(text).is_none()) else { continue };
            let message = say!(MESSAGE, what = kind::named(article.kind.word(), id));
            let finding = Finding::new(&RULE, message).at(stated.span, HERE);
            // A value in its long form is a table, of which only a part is the text.
            let whole = stated.audience == crate::model::Audience::Everyone;
            findings.push(match meant(text) {
                Some(text) => {
                    let edit = whole.then(|| Edit::replace(stated.span, quoted(&text)));
                    finding.help(Help::with(say!(WRITE, text), edit))
                }
                None => finding.help(HELP),
            });
        }
    }
}

/// The same in the form that is read, where all of it is there: `EUR 4,20 per m`, `4,20€/m`.
fn meant(text: &str) -> Option<String> {
    let text = text.replace(" per ", "/").replace(',', ".");
    let (front, unit) = text.split_once('/')?;
    let amount: String = front.chars().filter(|c| c.is_ascii_digit() || *c == '.').collect();
    let currency: String = front.chars().filter(|c| !(c.is_ascii_digit() || *c == '.')).collect();
    let meant = format!("{amount} {}/{}", currency.trim(), unit.trim());
    Price::parse(&meant).is_some().then_some(meant)
}

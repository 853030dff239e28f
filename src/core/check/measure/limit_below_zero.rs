//! Rule: a tolerance is so wide that less than nothing would pass.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Stated, Value};
use crate::units::{Dimension, Quantity};
use crate::words::{Phrase, say, words};

/// A limit below zero.
pub const RULE: Rule = Rule {
    code: "limit-below-zero",
    family: "measure",
    severity: Severity::Must,
    summary: "a tolerance is so wide that less than nothing would pass",
    explanation: "A length or a mass below zero does not exist, so a lower limit there is no limit: the tolerance has a slip of \
                  digit or unit, or is a share that was meant as a length. A target of zero, as of a gap, is not asked about.",
    failing: "[stuffing.body]\nmass = \"30 g ±40 g\"",
    passing: "[stuffing.body]\nmass = \"30 g ±4 g\"",
    source: "arithmetic",
};

words! {
    OF_TARGET "limit-below-zero.of-target" = "the target of point of measure {id}";
    OF_MASS "limit-below-zero.of-mass" = "the mass of stuffing {id}";
    OF_PROPERTY "limit-below-zero.of-property" = "`{key}` of {id}";
    MESSAGE "limit-below-zero.message" = "{what}, {value}, has a lower limit below zero";
    HERE "limit-below-zero.here" = "less than nothing would pass";
    HELP "limit-below-zero.help" = "write a tolerance smaller than the value itself";
}

/// Reports each such value.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, point) in &model.measures {
        point.target.iter().for_each(|value| all(value, &say!(OF_TARGET, id), findings));
    }
    for (id, stuffing) in &model.stuffings {
        stuffing.mass.iter().for_each(|value| all(value, &say!(OF_MASS, id), findings));
    }
    for (id, article) in &model.articles {
        for key in article.properties.keys() {
            if let Some(value) = article.quantity(key) {
                all(value, &say!(OF_PROPERTY, key, id), findings);
            }
        }
    }
}

fn all(value: &Value<Quantity>, what: &Phrase, findings: &mut Findings) {
    for stated in value.all() {
        let Some(value) = below(stated) else { continue };
        findings.push(Finding::new(&RULE, say!(MESSAGE, what, value)).at(stated.span, HERE).help(HELP));
    }
}

/// A value above zero whose lower limit is not, of what cannot be negative.
fn below(stated: &Stated<Quantity>) -> Option<&Quantity> {
    let quantity = stated.known().filter(|quantity| quantity.si().is_positive())?;
    // Shrinkage may be negative: the fabric grows.
    let share = quantity.dimension() == Dimension::Percent;
    (!share && quantity.limits()?.lower.is_negative()).then_some(quantity)
}

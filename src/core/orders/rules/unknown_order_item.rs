//! Rule: an order line is for a size or colourway that the style does not have.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::source::Spanned;
use crate::source::nearest;
use crate::words::{say, words};

use super::{lines, title};

/// A line for a size or colourway that the style does not have.
pub const RULE: Rule = Rule {
    code: "unknown-order-item",
    family: "order",
    severity: Severity::Must,
    summary: "an order line is for a size or colourway that the style does not have, or that is not made",
    explanation: "Such a line can be neither cut nor bought for: its products are missing in the cut plan, in the fabric to \
                  buy and in the cartons.",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[order.spring.line.eu]\nsize = \"M\"\nquantity = 400",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[order.spring.line.eu]\nsize = \"L\"\nquantity = 400",
    source: "common practice",
};

words! {
    MESSAGE "unknown-order-item.message" = "{line} is for the {what} `{id}`, which the style does not have";
    NOT_MADE "unknown-order-item.not-made" = "{line} is for {cell}, which is not made";
    NOT_MADE_HERE "unknown-order-item.not-made-here" = "not made";
    TAKE_OUT "unknown-order-item.take-out" = "take it out of `not-made` of the style, or order what is made";
    WRITE "unknown-order-item.write" = "write \"{near}\"";
    KNOWN "unknown-order-item.known" = "the style has {known}";
    HERE "unknown-order-item.here" = "no such {what}";
}

/// Reports each such line.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let sizes: Vec<&str> = model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect();
    let colourways: Vec<&str> = model.colourways.keys().map(String::as_str).collect();
    for (order, line) in lines(model) {
        let mut look = |table: &str, id: &Option<Spanned<String>>, known: &[&str]| {
            let Some(id) = id.as_ref().filter(|id| !known.contains(&id.value.as_str())) else { return };
            let what = kind::word(table);
            let message = say!(MESSAGE, line = title(order, line), what = &what, id = &id.value);
            let help = match nearest(&id.value, known.iter().copied()) {
                Some(near) => say!(WRITE, near),
                None => say!(KNOWN, known = known.join(", ")),
            };
            findings.push(Finding::new(&RULE, message).at(id.span, say!(HERE, what)).help(help));
        };
        look("size", &line.size, &sizes);
        look("colourway", &line.colourway, &colourways);
        if let (Some(size), Some(way)) = (&line.size, &line.colourway)
            && !model.is_made(&size.value, &way.value)
        {
            let message = say!(NOT_MADE, line = title(order, line), cell = format!("{}/{}", size.value, way.value));
            findings.push(Finding::new(&RULE, message).at(size.span, NOT_MADE_HERE).help(TAKE_OUT));
        }
    }
}

//! Rule: an order makes more than may be delivered, or lets everything be missing.

use crate::compute::Figures;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Order};
use crate::source::Span;
use crate::words::{say, words};

/// What is made against what may be delivered.
pub const RULE: Rule = Rule {
    code: "quantity-outside-tolerance",
    family: "order",
    severity: Severity::Note,
    summary: "an order makes more than may be delivered, or lets everything be missing",
    explanation: "Cut extra are cut against loss. Where less is lost, there are more good products than the buyer takes, and \
                  somebody must pay for them: the factory asks for `over` to be at least the cut extra, or whose the rest is. A \
                  `short` as large as the quantity lets nothing at all be delivered, which is a slip.",
    failing: "[order.spring]\ncut-extra = \"5 %\"\nover = \"2 %\"",
    passing: "[order.spring]\ncut-extra = \"2 %\"\nover = \"3 %\"",
    source: "common practice",
};

words! {
    ALL_MISSING "quantity-outside-tolerance.all-missing" = "order {id}, line {line}: all of it may be missing";
    ALL_SHORT "quantity-outside-tolerance.all-short" = "as much as is ordered";
    WRITE_SHORT "quantity-outside-tolerance.write-short" = "write what may be missing of the quantity: short = \"3 %\"";
    MESSAGE "quantity-outside-tolerance.message" = "order {id} cuts {cut_extra} of size {size} in {colourway} where {quantity} are ordered, and at most {allowed} may be delivered";
    LESS "quantity-outside-tolerance.less" = "less than is cut on top";
    CUT_ON_TOP "quantity-outside-tolerance.cut-on-top" = "cut on top";
    ALLOW_MORE "quantity-outside-tolerance.allow-more" = "allow as much over as is cut on top, or cut less on top";
}

/// Reports each order once for its cut extra, and each line whose `short` is all of it.
pub(crate) fn check(model: &Model, figures: &Figures, findings: &mut Findings) {
    for (id, order) in &model.orders {
        let Some(known) = figures.orders.get(id) else { continue };
        for line in known.lines.iter().filter(|line| line.quantity.is_some() && line.least == Some(0)) {
            let Some(written) = order.lines.get(&line.line) else { continue };
            let Some(short) = order.short_of(written) else { continue };
            let message = say!(ALL_MISSING, id, line = &line.line);
            let finding = Finding::new(&RULE, message).at(short.span, ALL_SHORT);
            findings.push(finding.help(WRITE_SHORT));
        }
        let over = |(size, colourway): (&String, &String)| {
            Some((size.clone(), colourway.clone(), over(order, size, colourway)?))
        };
        let all = known.products.iter().flat_map(|(size, by)| by.keys().map(move |colourway| (size, colourway)));
        let beyond = all.filter_map(over).find_map(|(size, colourway, span)| {
            let product = &known.products[&size][&colourway];
            // One more may come of rounding up.
            (product.quantity + product.cut_extra > product.allowed + 1).then_some((size, colourway, span, *product))
        });
        let Some((size, colourway, span, product)) = beyond else { continue };
        let message = say!(
            MESSAGE,
            id,
            cut_extra = product.quantity + product.cut_extra,
            size,
            colourway,
            quantity = product.quantity,
            allowed = product.allowed
        );
        let mut finding = Finding::new(&RULE, message).at(span, LESS);
        if let Some(cut_extra) = &order.cut_extra {
            finding = finding.at(cut_extra.span, CUT_ON_TOP);
        }
        findings.push(finding.help(ALLOW_MORE));
    }
}

/// Where it is written how much may be delivered above the quantity, if every line of a product says so.
fn over(order: &Order, size: &str, colourway: &str) -> Option<Span> {
    let same =
        |written: &Option<crate::source::Spanned<String>>, id: &str| written.as_ref().is_none_or(|one| one.value == id);
    let lines = order.lines.values().filter(|line| same(&line.size, size) && same(&line.colourway, colourway));
    let spans: Option<Vec<Span>> = lines.map(|line| order.over_of(line).map(|over| over.span)).collect();
    spans?.into_iter().next_back()
}

//! Rule: an order line lacks its quantity, size or colourway.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{lines, title};

/// A line that does not say what it orders.
pub const RULE: Rule = Rule {
    code: "order-line-incomplete",
    family: "order",
    severity: Severity::Must,
    summary: "an order line lacks its quantity, size or colourway",
    explanation: "A line is a number of products of one size in one colourway. Without all three it cannot be cut or bought \
                  for. A style with one size or one colourway need not say which.",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[order.spring.line.eu]\nquantity = 400",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[order.spring.line.eu]\nsize = \"S\"\nquantity = 400",
    source: "follows from the terms",
};

words! {
    NO_LINES "order-line-incomplete.no-lines" = "order {id} has no lines";
    ORDERS_NOTHING "order-line-incomplete.orders-nothing" = "orders nothing";
    WRITE "order-line-incomplete.write" = "write [order.{id}.line.ID] with size, colourway and quantity";
    MESSAGE "order-line-incomplete.message" = "{line} does not say what it orders";
    INCOMPLETE "order-line-incomplete.incomplete" = "incomplete";
    ADD "order-line-incomplete.add" = "add {missing}";
}

/// Reports each line once, with everything it lacks; and each order without lines.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for order in model.orders.values().filter(|order| order.lines.is_empty()) {
        let id = &order.entry.id.value;
        if !model.was_refused("order", id, "line") {
            let message = say!(NO_LINES, id);
            let finding = Finding::new(&RULE, message).at(order.entry.span(), ORDERS_NOTHING);
            findings.push(finding.help(say!(WRITE, id)));
        }
    }
    for (order, line) in lines(model) {
        if model.was_refused("order", &order.entry.id.value, "line") {
            continue;
        }
        let lacks = [
            (line.quantity.is_none(), "quantity = 400"),
            (line.size.is_none() && model.sizes.len() > 1, "size = \"..\""),
            (line.colourway.is_none() && model.colourways.len() > 1, "colourway = \"..\""),
        ];
        let missing: Vec<&str> = lacks.iter().filter(|(lacks, _)| *lacks).map(|(_, key)| *key).collect();
        if let [_, ..] = missing.as_slice() {
            let message = say!(MESSAGE, line = title(order, line));
            let finding = Finding::new(&RULE, message).at(line.entry.span(), INCOMPLETE);
            findings.push(finding.help(say!(ADD, missing = missing.join(", "))));
        }
    }
}

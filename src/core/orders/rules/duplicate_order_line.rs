//! Rule: two lines of an order are for the same size, colourway, destination and date.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::OrderLine;
use crate::units::Date;
use crate::words::{say, words};

use super::title;

/// Two lines for one thing.
pub const RULE: Rule = Rule {
    code: "duplicate-order-line",
    family: "order",
    severity: Severity::Should,
    summary: "two lines of an order are for the same size, colourway, destination and date",
    explanation: "A line that was entered twice is made twice. If both are meant, one line with the sum says so; if they \
                  leave apart, their dates differ.",
    failing: "[order.spring.line.a]\nsize = \"S\"\nquantity = 400\n[order.spring.line.b]\nsize = \"S\"\nquantity = 400",
    passing: "[order.spring.line.a]\nsize = \"S\"\nquantity = 800",
    source: "common practice",
};

words! {
    MESSAGE "duplicate-order-line.message" = "{line} orders the same as line {id}";
    SAME "duplicate-order-line.same" = "the same size, colourway, destination and date";
    OTHER "duplicate-order-line.other" = "the other line";
    HELP "duplicate-order-line.help" = "make one line with the sum of both, or give each its own date";
}

type Same<'a> = ([Option<&'a str>; 3], Option<Date>);

fn same(line: &OrderLine) -> Same<'_> {
    let codes = [
        line.size.as_ref().map(|one| one.value.as_str()),
        line.colourway.as_ref().map(|one| one.value.as_str()),
        line.destination.as_ref().map(|one| one.value.code),
    ];
    (codes, line.date.as_ref().and_then(|date| date.known().copied()))
}

/// Reports the second of two such lines.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for order in context.model.orders.values() {
        let mut seen: Vec<&OrderLine> = Vec::new();
        for line in order.lines.values() {
            if let Some(first) = seen.iter().find(|first| same(first) == same(line)) {
                let (earlier, later) =
                    (first.entry.span().min(line.entry.span()), first.entry.span().max(line.entry.span()));
                let message = say!(MESSAGE, line = title(order, line), id = &first.entry.id.value);
                findings.push(Finding::new(&RULE, message).at(later, SAME).at(earlier, OTHER).help(HELP));
            }
            seen.push(line);
        }
    }
}

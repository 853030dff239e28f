//! Rule: an order stands in one file with a part of the specification.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

/// An order in a file of the specification.
pub const RULE: Rule = Rule {
    code: "order-in-style-file",
    family: "files",
    severity: Severity::Must,
    summary: "an order stands in one file with a part of the specification",
    explanation: "A style is sealed once; orders come and go, and name customers and quantities. So a file that holds an \
                  order, or lies in a folder orders, is no part of what the factory of another order gets. What else \
                  stands in it would be missing there.",
    failing: "# style.toml\n[style]\nid = \"HF-118\"\n[order.spring]\nnumber = \"2027-014\"",
    passing: "# orders/spring.toml\n[order.spring]\nnumber = \"2027-014\"",
    source: "common practice",
};

words! {
    MESSAGE "order-in-style-file.message" = "[{table}] is in a file of orders, which is kept apart from the style";
    MISSING_FACTORYS "order-in-style-file.missing-factorys" = "would be missing in the factory's edition";
    ORDER "order-in-style-file.order" = "the order";
    HELP "order-in-style-file.help" = "move the order, or the rest, into a file of its own: orders/spring.toml";
}

/// A table of the specification in a file of orders.
pub fn order_in_style_file(table: &str, place: Span, order: Option<Span>) -> Finding {
    let finding = Finding::new(&RULE, say!(MESSAGE, table)).at(place, MISSING_FACTORYS);
    let finding = order.into_iter().fold(finding, |finding, order| finding.at(order, ORDER));
    finding.help(HELP)
}

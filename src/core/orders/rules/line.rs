//! Lines of orders: all of them, and how a finding names one.

use crate::model::{Model, Order, OrderLine};
use crate::words::{Phrase, say, words};

words! {
    TITLE "order.line.title" = "order {order}, line {line}";
}

/// Every line of every order.
pub fn lines(model: &Model) -> impl Iterator<Item = (&Order, &OrderLine)> {
    model.orders.values().flat_map(|order| order.lines.values().map(move |line| (order, line)))
}

/// `order spring, line eu-s`.
pub fn title(order: &Order, line: &OrderLine) -> Phrase {
    say!(TITLE, order = &order.entry.id.value, line = &line.entry.id.value)
}

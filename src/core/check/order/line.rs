//! Lines of orders: all of them, and how a finding names one.

use crate::model::{Model, Order, OrderLine};

/// Every line of every order.
pub fn lines(model: &Model) -> impl Iterator<Item = (&Order, &OrderLine)> {
    model.orders.values().flat_map(|order| order.lines.values().map(move |line| (order, line)))
}

/// `order spring, line eu-s`.
pub fn title(order: &Order, line: &OrderLine) -> String {
    format!("order {}, line {}", order.entry.id.value, line.entry.id.value)
}

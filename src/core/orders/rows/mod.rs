//! The sheets of an order: cut plan, fabric to order.

pub mod fabric;
pub mod plan;

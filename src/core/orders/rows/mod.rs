//! The sheets of an order: its cut plan, and the fabric to order.

pub mod fabric;
pub mod plan;
mod spreads;
mod status;

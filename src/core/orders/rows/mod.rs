//! The sheets of an order: cut plan, fabric to order, lays, bundles, strikes of dies, record of spreading.

pub mod bundles;
pub mod fabric;
pub mod lays;
mod letters;
pub mod plan;
mod purchases;
pub mod spreading;
mod spreads;
mod status;
pub mod strikes;
mod traced;

pub use traced::traced;

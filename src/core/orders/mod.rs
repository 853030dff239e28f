//! Orders: what is ordered, the cut plan of every fabric, the material to buy.

pub mod figures;
pub mod keys;
pub mod model;
pub mod plan;
mod read;
pub(crate) mod rows;
pub mod rules;

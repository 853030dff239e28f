//! Cutting: how fabric is spread and cut, the lays of one product, dies.

pub mod figures;
pub mod keys;
pub mod model;
mod read;
pub(crate) mod rows;
pub mod rules;

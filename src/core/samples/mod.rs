//! Samples: what was read on them, what was said of them, approvals and concessions.

pub mod figures;
pub mod keys;
pub mod model;
mod read;
pub(crate) mod rows;
pub mod rules;

//! Who has to do with the product: its owner, who makes it, who answers for it where it is sold, who tests it, who works
//! on parts of it. Keys, model, reader, rules and rows of one subject side by side.

pub mod keys;
pub mod model;
mod read;
pub mod rows;
pub mod rules;

pub use model::{Party, PartyRole};

//! The grammar of the specification files: every table and key, as one list; the editor schema and the reference made of it.

pub(crate) mod form;
pub mod keys;
mod near;
pub mod reference;
pub mod schema;

pub use near::nearest;

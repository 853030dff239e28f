//! The grammar of the specification files: every table and key, as one list; the editor schema and the reference made of it.

mod choices;
pub(crate) mod form;
pub mod keys;
pub mod limits;
pub mod reference;
pub mod schema;
mod shapes;
mod shared;

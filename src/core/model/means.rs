//! How a step of the work is done: with what, what to look at, and what to leave.

use crate::source::Spanned;
use crate::units::Quantity;

use super::{Stated, Value};

/// What a seam, a finish or any other step says of how it is done.
#[derive(Debug, Clone, Default)]
pub struct Means {
    /// The machine.
    pub machine: Option<Stated<String>>,
    /// What else is taken.
    pub tool: Option<Stated<String>>,
    /// What to look at before going on.
    pub check: Option<Stated<String>>,
    /// What must not be done.
    pub never: Option<Stated<String>>,
    /// Path of a picture below the root that shows how.
    pub picture: Option<Spanned<String>>,
    /// Thread that no stitch type tells.
    pub threads: Vec<UsedThread>,
}

/// A thread of which a step states the length.
#[derive(Debug, Clone)]
pub struct UsedThread {
    /// Role or article.
    pub thread: Spanned<String>,
    /// Length in one product.
    pub length: Option<Value<Quantity>>,
}

//! How a step of the work is done: with what, what to look at, and what to leave.

use crate::source::Spanned;

use super::Stated;

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
}

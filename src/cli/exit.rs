//! How a command ended.

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// No `must` finding, or no difference.
    Clear,
    /// A `must` finding, or a difference.
    Standing,
}

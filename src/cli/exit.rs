//! How a command ended.

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Nothing stands, or nothing differs.
    Clear,
    /// A `must` finding stands, or something differs.
    Standing,
}

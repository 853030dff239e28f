//! Cloth, colours and other articles.

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[];

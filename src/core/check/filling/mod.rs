//! What goes into filled parts.

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[];

//! What is measured, within what.

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[];

//! What a specification needs before it is sent.

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[];

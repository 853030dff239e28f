//! Parts, pieces, their outlines and cuts.

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[];

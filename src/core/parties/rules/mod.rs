//! What is asked about parties.

mod party_destination_not_listed;
mod party_incomplete;

use crate::check::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &party_incomplete::RULE, run: party_incomplete::check },
    Check { rule: &party_destination_not_listed::RULE, run: party_destination_not_listed::check },
];

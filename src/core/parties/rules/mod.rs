//! What is asked about parties.

mod party_destination_not_listed;
mod party_incomplete;
mod unusable_address;

use crate::check::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &party_incomplete::RULE, run: party_incomplete::check },
    Check { rule: &party_destination_not_listed::RULE, run: party_destination_not_listed::check },
    Check { rule: &unusable_address::RULE, run: unusable_address::check },
];

//! What goes into stuffed parts.

mod filling_unchecked;
mod filling_without_mass;
mod stuffed_part_without_filling;
mod stuffing_in_open_part;
mod stuffing_incomplete;
mod stuffing_never_filled;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &stuffed_part_without_filling::RULE, run: stuffed_part_without_filling::check },
    Check { rule: &stuffing_incomplete::RULE, run: stuffing_incomplete::check },
    Check { rule: &stuffing_in_open_part::RULE, run: stuffing_in_open_part::check },
    Check { rule: &filling_without_mass::RULE, run: filling_without_mass::check },
    Check { rule: &filling_unchecked::RULE, run: filling_unchecked::check },
    Check { rule: &stuffing_never_filled::RULE, run: stuffing_never_filled::check },
];

//! Seams, openings, the sewn surface, and the order they are made in.

mod opening_not_closed;
mod run_used_twice;
mod stitch_missing;
mod text;
mod unknown_stitch_type;
mod uses;

use super::Check;

/// Rules of the family.
pub const CHECKS: &[Check] = &[
    Check { rule: &run_used_twice::RULE, run: run_used_twice::check },
    Check { rule: &opening_not_closed::RULE, run: opening_not_closed::check },
    Check { rule: &unknown_stitch_type::RULE, run: unknown_stitch_type::check },
    Check { rule: &stitch_missing::RULE, run: stitch_missing::check },
];

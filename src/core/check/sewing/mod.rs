//! Seams, openings, the sewn surface, and the order they are made in.

mod cause;
mod chain_not_joined;
mod closed_before_turned;
mod filled_before_turned;
mod inside_out_seam;
mod limits;
mod opening_not_closed;
mod opening_too_small;
mod order_incomplete;
mod pairs;
mod run_unaccounted;
mod run_used_twice;
mod stitch_missing;
mod stretch;
mod surface_not_closed;
mod text;
mod uneven_allowance;
mod uneven_attachment;
mod uneven_layers;
mod unknown_stitch_type;
mod uses;

pub(super) use closed_before_turned::reopens;

use super::Check;

/// Rules of the family.
pub const CHECKS: &[Check] = &[
    Check { rule: &run_unaccounted::RULE, run: run_unaccounted::check },
    Check { rule: &run_used_twice::RULE, run: run_used_twice::check },
    Check { rule: &inside_out_seam::RULE, run: inside_out_seam::check },
    Check { rule: &surface_not_closed::RULE, run: surface_not_closed::check },
    Check { rule: &chain_not_joined::RULE, run: chain_not_joined::check },
    Check { rule: &closed_before_turned::RULE, run: closed_before_turned::check },
    Check { rule: &filled_before_turned::RULE, run: filled_before_turned::check },
    Check { rule: &order_incomplete::RULE, run: order_incomplete::check },
    Check { rule: &uneven_layers::RULE, run: uneven_layers::check },
    Check { rule: &uneven_attachment::RULE, run: uneven_attachment::check },
    Check { rule: &uneven_allowance::RULE, run: uneven_allowance::check },
    Check { rule: &opening_too_small::RULE, run: opening_too_small::check },
    Check { rule: &opening_not_closed::RULE, run: opening_not_closed::check },
    Check { rule: &unknown_stitch_type::RULE, run: unknown_stitch_type::check },
    Check { rule: &stitch_missing::RULE, run: stitch_missing::check },
];

//! What is measured, within what.

mod critical_and_reference;
mod limit_below_zero;
mod limits_cross;
mod mass_below_filling;
mod measurement_without_state;
mod missing_read_to;
mod missing_target;
mod missing_tolerance;
mod one_value_for_all_sizes;
mod readings;
mod tolerance_finer_than_reading;
mod unfit_read_to;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &missing_target::RULE, run: missing_target::check },
    Check { rule: &missing_tolerance::RULE, run: missing_tolerance::check },
    Check { rule: &missing_read_to::RULE, run: missing_read_to::check },
    Check { rule: &unfit_read_to::RULE, run: unfit_read_to::check },
    Check { rule: &one_value_for_all_sizes::RULE, run: one_value_for_all_sizes::check },
    Check { rule: &limit_below_zero::RULE, run: limit_below_zero::check },
    Check { rule: &mass_below_filling::RULE, run: mass_below_filling::check },
    Check { rule: &limits_cross::RULE, run: limits_cross::check },
    Check { rule: &tolerance_finer_than_reading::RULE, run: tolerance_finer_than_reading::check },
    Check { rule: &measurement_without_state::RULE, run: measurement_without_state::check },
    Check { rule: &critical_and_reference::RULE, run: critical_and_reference::check },
];

//! What is measured, within what.

mod critical_and_reference;
mod crossed_limits;
mod measurement_without_state;
mod missing_step;
mod missing_target;
mod missing_tolerance;
mod tolerance_finer_than_step;
mod unfit_step;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &missing_target::RULE, run: missing_target::check },
    Check { rule: &missing_tolerance::RULE, run: missing_tolerance::check },
    Check { rule: &missing_step::RULE, run: missing_step::check },
    Check { rule: &unfit_step::RULE, run: unfit_step::check },
    Check { rule: &crossed_limits::RULE, run: crossed_limits::check },
    Check { rule: &tolerance_finer_than_step::RULE, run: tolerance_finer_than_step::check },
    Check { rule: &measurement_without_state::RULE, run: measurement_without_state::check },
    Check { rule: &critical_and_reference::RULE, run: critical_and_reference::check },
];

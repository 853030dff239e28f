//! Outlines as they are drawn.

mod duplicate_point;
mod edge_too_short;
mod fault;
mod fold_not_straight;
mod grain_missing;
mod kink_at_fold;
mod open_outline;
mod outline_not_drawn;
mod point_off_outline;
mod points_in_circle;
mod self_crossing;
mod too_few_points;

use super::Check;
pub use fault::{faults, helped};

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &outline_not_drawn::RULE, run: outline_not_drawn::check },
    Check { rule: &open_outline::RULE, run: open_outline::check },
    Check { rule: &self_crossing::RULE, run: self_crossing::check },
    Check { rule: &too_few_points::RULE, run: too_few_points::check },
    Check { rule: &point_off_outline::RULE, run: point_off_outline::check },
    Check { rule: &points_in_circle::RULE, run: points_in_circle::check },
    Check { rule: &edge_too_short::RULE, run: edge_too_short::check },
    Check { rule: &duplicate_point::RULE, run: duplicate_point::check },
    Check { rule: &fold_not_straight::RULE, run: fold_not_straight::check },
    Check { rule: &kink_at_fold::RULE, run: kink_at_fold::check },
    Check { rule: &grain_missing::RULE, run: grain_missing::check },
];

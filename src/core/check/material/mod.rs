//! Cloth, colours and other articles.

mod cloth_without_colour;
mod composition_not_whole;
mod implausible_value;
mod missing_mass;
mod missing_width;
mod role_without_cloth;
mod usable_over_full;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &role_without_cloth::RULE, run: role_without_cloth::check },
    Check { rule: &cloth_without_colour::RULE, run: cloth_without_colour::check },
    Check { rule: &composition_not_whole::RULE, run: composition_not_whole::check },
    Check { rule: &missing_mass::RULE, run: missing_mass::check },
    Check { rule: &missing_width::RULE, run: missing_width::check },
    Check { rule: &usable_over_full::RULE, run: usable_over_full::check },
    Check { rule: &implausible_value::RULE, run: implausible_value::check },
];

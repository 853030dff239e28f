//! Fabric, colours and other articles.

mod composition_not_whole;
mod cuttable_width_over_full_width;
mod fabric_without_colour;
mod fibre_misspelt;
mod fitted_without_use;
mod implausible_value;
mod missing_mass;
mod missing_width;
mod pile_cut_both_ways;
mod pile_on_equal_faces;
mod role_without_fabric;
mod unreadable_price;
mod use_in_other_unit;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &role_without_fabric::RULE, run: role_without_fabric::check },
    Check { rule: &fabric_without_colour::RULE, run: fabric_without_colour::check },
    Check { rule: &composition_not_whole::RULE, run: composition_not_whole::check },
    Check { rule: &missing_mass::RULE, run: missing_mass::check },
    Check { rule: &missing_width::RULE, run: missing_width::check },
    Check { rule: &cuttable_width_over_full_width::RULE, run: cuttable_width_over_full_width::check },
    Check { rule: &implausible_value::RULE, run: implausible_value::check },
    Check { rule: &fibre_misspelt::RULE, run: fibre_misspelt::check },
    Check { rule: &pile_cut_both_ways::RULE, run: pile_cut_both_ways::check },
    Check { rule: &pile_on_equal_faces::RULE, run: pile_on_equal_faces::check },
    Check { rule: &unreadable_price::RULE, run: unreadable_price::check },
    Check { rule: &use_in_other_unit::RULE, run: use_in_other_unit::check },
    Check { rule: &fitted_without_use::RULE, run: fitted_without_use::check },
];

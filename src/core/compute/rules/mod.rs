//! Rules whose evidence is a computed line or number. One file per rule, file name = code.

mod dart_too_deep;
mod dart_too_narrow;
mod eye_too_large;
mod filling_density;
mod implausible_allowance;
mod impossible_cut_line;
mod mass_not_the_sum;
mod notch_distances_differ;
mod notch_off_edge;
mod notch_on_corner;
mod notch_too_deep;
mod notch_without_partner;
mod opening_on_corner;
mod opening_under_trim;
mod pile_across_grain;
mod size_scaled_too_far;
mod sizes_drawn_alike;
mod target_far_from_outline;
pub(crate) mod telling;
mod thin_limb;
mod tight_curve;
mod vanished_edge;

use crate::diag::{Findings, Rule};

use super::Figures;
use super::input::Ground;
use telling::{drawn_notch, in_size, mm, notch_place, of_size, refused, sewn, sizes, with_element};

/// Every rule here.
pub const RULES: &[&Rule] = &[
    &impossible_cut_line::RULE,
    &vanished_edge::RULE,
    &implausible_allowance::RULE,
    &pile_across_grain::RULE,
    &tight_curve::RULE,
    &dart_too_deep::RULE,
    &dart_too_narrow::RULE,
    &notch_off_edge::RULE,
    &notch_on_corner::RULE,
    &notch_too_deep::RULE,
    &size_scaled_too_far::RULE,
    &sizes_drawn_alike::RULE,
    &thin_limb::RULE,
    &opening_on_corner::RULE,
    &opening_under_trim::RULE,
    &notch_distances_differ::RULE,
    &notch_without_partner::RULE,
    &target_far_from_outline::RULE,
    &eye_too_large::RULE,
    &filling_density::RULE,
    &mass_not_the_sum::RULE,
];

/// Runs every rule.
pub(super) fn run(ground: &Ground<'_>, figures: &Figures, findings: &mut Findings) {
    mass_not_the_sum::check(ground.model, figures, findings);
    impossible_cut_line::check(ground, findings);
    vanished_edge::check(ground, findings);
    implausible_allowance::check(ground, findings);
    pile_across_grain::check(ground, findings);
    tight_curve::check(ground, findings);
    dart_too_deep::check(ground, findings);
    dart_too_narrow::check(ground, findings);
    notch_off_edge::check(ground, findings);
    notch_on_corner::check(ground, findings);
    notch_too_deep::check(ground, findings);
    size_scaled_too_far::check(ground, findings);
    sizes_drawn_alike::check(ground, findings);
    thin_limb::check(ground, findings);
    opening_on_corner::check(ground, findings);
    opening_under_trim::check(ground, findings);
    notch_distances_differ::check(ground, findings);
    notch_without_partner::check(ground, findings);
    target_far_from_outline::check(ground, findings);
    eye_too_large::check(ground, findings);
    filling_density::check(ground, findings);
}

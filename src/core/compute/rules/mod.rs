//! Rules whose evidence is a computed line or number. One file per rule, file name = code.
mod dart_too_deep;
mod dart_too_narrow;
mod impossible_cut_line;
mod notch_distances_differ;
mod notch_off_edge;
mod notch_on_corner;
mod notch_too_deep;
mod opening_on_corner;
mod opening_under_trim;
mod size_scaled_too_far;
mod telling;
mod thin_limb;
mod tight_curve;
mod vanished_edge;

pub use crate::samples::rules::concession_lifts_nothing::lift;

use crate::diag::{Findings, Rule};
use crate::model::Model;

use super::Figures;
use super::counts::CutCount;
use super::input::Ground;
use crate::cutting::figures::Lays;
use crate::samples::figures::SampleFigures;
use telling::{
    drawn_notch, in_size, mm, must_at_bulk, notch_place, of_size, refused, row, sewn, sizes, with_element, with_target,
};

/// Every rule here.
pub const RULES: &[&Rule] = &[
    &impossible_cut_line::RULE,
    &vanished_edge::RULE,
    &tight_curve::RULE,
    &dart_too_deep::RULE,
    &dart_too_narrow::RULE,
    &notch_off_edge::RULE,
    &notch_on_corner::RULE,
    &notch_too_deep::RULE,
    &crate::cutting::rules::piece_too_wide::RULE,
    &size_scaled_too_far::RULE,
    &thin_limb::RULE,
    &opening_on_corner::RULE,
    &opening_under_trim::RULE,
    &notch_distances_differ::RULE,
    &crate::cutting::rules::fold_with_die::RULE,
    &crate::cutting::rules::lay_longer_than_table::RULE,
    &crate::cutting::rules::kept_lay_no_longer_fits::RULE,
    &crate::cutting::rules::low_efficiency::RULE,
    &crate::cutting::rules::pile_face_to_face::RULE,
    &crate::orders::rules::quantity_outside_tolerance::RULE,
    &crate::orders::rules::minimum_order_far_above_need::RULE,
    &crate::orders::rules::plies_do_not_divide::RULE,
    &crate::samples::rules::critical_point_out_of_tolerance::RULE,
    &crate::samples::rules::critical_point_unmeasured::RULE,
    &crate::samples::rules::reading_slip::RULE,
    &crate::samples::rules::readings_all_on_one_side::RULE,
    &crate::samples::rules::colour_beyond_limit::RULE,
    &crate::samples::rules::concession_lifts_nothing::RULE,
];

/// Runs every rule.
pub(super) fn run(ground: &Ground<'_>, findings: &mut Findings) {
    impossible_cut_line::check(ground, findings);
    vanished_edge::check(ground, findings);
    tight_curve::check(ground, findings);
    dart_too_deep::check(ground, findings);
    dart_too_narrow::check(ground, findings);
    notch_off_edge::check(ground, findings);
    notch_on_corner::check(ground, findings);
    notch_too_deep::check(ground, findings);
    size_scaled_too_far::check(ground, findings);
    thin_limb::check(ground, findings);
    opening_on_corner::check(ground, findings);
    opening_under_trim::check(ground, findings);
    notch_distances_differ::check(ground, findings);
}

/// Runs every rule about lays.
pub(super) fn laid(ground: &Ground<'_>, cuts: &[CutCount], lays: &Lays, findings: &mut Findings) {
    crate::cutting::rules::piece_too_wide::check(ground, cuts, findings);
    crate::cutting::rules::fold_with_die::check(ground, lays, findings);
    crate::cutting::rules::lay_longer_than_table::check(ground, lays, findings);
    crate::cutting::rules::kept_lay_no_longer_fits::check(ground, lays, findings);
    crate::cutting::rules::low_efficiency::check(ground, lays, findings);
    crate::cutting::rules::pile_face_to_face::check(ground, lays, findings);
}

/// Runs the rules about orders that need no plan.
pub(super) fn ordered(model: &Model, figures: &Figures, findings: &mut Findings) {
    crate::orders::rules::quantity_outside_tolerance::check(model, figures, findings);
    crate::orders::rules::minimum_order_far_above_need::check(model, figures, findings);
}

/// Runs the rules about a planned order.
pub(super) fn planned(model: &Model, figures: &Figures, order: &str, findings: &mut Findings) {
    crate::orders::rules::plies_do_not_divide::check(model, figures, order, findings);
}

/// Runs the rules about samples.
pub(super) fn sampled(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    crate::samples::rules::critical_point_out_of_tolerance::check(model, samples, findings);
    crate::samples::rules::critical_point_unmeasured::check(model, samples, findings);
    crate::samples::rules::reading_slip::check(model, samples, findings);
    crate::samples::rules::readings_all_on_one_side::check(model, samples, findings);
    crate::samples::rules::colour_beyond_limit::check(model, samples, findings);
}

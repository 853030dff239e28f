//! Cutting: rules about lays. One file per rule, file name = code.

mod fold_with_die;
mod kept_lay_no_longer_fits;
mod lay_longer_than_table;
mod low_efficiency;
mod piece_too_wide;
mod pile_face_to_face;

use crate::compute::CutCount;
use crate::compute::input::Ground;
use crate::cutting::figures::LayTasks;
use crate::diag::{Findings, Rule};

/// Rules whose evidence is a lay.
pub const RULES: &[&Rule] = &[
    &piece_too_wide::RULE,
    &fold_with_die::RULE,
    &lay_longer_than_table::RULE,
    &kept_lay_no_longer_fits::RULE,
    &low_efficiency::RULE,
    &pile_face_to_face::RULE,
];

/// Runs them.
pub(crate) fn laid(ground: &Ground<'_>, cuts: &[CutCount], lays: &LayTasks, findings: &mut Findings) {
    piece_too_wide::check(ground, cuts, findings);
    fold_with_die::check(ground, lays, findings);
    lay_longer_than_table::check(ground, lays, findings);
    kept_lay_no_longer_fits::check(ground, lays, findings);
    low_efficiency::check(ground, lays, findings);
    pile_face_to_face::check(ground, lays, findings);
}

//! Parts, pieces, their outlines and cuts.

mod allowance_missing;
mod cut_without_material;
mod direction_without_pile;
mod drawn_size_scaled;
mod mark_not_named;
mod mark_outside_piece;
mod never_mirrored;
mod outline_by_factory;
mod outline_defect;
mod outline_missing;
mod part_never_used;
mod piece_without_part;
mod pile_without_direction;

use super::Check;
pub(super) use outline_by_factory::is_by_factory;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &part_never_used::RULE, run: part_never_used::check },
    Check { rule: &piece_without_part::RULE, run: piece_without_part::check },
    Check { rule: &outline_missing::RULE, run: outline_missing::check },
    Check { rule: &outline_by_factory::RULE, run: outline_by_factory::check },
    Check { rule: &outline_defect::RULE, run: outline_defect::check },
    Check { rule: &never_mirrored::RULE, run: never_mirrored::check },
    Check { rule: &cut_without_material::RULE, run: cut_without_material::check },
    Check { rule: &allowance_missing::RULE, run: allowance_missing::check },
    Check { rule: &pile_without_direction::RULE, run: pile_without_direction::check },
    Check { rule: &direction_without_pile::RULE, run: direction_without_pile::check },
    Check { rule: &drawn_size_scaled::RULE, run: drawn_size_scaled::check },
    Check { rule: &mark_not_named::RULE, run: mark_not_named::check },
    Check { rule: &mark_outside_piece::RULE, run: mark_outside_piece::check },
];

//! Seams, openings, the sewn surface, and the order they are made in.

mod allowances_differ;
mod attachment_lengths_differ;
mod caught_before_sewn;
mod caught_off_side;
mod caught_over_each_other;
mod caught_without_notch;
mod cause;
mod closed;
mod closed_before_turned;
mod edge_not_sewn;
mod edge_sewn_twice;
mod edges_not_joined;
mod eye_fitted_too_late;
mod filled_before_turned;
mod hand_closing_without_stitch;
mod hole_in_shell;
mod inside_out_seam;
mod limb_twisted_at_root;
mod limits;
mod on_without_between;
mod opening_not_closed;
mod opening_too_small;
mod order_of_work_incomplete;
mod pairs;
mod part_never_turned;
mod raw_edge_sewn;
mod seam_lengths_differ;
mod sewn_without_allowance;
mod sound;
mod step_misspelt;
mod stitch_missing;
mod stretch;
mod text;
mod turned_before_sewn;
mod unknown_stitch_type;
mod uses;

pub(super) use closed::reopens;
pub(super) use step_misspelt::does;
pub(super) use text::moved_behind;

use super::Check;

/// Rules of the family.
pub const CHECKS: &[Check] = &[
    Check { rule: &edge_not_sewn::RULE, run: edge_not_sewn::check },
    Check { rule: &edge_sewn_twice::RULE, run: edge_sewn_twice::check },
    Check { rule: &on_without_between::RULE, run: on_without_between::check },
    Check { rule: &caught_off_side::RULE, run: caught_off_side::check },
    Check { rule: &caught_over_each_other::RULE, run: caught_over_each_other::check },
    Check { rule: &inside_out_seam::RULE, run: inside_out_seam::check },
    Check { rule: &limb_twisted_at_root::RULE, run: limb_twisted_at_root::check },
    Check { rule: &hole_in_shell::RULE, run: hole_in_shell::check },
    Check { rule: &edges_not_joined::RULE, run: edges_not_joined::check },
    Check { rule: &closed_before_turned::RULE, run: closed_before_turned::check },
    Check { rule: &filled_before_turned::RULE, run: filled_before_turned::check },
    Check { rule: &turned_before_sewn::RULE, run: turned_before_sewn::check },
    Check { rule: &eye_fitted_too_late::RULE, run: eye_fitted_too_late::check },
    Check { rule: &part_never_turned::RULE, run: part_never_turned::check },
    Check { rule: &caught_before_sewn::RULE, run: caught_before_sewn::check },
    Check { rule: &step_misspelt::RULE, run: step_misspelt::check },
    Check { rule: &order_of_work_incomplete::RULE, run: order_of_work_incomplete::check },
    Check { rule: &seam_lengths_differ::RULE, run: seam_lengths_differ::check },
    Check { rule: &attachment_lengths_differ::RULE, run: attachment_lengths_differ::check },
    Check { rule: &allowances_differ::RULE, run: allowances_differ::check },
    Check { rule: &raw_edge_sewn::RULE, run: raw_edge_sewn::check },
    Check { rule: &sewn_without_allowance::RULE, run: sewn_without_allowance::check },
    Check { rule: &caught_without_notch::RULE, run: caught_without_notch::check },
    Check { rule: &opening_too_small::RULE, run: opening_too_small::check },
    Check { rule: &opening_not_closed::RULE, run: opening_not_closed::check },
    Check { rule: &hand_closing_without_stitch::RULE, run: hand_closing_without_stitch::check },
    Check { rule: &unknown_stitch_type::RULE, run: unknown_stitch_type::check },
    Check { rule: &stitch_missing::RULE, run: stitch_missing::check },
];

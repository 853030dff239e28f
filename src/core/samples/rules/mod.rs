//! Samples: samples, comments, approvals, concessions.

mod answered_without_revision;
mod approval_expired;
mod bulk;
mod colour_beyond_limit;
mod concession_incomplete;
mod concession_lifts_nothing;
mod critical_point_out_of_tolerance;
mod critical_point_unmeasured;
mod date_far_from_others;
mod dates_run_back;
mod dropped_without_reason;
mod missing_approval;
mod open_comment;
mod reading_slip;
mod readings_all_on_one_side;
mod readings_do_not_match_pieces;
mod rejected_approval;
mod unknown_revision;
mod unknown_sample_item;

use crate::check::Check;
use crate::diag::{Findings, Rule};
use crate::model::Model;
use crate::samples::figures::SampleFigures;
pub(crate) use bulk::must_at_bulk;
pub use concession_lifts_nothing::lift;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &unknown_sample_item::RULE, run: unknown_sample_item::check },
    Check { rule: &unknown_revision::RULE, run: unknown_revision::check },
    Check { rule: &dates_run_back::RULE, run: dates_run_back::check },
    Check { rule: &date_far_from_others::RULE, run: date_far_from_others::check },
    Check { rule: &readings_do_not_match_pieces::RULE, run: readings_do_not_match_pieces::check },
    Check { rule: &open_comment::RULE, run: open_comment::check },
    Check { rule: &dropped_without_reason::RULE, run: dropped_without_reason::check },
    Check { rule: &answered_without_revision::RULE, run: answered_without_revision::check },
    Check { rule: &missing_approval::RULE, run: missing_approval::check },
    Check { rule: &rejected_approval::RULE, run: rejected_approval::check },
    Check { rule: &approval_expired::RULE, run: approval_expired::check },
    Check { rule: &concession_incomplete::RULE, run: concession_incomplete::check },
];

/// Rules whose evidence is a figure of samples.
pub const RULES: &[&Rule] = &[
    &critical_point_out_of_tolerance::RULE,
    &critical_point_unmeasured::RULE,
    &reading_slip::RULE,
    &readings_all_on_one_side::RULE,
    &colour_beyond_limit::RULE,
    &concession_lifts_nothing::RULE,
];

/// Runs them, but the last: what concessions lift is known once everything was found.
pub(crate) fn sampled(model: &Model, samples: &SampleFigures, findings: &mut Findings) {
    critical_point_out_of_tolerance::check(model, samples, findings);
    critical_point_unmeasured::check(model, samples, findings);
    reading_slip::check(model, samples, findings);
    readings_all_on_one_side::check(model, samples, findings);
    colour_beyond_limit::check(model, samples, findings);
}

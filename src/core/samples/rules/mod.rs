//! Samples: samples, comments, approvals, concessions.

mod answered_without_revision;
mod approval_expired;
mod bulk;
mod concession_incomplete;
mod dropped_without_reason;
mod missing_approval;
mod open_comment;
mod readings_do_not_match_pieces;
mod rejected_approval;
mod unknown_sample_item;

use crate::check::Check;
pub(crate) use bulk::must_at_bulk;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &unknown_sample_item::RULE, run: unknown_sample_item::check },
    Check { rule: &readings_do_not_match_pieces::RULE, run: readings_do_not_match_pieces::check },
    Check { rule: &open_comment::RULE, run: open_comment::check },
    Check { rule: &dropped_without_reason::RULE, run: dropped_without_reason::check },
    Check { rule: &answered_without_revision::RULE, run: answered_without_revision::check },
    Check { rule: &missing_approval::RULE, run: missing_approval::check },
    Check { rule: &rejected_approval::RULE, run: rejected_approval::check },
    Check { rule: &approval_expired::RULE, run: approval_expired::check },
    Check { rule: &concession_incomplete::RULE, run: concession_incomplete::check },
];

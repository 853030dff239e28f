//! Samples: samples, comments, approvals, concessions.

mod answered_without_revision;
mod approval_expired;
mod concession_incomplete;
mod dropped_without_reason;
mod missing_approval;
mod open_comment;
mod readings_do_not_match_pieces;
mod rejected_approval;
mod unknown_sample_item;

use super::mention::entries;
use super::{Check, Context, Stage};
use crate::diag::Finding;
use crate::model::Model;

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

/// The finding as a `must` at bulk, with the place that says so.
fn must_at_bulk(context: &Context<'_>, finding: Finding) -> Finding {
    if Stage::of(context.model) == Stage::Bulk { finding.pressing(Stage::place(context.model)) } else { finding }
}

/// Everything that a comment can be about and an approval of, as `table.id`; a former id counts.
fn items(model: &Model) -> Vec<(&'static str, &str)> {
    let samples = &model.samples;
    let mut all: Vec<(&'static str, &str)> = Vec::new();
    let taken = samples.samples.values().map(|one| ("sample", &one.entry));
    let approvals = samples.approvals.values().map(|one| ("approval", &one.entry));
    for (table, entry) in entries(model).into_iter().chain(taken).chain(approvals) {
        all.push((table, &entry.id.value));
        all.extend(entry.was.as_ref().map(|was| (table, was.value.as_str())));
    }
    all
}

//! What must be settled before bulk.

use crate::check::{Context, Stage};
use crate::diag::Finding;

/// The finding as a `must` at bulk, with the place that says so.
pub fn must_at_bulk(context: &Context<'_>, finding: Finding) -> Finding {
    if Stage::of(context.model) == Stage::Bulk { finding.pressing(Stage::place(context.model)) } else { finding }
}

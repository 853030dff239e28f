//! Ids: what is named must be declared, and what is declared must be used.

mod needless_mirror;
mod old_id_still_used;
mod unclear_edge;
mod unknown_id;
mod unknown_rule;
mod unused_item;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &unknown_id::RULE, run: unknown_id::check },
    Check { rule: &unclear_edge::RULE, run: unclear_edge::check },
    Check { rule: &needless_mirror::RULE, run: needless_mirror::check },
    Check { rule: &old_id_still_used::RULE, run: old_id_still_used::check },
    Check { rule: &unused_item::RULE, run: unused_item::check },
    Check { rule: &unknown_rule::RULE, run: unknown_rule::check },
];

//! Orders: what is ordered, of what, for where.

mod cut_extra_missing;
mod destination_not_listed;
mod duplicate_order_line;
mod line;
mod order_line_incomplete;
mod order_of_other_style;
mod unknown_order_item;

use crate::check::Check;
pub(crate) use line::{lines, title};

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &order_of_other_style::RULE, run: order_of_other_style::check },
    Check { rule: &unknown_order_item::RULE, run: unknown_order_item::check },
    Check { rule: &order_line_incomplete::RULE, run: order_line_incomplete::check },
    Check { rule: &duplicate_order_line::RULE, run: duplicate_order_line::check },
    Check { rule: &destination_not_listed::RULE, run: destination_not_listed::check },
    Check { rule: &cut_extra_missing::RULE, run: cut_extra_missing::check },
];

//! Orders: what is ordered, of what, for where.

mod cut_extra_missing;
mod destination_not_listed;
mod duplicate_order_line;
mod line;
mod minimum_order_far_above_need;
mod order_line_incomplete;
mod order_of_other_style;
mod plies_do_not_divide;
mod ply_too_long;
mod quantity_outside_tolerance;
mod unknown_order_item;

use crate::check::Check;
use crate::compute::Figures;
use crate::diag::{Findings, Rule};
use crate::model::Model;
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

/// Rules whose evidence is a number of an order.
pub const RULES: &[&Rule] = &[
    &quantity_outside_tolerance::RULE,
    &minimum_order_far_above_need::RULE,
    &plies_do_not_divide::RULE,
    &ply_too_long::RULE,
];

/// Runs those that need no plan.
pub(crate) fn ordered(model: &Model, figures: &Figures, findings: &mut Findings) {
    quantity_outside_tolerance::check(model, figures, findings);
    minimum_order_far_above_need::check(model, figures, findings);
}

/// Takes out what was found of an order by an estimate, where its plan knows better.
pub(crate) fn replaced(model: &Model, figures: &Figures, order: &str, findings: &mut Findings) {
    let chains = figures.orders.get(order).map_or(&[][..], |one| one.material.as_slice());
    if !chains.is_empty() && chains.iter().all(|chain| chain.steps.known().is_some()) {
        findings.retain(|finding| !minimum_order_far_above_need::is_estimate_of(model, order, finding));
    }
}

/// Runs those about a planned order.
pub(crate) fn planned(model: &Model, figures: &Figures, order: &str, findings: &mut Findings) {
    plies_do_not_divide::check(model, figures, order, findings);
    minimum_order_far_above_need::planned(model, figures, order, findings);
    ply_too_long::check(model, figures, order, findings);
}

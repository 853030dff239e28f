//! Plans orders: the cut plan and the material to buy go into the figures.

use crate::compute::record::Figures;
use crate::model::Model;

use super::laid::LayLengths;
use super::{chain, fabric};

/// Plans one order, as [`plan()`] does all.
pub fn plan_one(model: &Model, figures: &mut Figures, order: &str, lays: &mut dyn LayLengths) {
    let Some(mut planned) = figures.orders.remove(order) else { return };
    (planned.fabrics, planned.missing) = fabric::plans(model, figures, &planned, lays);
    planned.material = chain::chains(model, &planned);
    planned.cost = chain::cost(&planned.material);
    planned.missing.extend(chain::unpriced(model, &planned));
    figures.orders.insert(order.to_string(), planned);
}

/// Plans every order and puts the cut plan and the material to buy into the figures.
pub fn plan(model: &Model, figures: &mut Figures, lays: &mut dyn LayLengths) {
    let ids: Vec<String> = figures.orders.keys().cloned().collect();
    for id in ids {
        plan_one(model, figures, &id, lays);
    }
}

//! Orders in numbers: what is wanted, the cut plan of every fabric, and the material to buy.
//!
//! [`wanted()`] follows from the order alone. [`plan()`] needs the lengths of lays, which it asks of [`LayLengths`], so that it can
//! be made of an estimate, of lays kept from before, or of lays made on the spot.

mod chain;
mod cutting;
mod estimate;
mod fabric;
mod laid;
mod lays;
mod minimum;
mod planner;
mod record;
mod wanted;

pub use chain::needed;
pub use estimate::Estimate;
pub(crate) use estimate::PLIES;
pub use laid::{Laid, LayLengths, ROUNDS, Spreading};
pub use lays::{OrderLays, of_order, order_lays, plan_order};
pub(crate) use minimum::{minimum, roll};
pub use planner::{plan, plan_one};
pub use record::{
    Bundle, Chain, Colour, Cost, FabricPlan, FromRoll, LayColour, LayGroup, LayLine, LayPart, OrderFigures,
    OrderProducts, OrderedLine, Planned, PlyTerm, Price, Remnant, Steps, Totals, Undivided, Unfit,
};
pub use wanted::wanted;

use crate::compute::Figures;
use crate::diag::Findings;
use crate::model::Model;

/// What the plan of one order brings up.
pub fn findings(model: &Model, figures: &Figures, order: &str) -> Findings {
    let mut findings = Findings::default();
    crate::orders::rules::planned(model, figures, order, &mut findings);
    findings
}

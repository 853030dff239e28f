//! Orders in numbers: what is wanted, the cut plan of every fabric, and the material to buy.
//!
//! [`wanted()`] follows from the order alone. [`plan()`] needs the lengths of lays, which it asks of [`Lays`], so that it can
//! be made of an estimate, of lays kept from before, or of lays made on the spot.

mod chain;
mod cutting;
mod estimate;
mod fabric;
mod wanted;

pub use chain::{Chain, PlyTerm, Price, Steps, needed};
pub use cutting::{Bundle, FromRoll, LayColour, LayLine};
pub use estimate::Estimate;
pub(in crate::compute) use estimate::PLIES;
pub use fabric::{Colour, FabricPlan, Planned, Totals, Undivided};
pub use wanted::wanted;

use std::collections::BTreeSet;

use serde::Serialize;

use super::plan::{Length, Mix};
use super::{ByVariant, Drawn, Figures};
use crate::diag::Findings;
use crate::model::{Assembly, Model};

/// One order in numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct OrderFigures {
    /// Its number.
    pub number: Option<String>,
    /// The customer's purchase order.
    pub po: Option<String>,
    /// When it was placed.
    pub date: Option<String>,
    /// The sealed revision it cites.
    pub revision: Option<String>,
    /// Products cut against loss, percent of the quantity; absent where it is not stated, and none is cut.
    pub cut_extra: Option<f64>,
    /// Whose the fabric is that is left over.
    pub surplus: Option<String>,
    /// Its lines.
    pub lines: Vec<OrderedLine>,
    /// Products by size and colourway.
    pub products: ByVariant<OrderProducts>,
    /// Products ordered.
    pub total: u64,
    /// The cut plan, fabric by fabric; empty until it is planned.
    pub fabrics: Vec<FabricPlan>,
    /// Fabric to buy by article and colour; empty until it is planned.
    pub material: Vec<Chain>,
    /// Why something that is cut stands in no plan.
    pub missing: BTreeSet<String>,
}

/// One line of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct OrderedLine {
    /// Its id.
    pub line: String,
    /// Size.
    pub size: Option<String>,
    /// Colourway.
    pub colourway: Option<String>,
    /// Where it goes.
    pub destination: Option<String>,
    /// When it leaves the factory.
    pub date: Option<String>,
    /// Products ordered.
    pub quantity: Option<u64>,
    /// Most that may be delivered.
    pub most: Option<u64>,
    /// Least that may be delivered.
    pub least: Option<u64>,
    /// Products on top for samples.
    pub samples: u64,
    /// Products on top that tests use up.
    pub tests: u64,
}

/// Products of one size in one colourway.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct OrderProducts {
    /// Ordered.
    pub quantity: u64,
    /// Most that may be delivered.
    pub allowed: u64,
    /// Cut on top against loss.
    pub cut_extra: u64,
    /// On top for samples.
    pub samples: u64,
    /// On top for tests.
    pub tests: u64,
    /// To cut: ceil(quantity × (1 + cut extra)) + samples + tests.
    pub cut: u64,
    /// Most to cut: what may be delivered with the cut extra on top, samples and tests.
    pub most: u64,
}

/// Pieces that are laid together: everything cut from one fabric in one colour, for some products.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laid<'a> {
    /// The fabric.
    pub article: &'a str,
    /// What the pieces call it.
    pub materials: &'a BTreeSet<String>,
    /// A colourway in which they are cut together; all such colourways have the same pieces.
    pub colourway: &'a str,
    /// Size ids, in the order of the mix.
    pub sizes: &'a [String],
}

/// How a fabric is spread and cut. Lengths in whole µm.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spreading {
    /// Most plies in one lay.
    pub plies: u32,
    /// Plies come in groups of this many: 2 face to face.
    pub step: u32,
    /// Products of one size in one group come in multiples of this.
    pub multiple: u32,
    /// Most products in one lay.
    pub sets: u32,
    /// Lost at the two ends of each ply together.
    pub ends: i64,
    /// Longest ply, ends included.
    pub table: Option<i64>,
    /// What a splice loses, where splices are allowed.
    pub splice: Option<i64>,
    /// What was taken for want of a statement.
    pub assumed: BTreeSet<String>,
}

/// Where lays come from.
pub trait Lays {
    /// How a fabric is spread and cut.
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading;
    /// What is known of the length of a lay, without its ends; `Err` with the reason where nothing is, as where an outline
    /// is the factory's to make.
    ///
    /// # Errors
    /// Why no length is known.
    fn length(&mut self, of: &Laid<'_>, mix: &Mix) -> Result<Length, String>;
    /// Lays a mix that is not laid yet: its length in µm; `None` where it cannot be laid.
    fn lay(&mut self, of: &Laid<'_>, mix: &Mix) -> Option<i64>;
    /// Whether lengths are an estimate, and no lay.
    fn is_estimate(&self) -> bool;
    /// Rounds of planning and laying, for one fabric.
    fn rounds(&self) -> usize {
        ROUNDS
    }
}

/// Rounds of planning and laying, for one fabric.
pub const ROUNDS: usize = 12;

/// What the plans bring up: to be added to the findings once every order is planned.
pub fn findings(model: &Model, figures: &Figures) -> Findings {
    let mut findings = Findings::default();
    super::rules::planned(model, figures, &mut findings);
    findings
}

/// Plans one order, as [`plan()`] does all.
pub fn plan_one(model: &Model, figures: &mut Figures, order: &str, lays: &mut dyn Lays) {
    let Some(mut planned) = figures.orders.remove(order) else { return };
    (planned.fabrics, planned.missing) = fabric::plans(model, figures, &planned, lays);
    planned.material = chain::chains(model, &planned);
    planned.missing.extend(chain::unpriced(model, &planned));
    figures.orders.insert(order.to_string(), planned);
}

/// Plans every order and puts the cut plan and the material to buy into the figures.
pub fn plan(model: &Model, figures: &mut Figures, lays: &mut dyn Lays) {
    let ids: Vec<String> = figures.orders.keys().cloned().collect();
    for id in ids {
        plan_one(model, figures, &id, lays);
    }
}

/// Plans every order from the lays that are kept for it, or by an estimate where none are.
pub fn plan_kept(model: &Model, assembly: &Assembly, drawn: &Drawn, figures: &mut Figures) {
    super::lays::plan_orders((model, assembly, drawn), figures);
}

//! Orders in numbers, as `figures.json` has them.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::compute::input::{Bought, ByVariant};
use crate::compute::{Figure, Number};
use crate::orders::plan;
use crate::units::{Date, Rational};
use crate::words::{Phrase, english};

/// One order in numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct OrderFigures {
    /// Its number.
    pub number: Option<String>,
    /// The customer's purchase order.
    pub po: Option<String>,
    /// When it was placed.
    pub date: Option<Date>,
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
    /// What the fabric costs, by currency; empty where no price is shown.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cost: Vec<Cost>,
    /// Why something that is cut stands in no plan.
    #[serde(serialize_with = "english")]
    pub missing: BTreeSet<Phrase>,
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
    /// Where it goes: a code of ISO 3166-1, or `EU`.
    pub destination: Option<String>,
    /// When it leaves the factory.
    pub date: Option<Date>,
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

/// The cut plan of one fabric: everything that is cut from it together.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FabricPlan {
    /// The fabric.
    pub article: String,
    /// What the pieces call it.
    pub materials: BTreeSet<String>,
    /// Its colours with what is wanted of each.
    pub colours: Vec<Colour>,
    /// Pieces of one product cut from it.
    pub pieces: Figure<u64>,
    /// Most plies in one lay.
    pub plies: u32,
    /// Plies that are spread as one group: 2 face to face.
    pub step: u32,
    /// Lost at the two ends of each ply together, mm.
    pub ends: Number,
    /// Longest ply the table holds, mm.
    pub table: Option<Number>,
    /// Most products on one ply, or on one group of plies, where the cutting room wishes so.
    pub products: Option<u32>,
    /// Shortest ply that is spread where that buys no more, mm.
    pub shortest_ply: Number,
    /// Kept back of every roll, mm.
    pub reserve: Number,
    /// Whether a ply may be joined of two rolls.
    pub splice: bool,
    /// Lost at each such splice, mm.
    pub overlap: Number,
    /// Relaxation shrinkage along, as a fraction.
    #[serde(skip)]
    pub shrinkage: Rational,
    /// Share lost to faults, as a fraction.
    #[serde(skip)]
    pub faults: Rational,
    /// Length of one roll, µm; none where it is not known.
    #[serde(skip)]
    pub roll: Option<i64>,
    /// The size of which not even one product can be spread.
    #[serde(skip)]
    pub unfit: Option<Unfit>,
    /// What was taken for want of a statement.
    #[serde(serialize_with = "english")]
    pub assumed: BTreeSet<Phrase>,
    /// The plan.
    pub plan: Figure<Planned>,
}

/// A size of which not even one product can be spread.
#[derive(Debug, Clone, PartialEq)]
pub struct Unfit {
    /// The size.
    pub size: String,
    /// Whether it is the roll that is too short; else the table.
    pub roll: bool,
    /// Length of a ply for one product, ends included, mm.
    pub ply: Number,
    /// Longest ply there can be, mm.
    pub most: Number,
}

/// One colour of a fabric in an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Colour {
    /// The colour; absent where none is named.
    pub colour: Option<String>,
    /// Colourways that have it.
    pub colourways: Vec<String>,
    /// Products to cut by size and colourway.
    pub cut: BTreeMap<String, BTreeMap<String, u64>>,
    /// Products made by size, once it is planned.
    pub made: BTreeMap<String, u64>,
}

/// A plan and the plain one beside it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Planned {
    /// Whether lengths of lays are an estimate.
    pub estimate: bool,
    /// Size mixes that were looked at.
    pub mixes: u64,
    /// Of these, mixes that were laid.
    pub laid: u64,
    /// Whether no mix that was not laid could make less be bought, or as little in fewer lays, if none uses the fabric more
    /// than 2 points better than the best lay of one product.
    pub complete: bool,
    /// Whether no plan over these mixes buys less, or as little with fewer lays.
    pub proved: bool,
    /// Length bought that no plan over these mixes is below, mm.
    pub least_bought: Number,
    /// Lays that no plan that buys as little has fewer than.
    pub least_lays: u64,
    /// The lays in the order they are spread.
    pub lays: Vec<LayLine>,
    /// The same, equal lays together.
    pub groups: Vec<LayGroup>,
    /// The plan in sums.
    pub total: Totals,
    /// The plain plan, one size a lay, in sums.
    pub plain: Totals,
    /// Sizes and colours for which no number of plies comes out within what may be made.
    pub undivided: Vec<Undivided>,
    /// The same by colour, for the chain.
    #[serde(skip)]
    pub taken: Vec<plan::Taken>,
}

/// Lays that are spread behind each other and are equal: the same products on the same plies.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LayGroup {
    /// Number of the first lay.
    pub first: u64,
    /// How many they are.
    pub lays: u64,
    /// Products by size on one ply, or on one group of plies.
    pub sizes: BTreeMap<String, u64>,
    /// Plies of each lay.
    pub plies: u64,
    /// Length of one ply with its ends, mm.
    pub ply: Number,
}

/// A part of a lay that is joined end to end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LayPart {
    /// Products by size in the part.
    pub sizes: BTreeMap<String, u64>,
    /// How often it is there.
    pub times: u64,
}

/// Products that no number of plies gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Undivided {
    /// Colour of the fabric.
    pub colour: Option<String>,
    /// Size.
    pub size: String,
    /// Products that come out instead.
    pub made: u64,
}

/// A plan in sums.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Totals {
    /// Lays spread.
    pub lays: u64,
    /// Plies.
    pub plies: u64,
    /// Length spread, ends included, mm.
    pub spread: Number,
    /// Rolls needed; absent where no roll length is known.
    pub rolls: Option<u64>,
    /// Length bought, mm.
    pub bought: Number,
    /// Products above what is wanted.
    pub surplus: u64,
}

/// The way from products to the fabric that is bought, step by step. Every step can be worked out from the ones before.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Chain {
    /// The fabric and its colour.
    #[serde(flatten)]
    pub bought: Bought,
    /// Products to cut: ordered with the cut extra, samples and tests.
    pub products: u64,
    /// Products that the plan makes.
    pub made: u64,
    /// The steps; not known where a plan is not.
    pub steps: Figure<Steps>,
}

/// The steps of a chain.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Steps {
    /// Whether lengths of lays are an estimate.
    pub estimate: bool,
    /// Pieces of these products.
    pub pieces: u64,
    /// Single pieces over, where plies lie in pairs.
    pub over: u64,
    /// Plies by lay, equal lays together.
    pub plies: Vec<PlyTerm>,
    /// Plies × length of their lay, added, mm.
    pub laid: Number,
    /// Plies × ends, added, mm.
    pub ends: Number,
    /// laid + ends, mm.
    pub spread: Number,
    /// Plies joined of two rolls, at most one a roll.
    pub splices: u64,
    /// Splices × overlap, added, mm.
    pub spliced: Number,
    /// Relaxation shrinkage along the roll, percent.
    pub shrinkage: Number,
    /// (spread + spliced) / (1 − shrinkage), up to a millimetre, mm.
    pub relaxed: Number,
    /// Share lost to faults, percent.
    pub faults: Number,
    /// (spread + spliced) / (1 − shrinkage) / (1 − faults), up to a millimetre, mm.
    pub needed: Number,
    /// Length of one roll, mm; absent where it is not known.
    pub roll: Option<Number>,
    /// Kept back of each roll, mm.
    pub reserve: Number,
    /// What can be spread of one roll: (roll − reserve) × (1 − shrinkage) × (1 − faults), down to a millimetre, mm.
    pub usable: Option<Number>,
    /// Rolls that give all plies.
    pub rolls: Option<u64>,
    /// Rolls that are bought: no fewer than the minimum order.
    pub rolls_bought: Option<u64>,
    /// What is left of every roll that is used once its plies are spread; empty where plies may be spliced.
    pub remnants: Vec<Remnant>,
    /// Minimum order of the colour, mm; absent where none is stated, or none in metres or kilograms.
    pub minimum: Option<Number>,
    /// The minimum order in whole rolls.
    pub minimum_rolls: Option<u64>,
    /// Whether the minimum order is more than what is needed.
    pub minimum_decides: bool,
    /// Length bought: whole rolls, or whole metres where no roll is known; no less than the minimum order, mm.
    pub bought: Number,
    /// The same in yards of 0.9144 m.
    pub yards: Number,
    /// Mass bought: length × full width × mass per area, g.
    pub mass: Figure<Number>,
    /// bought − needed, mm.
    pub surplus: Number,
    /// Whose the surplus is; absent where the order does not say.
    pub surplus_of: Option<String>,
    /// What it costs; absent where no price is stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<Price>,
}

/// What the fabric costs. For the own edition only.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Price {
    /// The price as written.
    pub each: String,
    /// Of the length bought, to the cent.
    pub total: Number,
    /// Currency.
    pub currency: String,
}

impl Price {
    /// `4.20 EUR/m`, `4.20 EUR/yd` or `14 EUR/kg`, for what is bought.
    pub(crate) fn of(text: &str, metres: f64, kilograms: Option<f64>) -> Option<Self> {
        let price = crate::units::Price::parse(text)?;
        let units = match price.unit {
            "m" => metres,
            "yd" => metres / 0.9144,
            "kg" => kilograms?,
            _ => return None,
        };
        Some(Price {
            each: text.to_string(),
            // To the cent, so that a sum of prices is exact.
            total: Number::new((price.amount.to_f64() * units * 100.0).round() / 100.0),
            currency: price.currency.to_string(),
        })
    }
}

/// What is left of one roll.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Remnant {
    /// What the pieces call the fabric.
    pub materials: Vec<String>,
    /// The roll, as the plan numbers it.
    pub roll: u64,
    /// What can still be spread of it, mm.
    pub left: Number,
}

/// What the fabric of an order costs in one currency.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Cost {
    /// Currency.
    pub currency: String,
    /// Of everything that has a price in it.
    pub total: Number,
}

/// Plies of one lay, or of equal lays.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct PlyTerm {
    /// What the pieces of the lay call the fabric.
    pub materials: Vec<String>,
    /// The first of these lays.
    pub lay: u64,
    /// How many of them are equal.
    pub lays: u64,
    /// Plies of this colour in each.
    pub plies: u64,
    /// Length of the lay without its ends, mm.
    pub length: Number,
    /// Length of a ply with its ends, mm.
    pub ply: Number,
    /// Plies of this length that one roll gives; absent where no roll is known or plies may be spliced.
    pub per_roll: Option<u64>,
}

/// One lay as the cutting room follows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LayLine {
    /// Its number in the plan of the fabric, from 1.
    pub lay: u64,
    /// Products by size that lie on one ply, or on one group of plies.
    pub sizes: BTreeMap<String, u64>,
    /// Length of the lay without its ends, mm.
    pub length: Number,
    /// Length of one ply with its ends, mm.
    pub ply: Number,
    /// Plies in all.
    pub plies: u64,
    /// Plies by colour in the order they are spread.
    pub colours: Vec<LayColour>,
    /// Bundles.
    pub bundles: Vec<Bundle>,
    /// Lays that it is joined of end to end; one where it is laid as a whole.
    pub parts: Vec<LayPart>,
    /// Products cut.
    pub products: u64,
    /// Pieces of these products.
    pub pieces: u64,
    /// Single pieces over, which plies in pairs give beyond them.
    pub over: u64,
    /// Pairs of pieces with their faces together; absent where plies lie one by one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pairs: Option<u64>,
    /// Pieces on one ply: as often a die strikes, through all plies at once.
    pub strikes: u64,
}

/// Plies of one colour in a lay.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LayColour {
    /// The colour; absent where none is named.
    pub colour: Option<String>,
    /// Plies of it.
    pub plies: u64,
    /// Number of the first of them in the lay, from 1 at the table.
    pub from: u64,
    /// Number of the last.
    pub to: u64,
    /// From which rolls; empty where no roll is known or plies may be spliced.
    pub rolls: Vec<FromRoll>,
}

/// Plies that come from one roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FromRoll {
    /// Which roll of the colour, from 1.
    pub roll: u64,
    /// Plies.
    pub plies: u64,
    /// Number of the first of them in the lay.
    pub from: u64,
    /// Number of the last.
    pub to: u64,
}

/// What is tied together: one product's place in the lay, over some plies of one colour, for one colourway.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bundle {
    /// Its number in the plan of the fabric, from 1.
    pub bundle: u64,
    /// Size.
    pub size: String,
    /// Which of the products of this size in the lay, from 1.
    pub place: u64,
    /// Colourway.
    pub colourway: String,
    /// Colour of the fabric.
    pub colour: Option<String>,
    /// Number of the first ply.
    pub from: u64,
    /// Number of the last ply.
    pub to: u64,
    /// Products.
    pub products: u64,
    /// Pieces.
    pub pieces: u64,
}

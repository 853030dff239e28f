//! Lays, the cut plan of an order, and the fabric to order.

use serde::Serialize;

use super::super::package::{Drawing, Fact, Head};

/// The lays of one product, or of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Marker {
    /// Title, name, lead.
    pub head: Head,
    /// One group a fabric and what is cut from it.
    pub groups: Vec<LayGroup>,
    /// Where a press cuts, the dies: piece, cut, size, dies made, strikes for one product, rule, narrow places.
    pub dies: Vec<Vec<String>>,
}

/// The lays of one fabric.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LayGroup {
    /// The fabric.
    pub title: String,
    /// What holds for all its lays: width, spread, method, gaps, plies.
    pub facts: Vec<Fact>,
    /// Its lays, two side by side.
    pub rows: Vec<Vec<LayCard>>,
    /// What is assumed.
    pub notes: Vec<String>,
}

/// One lay.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LayCard {
    /// What is laid.
    pub title: String,
    /// Length, share used, fabric for one product.
    pub facts: Vec<Fact>,
    /// The lay to scale; `None` where there is none yet.
    pub drawing: Option<Drawing>,
    /// What the numbers in the pieces stand for: `1 SIDE, 2 SIDE′`.
    pub legend: String,
}

/// The cut plan of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    /// Title, name, lead.
    pub head: Head,
    /// Order number, quantities, cut extra.
    pub facts: Vec<Fact>,
    /// Rows by fabric and colour.
    pub groups: Vec<PlanGroup>,
    /// What is ordered and what the plan makes: size, colourway, destination, date, ordered, allowed, to cut, planned,
    /// surplus.
    pub lines: Vec<Vec<String>>,
    /// The plain plan beside it, and whatever must be said.
    pub notes: Vec<String>,
}

/// The spreads of one fabric in one colour.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PlanGroup {
    /// Fabric and colour.
    pub title: String,
    /// How it is spread and cut.
    pub text: String,
    /// One row a spread.
    pub rows: Vec<PlanRow>,
}

/// One spread.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PlanRow {
    /// Number of the spread.
    pub lay: String,
    /// Sizes and how many of each lie on one ply.
    pub makes: String,
    /// Length of a ply, m.
    pub length: String,
    /// How many plies.
    pub plies: String,
    /// Ply numbers, from and to.
    pub numbers: String,
    /// Bundle numbers, from and to.
    pub bundles: String,
    /// Pieces cut.
    pub pieces: String,
    /// Products that come of it, by size.
    pub products: String,
}

/// Fabric to order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fabric {
    /// Title, name, lead.
    pub head: Head,
    /// One chain a fabric and colour, two side by side.
    pub chains: Vec<Vec<Chain>>,
    /// Notes below.
    pub notes: Vec<String>,
}

/// The way from products to rolls.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Chain {
    /// Fabric and colour.
    pub title: String,
    /// Article and supplier.
    pub text: String,
    /// The steps, each from the one before.
    pub steps: Vec<ChainStep>,
}

/// One step of a chain.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChainStep {
    /// What it gives.
    pub step: String,
    /// How it is worked out, in figures.
    pub working: String,
    /// The result with its unit.
    pub result: String,
    /// Whether it is what is bought.
    pub heavy: bool,
}

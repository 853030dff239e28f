//! Lays, the cut plan of an order, and the fabric to order.

use serde::Serialize;

use super::super::cell::Cell;
use super::super::package::{Drawing, Fact, Head};
use super::super::placed::Page;
use crate::words::Phrase;

/// The lays of one product, or of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Marker {
    /// Title, name, lead.
    pub head: Head,
    /// One a fabric and what is cut from it: what holds for all its lays.
    pub groups: Vec<LayGroup>,
    /// The lays, page after page.
    pub pages: Vec<Page<LayCard>>,
    /// Where a press cuts, the dies: piece, cut, size, dies made, strikes for one product, rule, narrow places.
    pub dies: Vec<Vec<Cell>>,
}

/// The lays of one fabric.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LayGroup {
    /// The fabric.
    pub title: Phrase,
    /// What holds for all its lays: width, spread, method, gaps, plies.
    pub facts: Vec<Fact>,
    /// What is assumed.
    pub notes: Vec<Phrase>,
}

/// One lay.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LayCard {
    /// Its width, mm.
    pub width: f64,
    /// Room for the text above the drawing, mm.
    pub top: f64,
    /// The fabric, and what is laid.
    pub title: Phrase,
    /// Length, share used, fabric for one product.
    pub facts: Vec<Fact>,
    /// The lay to scale; `None` where there is none yet.
    pub drawing: Option<Drawing>,
    /// What the numbers in the pieces stand for: `1 SIDE, 2 SIDE′`.
    pub legend: Phrase,
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
    pub lines: Vec<Vec<Cell>>,
    /// The plain plan beside it, and whatever must be said.
    pub notes: Vec<Phrase>,
}

/// The spreads of one fabric in one colour.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PlanGroup {
    /// Fabric and colour.
    pub title: Phrase,
    /// How it is spread and cut.
    pub text: Phrase,
    /// One row a spread.
    pub rows: Vec<PlanRow>,
}

/// One spread.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PlanRow {
    /// Number of the spread.
    pub lay: Cell,
    /// Sizes and how many of each lie on one ply.
    pub makes: Cell,
    /// Length of a ply, m.
    pub length: Cell,
    /// How many plies.
    pub plies: Cell,
    /// Ply numbers, from and to.
    pub numbers: Cell,
    /// Bundle numbers, from and to.
    pub bundles: Cell,
    /// Pieces cut.
    pub pieces: Cell,
    /// Products that come of it, by size.
    pub products: Cell,
}

/// Fabric to order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fabric {
    /// Title, name, lead.
    pub head: Head,
    /// One chain a fabric and colour, two side by side.
    pub chains: Vec<Vec<Chain>>,
    /// Notes below.
    pub notes: Vec<Phrase>,
}

/// The way from products to rolls.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Chain {
    /// Fabric and colour.
    pub title: Phrase,
    /// Article and supplier.
    pub text: Phrase,
    /// The steps, each from the one before.
    pub steps: Vec<ChainStep>,
}

/// One step of a chain.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChainStep {
    /// What it gives.
    pub step: Phrase,
    /// How it is worked out, in figures.
    pub working: Phrase,
    /// The result with its unit.
    pub result: Cell,
    /// Whether it is what is bought.
    pub heavy: bool,
}

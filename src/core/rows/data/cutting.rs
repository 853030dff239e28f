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
    /// What holds for every lay of the sheet.
    pub shared: Vec<Fact>,
    /// Heads of what differs from fabric to fabric.
    pub columns: Vec<Phrase>,
    /// One a fabric and what is cut from it: what holds for all its lays.
    pub groups: Vec<LayGroup>,
    /// The lays, page after page; the first page is below the tables and may hold none.
    pub pages: Vec<Page<LayCard>>,
    /// The sizes of the dies.
    pub sizes: Vec<String>,
    /// Where a press cuts, the dies.
    pub dies: Vec<DieRow>,
}

/// The lays of one fabric.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LayGroup {
    /// The fabric.
    pub title: Phrase,
    /// What holds for all its lays, one a column: width, spread, method, gaps, plies.
    pub cells: Vec<Cell>,
    /// What is assumed.
    pub notes: Vec<Phrase>,
}

/// The dies of one cut of a piece.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct DieRow {
    /// The piece.
    pub piece: String,
    /// The cut.
    pub cut: Phrase,
    /// By size: dies made, strikes for one product, length of the rule.
    pub by: Vec<[Cell; 3]>,
    /// Places too narrow to bend the rule.
    pub narrow: Phrase,
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
    /// Length, pieces, fabric for one product; then share used, strikes, path: a line each.
    pub facts: Vec<Vec<Fact>>,
    /// The lay to scale; `None` where there is none yet.
    pub drawing: Option<Drawing>,
    /// Its scale, `1:20`.
    pub scale: String,
    /// What the numbers in the pieces are: `1 SIDE, 2 SIDE′`.
    pub legend: Phrase,
}

/// The cut plan of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    /// Title, name, lead.
    pub head: Head,
    /// Whether it may be cut, and what it is made to.
    pub status: Status,
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

/// Whether an order may be cut, and what it is made to.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Status {
    /// That it may not; empty where nothing is in the way.
    pub title: Phrase,
    /// What must be settled first.
    pub stops: Vec<Phrase>,
    /// The revision it cites, and whether this is it; then what is in the way of the next stage.
    pub made_to: Vec<Phrase>,
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

/// One spread, or several that are equal.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PlanRow {
    /// Number of the lay, or from and to.
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
    /// What is bought, a row a fabric and colour.
    pub list: Purchases,
    /// One chain a fabric and colour.
    pub chains: Vec<Chain>,
    /// Notes below.
    pub notes: Vec<Phrase>,
}

/// What is bought at one glance.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Purchases {
    /// Heads of the columns.
    pub columns: Vec<Phrase>,
    /// A row a fabric and colour.
    pub rows: Vec<Vec<Cell>>,
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

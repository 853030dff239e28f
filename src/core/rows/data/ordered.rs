//! What the cutting room works from beside the plan: bundles, the record of spreading, strikes of dies.

use serde::Serialize;

use super::super::cell::Cell;
use super::super::package::Head;
use crate::words::Phrase;

/// The bundles of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bundles {
    /// Title, name, lead.
    pub head: Head,
    /// Heads of the columns; the last one is filled in by hand.
    pub columns: Vec<Phrase>,
    /// One a fabric.
    pub groups: Vec<BundleGroup>,
}

/// The bundles of one fabric.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct BundleGroup {
    /// The fabric.
    pub title: Phrase,
    /// What is in a bundle for one product: letter, piece, side, how many.
    pub pieces: Phrase,
    /// Bundles that differ in their numbers only, a row.
    pub rows: Vec<Vec<Cell>>,
}

/// What is written down while an order is spread.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Spreading {
    /// Title, name, lead.
    pub head: Head,
    /// Heads of what is planned.
    pub planned: Vec<Phrase>,
    /// Heads of what is filled in by hand.
    pub asked: Vec<Phrase>,
    /// One a fabric.
    pub groups: Vec<SpreadGroup>,
}

/// The record of one fabric.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct SpreadGroup {
    /// The fabric.
    pub title: Phrase,
    /// A row a lay, colour and roll, with what is planned.
    pub rows: Vec<Vec<Cell>>,
}

/// The strikes of an order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Strikes {
    /// Title, name, lead.
    pub head: Head,
    /// Heads of the columns.
    pub columns: Vec<Phrase>,
    /// A row a die.
    pub rows: Vec<Vec<Cell>>,
    /// All dies together.
    pub total: Vec<Cell>,
}

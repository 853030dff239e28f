//! Cards in their places on pages.

use serde::Serialize;

/// A page of cards.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Page<T> {
    /// How far down its cards reach, mm.
    pub height: f64,
    /// Its cards in their places.
    pub cards: Vec<Placed<T>>,
}

/// A card in its place on a page: from the left, from the top, mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Placed<T> {
    /// Its upper left corner.
    pub at: [f64; 2],
    /// The card.
    pub card: T,
}

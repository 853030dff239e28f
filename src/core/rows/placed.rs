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

impl<T> Page<T> {
    /// The same page with what each card becomes; cards that become nothing are left out.
    pub(crate) fn filter_map<U>(self, to: impl Fn(T) -> Option<U>) -> Page<U> {
        let cards = self.cards.into_iter().filter_map(|one| Some(Placed { at: one.at, card: to(one.card)? }));
        Page { height: self.height, cards: cards.collect() }
    }
}

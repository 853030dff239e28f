//! Cards of any width, put into rows of a sheet.

use crate::scene::Scene;

use super::package::{CARD_LEAST, ROW, ROW_GAP};

/// The width of the card of a drawing, mm.
pub fn width(scene: Option<&Scene>) -> f64 {
    scene.map_or(CARD_LEAST, |scene| scene.width.ceil().clamp(CARD_LEAST, ROW))
}

/// Cards of a width and a height in rows: the tallest first, so that a row holds cards of like height; each goes into
/// the first row that has room for it.
pub fn rows<T>(cards: impl IntoIterator<Item = ([f64; 2], T)>) -> Vec<Vec<T>> {
    let mut cards: Vec<([f64; 2], T)> = cards.into_iter().collect();
    cards.sort_by(|(a, _), (b, _)| b[1].total_cmp(&a[1]));
    let mut rows: Vec<(f64, Vec<T>)> = Vec::new();
    for ([width, _], card) in cards {
        match rows.iter_mut().find(|(used, _)| used + ROW_GAP + width <= ROW) {
            Some((used, row)) => {
                *used += ROW_GAP + width;
                row.push(card);
            }
            None => rows.push((width, vec![card])),
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_filled_and_cards_of_like_height_stand_together() {
        let cards = [
            ([120.0, 20.0], "a"),
            ([80.0, 90.0], "b"),
            ([200.0, 40.0], "c"),
            ([150.0, 80.0], "d"),
            ([50.0, 30.0], "e"),
        ];
        assert_eq!(rows(cards), [vec!["b", "d"], vec!["c", "e"], vec!["a"]]);
    }
}

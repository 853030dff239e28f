//! What several sheets tell alike: a phrase for each size, a phrase that is marked as changed, a length in metres.

use super::cell::Cell;
use super::view::View;
use crate::compute::{Figure, Number};
use crate::words::{Phrase, head, say, words};

words! {
    OF_SIZE "tell.of-size" = "{size} {value}";
}

/// One phrase for each size: alone where all are the same, else behind the sizes in their order: `S 5 mm, L 6 mm`.
pub fn by_size(view: &View<'_>, phrase: impl Fn(&str) -> Phrase) -> Phrase {
    let all: Vec<(&str, Phrase)> = view.sizes().into_iter().map(|size| (size, phrase(size))).collect();
    match all.split_first() {
        Some(((_, first), rest)) if rest.iter().all(|(_, phrase)| phrase == first) => first.clone(),
        _ => Phrase::list(all.into_iter().map(|(size, value)| {
            let value = if value.is_empty() { head::NOT_KNOWN.into() } else { value };
            say!(OF_SIZE, size, value)
        })),
    }
}

/// A phrase, marked where the thing it names changed since the last sealed revision.
pub fn marked(view: &View<'_>, kinds: &[&str], id: &str, phrase: Phrase) -> Phrase {
    let changed = view.since.is_some_and(|since| kinds.iter().any(|kind| since.marks.thing(kind, id)));
    Cell::from(phrase).marked(changed).phrase()
}

/// A length in metres, to the millimetre.
pub fn metres(mm: Number) -> Cell {
    Cell::fixed(Number::new(mm.get() / 1000.0), 3, "m")
}

/// A figure that is a length in metres.
pub fn known_metres(mm: &Figure<Number>) -> Cell {
    Cell::figure(mm, |mm| metres(*mm))
}

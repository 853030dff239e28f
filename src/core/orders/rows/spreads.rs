//! The lays of a plan as the sheets go through them: equal ones together, their numbers, the products of a ply.
//!
//! What sheets read of a plan they read here, but for single figures.

use crate::orders::figures::{Bundle, LayLine, Planned};

/// Lays that follow each other and are equal but for their numbers and rolls.
pub fn alike(plan: &Planned) -> impl Iterator<Item = &[LayLine]> {
    plan.lays.chunk_by(same)
}

fn same(one: &LayLine, other: &LayLine) -> bool {
    let colours = |lay: &LayLine| -> Vec<(Option<String>, u64)> {
        lay.colours.iter().map(|one| (one.colour.clone(), one.plies)).collect()
    };
    (&one.sizes, one.ply, colours(one)) == (&other.sizes, other.ply, colours(other))
}

/// `3`, or `3–7`.
pub fn range(from: u64, to: u64) -> String {
    if from == to { from.to_string() } else { format!("{from}–{to}") }
}

/// The numbers of some lays that follow each other.
pub fn numbers(lays: &[LayLine]) -> String {
    let ends = lays.first().zip(lays.last());
    ends.map_or_else(String::new, |(first, last)| range(first.lay, last.lay))
}

/// The products of one ply, numbered through: each size with its first and last number.
pub fn products(lay: &LayLine) -> Vec<(&str, u64, u64)> {
    let mut next = 1;
    let some = lay.sizes.iter().filter(|(_, count)| **count > 0);
    some.map(|(size, count)| {
        let first = next;
        next += count;
        (size.as_str(), first, next - 1)
    })
    .collect()
}

/// The number of a bundle's product among those of a ply.
pub fn product(lay: &LayLine, bundle: &Bundle) -> u64 {
    let first = products(lay).into_iter().find(|(size, ..)| *size == bundle.size).map_or(1, |(_, first, _)| first);
    first + bundle.place - 1
}

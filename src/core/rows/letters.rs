//! The letter of each seam: one alphabet for the whole product, in the order of work.

use std::collections::BTreeMap;

use crate::model::assembly::{Edging, Resolved, Reverse, Run, Side};

use super::view::View;

/// Letters that are not taken for a figure.
const ALPHABET: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// Letters and steps by the id of a seam, opening or attachment.
pub struct Letters(BTreeMap<String, (String, Option<usize>)>);

impl Letters {
    /// Seams, openings and attachments in the order of work; those without a place in it follow.
    pub fn of(view: &View<'_>) -> Self {
        let model = view.model;
        let order: Vec<&str> = model.work.order.iter().map(|id| id.value.as_str()).collect();
        let joins = |id: &&str| model.joints.contains_key(*id) || model.attaches.contains_key(*id);
        let all = model.joints.keys().chain(model.attaches.keys()).map(String::as_str);
        let rest = all.filter(|id| !order.contains(id));
        let ids: Vec<&str> = order.iter().copied().filter(joins).chain(rest).collect();
        let step = |id: &str| order.iter().position(|one| *one == id).map(|at| at + 1);
        Letters(ids.iter().enumerate().map(|(n, id)| (id.to_string(), (letter(n), step(id)))).collect())
    }

    /// The letter, without the stroke of a mirror image.
    pub fn plain(&self, id: &str) -> &str {
        self.0.get(id).map_or("", |(letter, _)| letter)
    }

    /// The step of the order of work.
    pub fn step(&self, id: &str) -> Option<usize> {
        self.0.get(id).and_then(|(_, step)| *step)
    }

    /// The letter of one image of a seam.
    pub fn seam(&self, joint: &Resolved) -> String {
        self.image(&joint.joint, joint.image)
    }

    /// The letter of one image of an attachment; empty for what joins nothing.
    pub fn edging(&self, edging: &Edging) -> String {
        self.image(&edging.id, edging.image)
    }

    fn image(&self, id: &str, image: Reverse) -> String {
        let stroke = if image == Reverse::Mirrored { "′" } else { "" };
        match self.plain(id) {
            "" => String::new(),
            letter => format!("{letter}{stroke}"),
        }
    }

    /// What a run bears in a seam, with the run as the seam has it.
    pub fn run(&self, joint: &Resolved, run: (usize, usize)) -> Vec<(String, Run)> {
        let letter = self.seam(joint);
        joint.sides().flat_map(|side| borne(&letter, side, run)).collect()
    }
}

/// What each run of a side bears: the letter, with its place in the row where there are several.
pub fn numbered<'a>(letter: &str, side: &'a Side) -> impl Iterator<Item = (String, &'a Run)> {
    let several = side.runs.len() > 1;
    side.runs
        .iter()
        .enumerate()
        .map(move |(n, run)| (if several { format!("{letter}{}", n + 1) } else { letter.to_string() }, run))
}

/// What a run bears as part of a side.
pub fn borne(letter: &str, side: &Side, run: (usize, usize)) -> Vec<(String, Run)> {
    let here = numbered(letter, side).filter(|(_, one)| (one.instance, one.run) == run);
    here.map(|(letter, one)| (letter, *one)).collect()
}

/// `A` to `Z` without `I` and `O`, then `AA`.
fn letter(n: usize) -> String {
    let one = |n: usize| ALPHABET.get(n % ALPHABET.len()).map_or('?', |byte| char::from(*byte));
    match n / ALPHABET.len() {
        0 => one(n).to_string(),
        more => format!("{}{}", letter(more - 1), one(n)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_the_last() {
        assert_eq!([0, 7, 8, 23, 24, 48].map(letter), ["A", "H", "J", "Z", "AA", "BA"]);
    }
}

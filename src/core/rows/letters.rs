//! The letter of each seam: one alphabet for the whole product, in the order of work.

use std::collections::BTreeMap;

use crate::compute::Between;
use crate::model::assembly::{Edging, Resolved, Reverse, Run, Side};
use crate::words::{Phrase, say, words};

use super::view::View;

words! {
    STRETCH "letters.stretch" = "{edge} {ends}";
    NOTCH "letters.notch" = "notch {notch}";
}

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
        let sides = [&joint.a, &joint.b].into_iter().flat_map(|side| borne(&letter, side, run));
        let caught = joint.caught_layers().flat_map(|(layer, side)| placed(&letter, joint, joint.along(layer), side));
        let caught = caught.filter(|(_, one)| (one.instance, one.run) == run).map(|(letter, one)| (letter, *one));
        sides.chain(caught).collect()
    }
}

/// What each run of a caught layer, or of the stretch it lies along, bears: the number of the edge of side `a` that it
/// lies on. A layer along a whole seam bears its letter alone, where it has another number of edges.
pub fn placed<'a>(letter: &str, joint: &Resolved, along: &Side, side: &'a Side) -> Vec<(String, &'a Run)> {
    let of_a = |run: &Run| joint.a.runs.iter().position(|one| (one.instance, one.run) == (run.instance, run.run));
    let places: Vec<usize> = along.runs.iter().filter_map(of_a).collect();
    let number = |at: &usize| format!("{letter}{}", at + 1);
    let whole = match places.as_slice() {
        _ if places.len() == joint.a.runs.len() || places.len() < along.runs.len() => letter.to_string(),
        [only] => number(only),
        [first, .., last] => format!("{}–{}", number(first), number(last)),
        [] => letter.to_string(),
    };
    let alike = joint.a.runs.len() > 1 && places.len() == side.runs.len();
    let bears = |n: usize| places.get(n).filter(|_| alike).map_or_else(|| whole.clone(), number);
    side.runs.iter().enumerate().map(|(n, run)| (bears(n), run)).collect()
}

/// What each run of a side bears: the letter, with its place in the row where there are several.
pub fn numbered<'a>(letter: &str, side: &'a Side) -> impl Iterator<Item = (String, &'a Run)> {
    let several = side.runs.len() > 1;
    side.runs
        .iter()
        .enumerate()
        .map(move |(n, run)| (if several { format!("{letter}{}", n + 1) } else { letter.to_string() }, run))
}

/// One stretch of a seam by the number of its edge and both its ends: `T4 w2 – notch 1`.
pub fn stretch(letter: &str, one: &Between) -> Phrase {
    let place = |point: &str, notch: Option<u64>| match notch {
        None => Phrase::from(point),
        Some(notch) => say!(NOTCH, notch),
    };
    let ends = [place(&one.from, one.from_notch), place(&one.to, one.to_notch)];
    say!(STRETCH, edge = format!("{letter}{}", one.edge), ends = Phrase::row(ends, " – "))
}

/// What a run bears as part of a side.
pub fn borne(letter: &str, side: &Side, run: (usize, usize)) -> Vec<(String, Run)> {
    let here = numbered(letter, side).filter(|(_, one)| (one.instance, one.run) == run);
    here.map(|(letter, one)| (letter, *one)).collect()
}

/// What an edge bears in every seam and attachment, each once.
pub fn of_run(view: &View<'_>, letters: &Letters, run: (usize, usize)) -> Vec<(String, Run)> {
    let Some(account) = view.assembly.sewing.accounts.get(&run) else { return Vec::new() };
    let joints = account.joints.iter().filter_map(|n| view.assembly.joints.get(*n));
    let mut all: Vec<(String, Run)> = joints.flat_map(|joint| letters.run(joint, run)).collect();
    for edging in account.attached.iter().filter_map(|n| view.assembly.edgings.get(*n)) {
        all.extend(borne(&letters.edging(edging), &edging.side, run));
    }
    let mut kept: Vec<(String, Run)> = Vec::new();
    for one in all {
        if !kept.iter().any(|(letter, _)| *letter == one.0) {
            kept.push(one);
        }
    }
    kept
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

//! The lays of an order as the cutting room follows them: plies, rolls and bundles.

use std::collections::BTreeMap;

use crate::compute::Number;
use crate::orders::plan::{Mix, Problem, Settled, Spread};

use super::record::{Bundle, Colour, FromRoll, LayColour, LayGroup, LayLine, LayPart};

/// A plan that is settled, and what it is about.
pub(crate) struct Cut<'a> {
    pub settled: &'a Settled,
    pub problem: &'a Problem,
    pub sizes: &'a [String],
    pub colours: &'a [Colour],
    /// Pieces of one product.
    pub pieces: u64,
    /// Pieces over in one group of plies, by mix.
    pub over: &'a BTreeMap<usize, u64>,
}

pub(crate) fn lines(cut: &Cut<'_>) -> Vec<LayLine> {
    let Cut { settled, problem, sizes, colours, pieces, over } = cut;
    let step = u64::from(problem.step);
    let mut room = Room { sizes, colours, pieces: *pieces, step, wanted: wanted(colours), bundle: 0 };
    let line = |(at, spread): (usize, &Spread)| {
        let from = starts(spread);
        let bundles = room.bundles(&settled.mixes[spread.mix].0, spread, &from);
        let millimetres = |length: i64| Number::new(length as f64 / 1e3);
        let plies: u64 = spread.plies.iter().map(|plies| u64::from(*plies)).sum();
        let pieces: u64 = bundles.iter().map(|one| one.pieces).sum();
        let over = over.get(&spread.mix).copied().unwrap_or(0) * (plies / step);
        LayLine {
            lay: at as u64 + 1,
            sizes: counts(&settled.mixes[spread.mix].0, sizes),
            length: millimetres(spread.ply - problem.ends),
            ply: millimetres(spread.ply),
            plies,
            colours: room.plies(spread, &from),
            parts: parts(settled, spread.mix, sizes),
            products: bundles.iter().map(|one| one.products).sum(),
            pieces,
            over,
            pairs: (step > 1).then_some((pieces + over) / step),
            strikes: (pieces + over).div_ceil(plies.max(1)),
            bundles,
        }
    };
    settled.plan.lays.iter().enumerate().map(line).collect()
}

/// The lays that a mix is joined of, equal ones together.
fn parts(settled: &Settled, mix: usize, sizes: &[String]) -> Vec<LayPart> {
    let mut all: Vec<LayPart> = Vec::new();
    for part in &settled.parts[mix] {
        let sizes = counts(&settled.mixes[*part].0, sizes);
        match all.last_mut().filter(|last| last.sizes == sizes) {
            Some(last) => last.times += 1,
            None => all.push(LayPart { sizes, times: 1 }),
        }
    }
    all
}

/// Equal lays that are spread behind each other, together.
pub(crate) fn groups_of(lays: &[LayLine]) -> Vec<LayGroup> {
    let equal = |one: &LayLine, other: &LayLine| {
        let plies = |lay: &LayLine| lay.colours.iter().map(|one| (one.colour.clone(), one.plies)).collect::<Vec<_>>();
        (&one.sizes, one.ply) == (&other.sizes, other.ply) && plies(one) == plies(other)
    };
    let group = |lays: &[LayLine]| {
        let first = lays.first()?;
        let (sizes, plies, ply) = (first.sizes.clone(), first.plies, first.ply);
        Some(LayGroup { first: first.lay, lays: lays.len() as u64, sizes, plies, ply })
    };
    lays.chunk_by(equal).filter_map(group).collect()
}

fn counts(mix: &Mix, sizes: &[String]) -> BTreeMap<String, u64> {
    let some = sizes.iter().zip(&mix.sets).filter(|(_, sets)| **sets > 0);
    some.map(|(size, sets)| (size.clone(), u64::from(*sets))).collect()
}

/// Number of the first ply of each colour, from 1.
fn starts(spread: &Spread) -> Vec<u64> {
    let mut next = 1;
    let of = |plies: &u32| {
        let first = next;
        next += u64::from(*plies);
        first
    };
    spread.plies.iter().map(of).collect()
}

/// Products still wanted by colour, size and colourway.
type Wanted = Vec<BTreeMap<String, Vec<(String, u64)>>>;

fn wanted(colours: &[Colour]) -> Wanted {
    let of = |by: &BTreeMap<String, u64>| by.iter().map(|(colourway, cut)| (colourway.clone(), *cut)).collect();
    colours.iter().map(|one| one.cut.iter().map(|(size, by)| (size.clone(), of(by))).collect()).collect()
}

/// The cutting room at work: bundles are numbered through, and each goes to the first colourway still short of its size.
struct Room<'a> {
    sizes: &'a [String],
    colours: &'a [Colour],
    pieces: u64,
    step: u64,
    wanted: Wanted,
    bundle: u64,
}

impl Room<'_> {
    fn plies(&self, spread: &Spread, from: &[u64]) -> Vec<LayColour> {
        let of = |(at, plies): (usize, &u32)| {
            let mut next = from[at];
            let roll = |(roll, plies): &(u32, u32)| {
                let first = next;
                next += u64::from(*plies);
                FromRoll { roll: u64::from(*roll), plies: u64::from(*plies), from: first, to: next - 1 }
            };
            LayColour {
                colour: self.colours[at].colour.clone(),
                plies: u64::from(*plies),
                from: from[at],
                to: from[at] + u64::from(*plies) - 1,
                rolls: spread.rolls[at].iter().map(roll).collect(),
            }
        };
        spread.plies.iter().enumerate().filter(|(_, plies)| **plies > 0).map(of).collect()
    }

    fn bundles(&mut self, mix: &Mix, spread: &Spread, from: &[u64]) -> Vec<Bundle> {
        let mut all = Vec::new();
        for (colour, plies) in spread.plies.iter().enumerate().filter(|(_, plies)| **plies > 0) {
            for (size, sets) in self.sizes.iter().zip(&mix.sets) {
                for place in 1..=*sets {
                    self.place(colour, size, (u64::from(place), from[colour], u64::from(*plies)), &mut all);
                }
            }
        }
        all
    }

    /// One product's place in the lay: as many bundles as colourways share its plies.
    fn place(&mut self, colour: usize, size: &str, (place, from, plies): (u64, u64, u64), all: &mut Vec<Bundle>) {
        let mut left = plies / self.step;
        let mut from = from;
        while left > 0 {
            let (colourway, products) = self.next(colour, size, left);
            self.bundle += 1;
            all.push(Bundle {
                bundle: self.bundle,
                size: size.to_string(),
                place,
                colourway,
                colour: self.colours[colour].colour.clone(),
                from,
                to: from + products * self.step - 1,
                products,
                pieces: products * self.pieces,
            });
            from += products * self.step;
            left -= products;
        }
    }

    /// The colourway that gets the next products, and how many; what nobody wants goes to the last one.
    fn next(&mut self, colour: usize, size: &str, left: u64) -> (String, u64) {
        let wanted = self.wanted[colour].get_mut(size);
        let short = wanted.and_then(|by| by.iter_mut().find(|(_, short)| *short > 0));
        match short {
            Some((colourway, short)) => {
                let taken = left.min(*short);
                *short -= taken;
                (colourway.clone(), taken)
            }
            None => (self.colours[colour].colourways.last().cloned().unwrap_or_default(), left),
        }
    }
}

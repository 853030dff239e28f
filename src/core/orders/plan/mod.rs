//! The cut plan of an order: which sizes lie together, how many plies of which colour, how many lays, and what is bought
//! for it. Knows sizes and colours by their place in a list, and lengths; no specification.
//!
//! ```text
//! problem  demand, plies, table, how the fabric is bought; what a plan is worth
//! rounded  whole millimetres
//! mixes    which sizes may lie together;  join: lays end to end, up to the table
//! ready    what can be spread at all
//! pack     groups of plies on rolls
//! colour   the least that one colour takes;  bound: what no plan is below
//! exact    every plan of a small order;  search: large orders
//! settle   lays what was chosen and plans again, until every chosen mix is laid
//! ```
//! What is bought is counted in rolls, or in whole metres where no roll is known. A plan is the better one that buys less;
//! of two that buy the same, the one with fewer lays, then with less fabric spread, then with fewer products too many.

mod bound;
mod colour;
mod each;
mod exact;
mod grid;
mod join;
mod mixes;
mod pack;
mod problem;
mod ready;
pub mod rounded;
mod search;
mod settle;

pub use mixes::mixes;
pub use problem::{Buy, Demand, Length, Mix, Problem, Unplannable, Worth};
pub use settle::{Settled, settle};

use colour::{Least, together};
use ready::{Amounts, Ready};

/// A plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The lays in the order they are spread: longest first.
    pub lays: Vec<Spread>,
    /// What each colour takes.
    pub colours: Vec<Taken>,
    /// What it is worth.
    pub worth: Worth,
    /// Length bought and lays that no plan is below.
    pub bound: (i64, u32),
    /// Whether no plan over these mixes buys less, or as little with fewer lays: every plan was looked at, or the bound is met.
    pub proved: bool,
    /// Colours and sizes for which no number of plies comes out within the limits.
    pub raised: Vec<(usize, usize)>,
}

/// One lay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spread {
    /// Which of the mixes given.
    pub mix: usize,
    /// Length of one ply, ends included, µm.
    pub ply: i64,
    /// Plies by colour.
    pub plies: Vec<u32>,
    /// From which rolls, by colour, each from 1, and how many plies; empty where no roll is known or plies may be spliced.
    pub rolls: Vec<Vec<(u32, u32)>>,
}

/// What one colour takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Products made by size.
    pub made: Vec<u32>,
    /// Length spread, ends included, µm.
    pub spread: i64,
    /// Units needed: rolls, or metres.
    pub units: u32,
    /// Length bought, µm.
    pub bought: i64,
    /// Length spread of each roll, µm; empty where no roll is known or plies may be spliced.
    pub rolls: Vec<i64>,
}

/// The best plan over these mixes, each with its length.
///
/// # Errors
/// If the problem is malformed, or a wanted size fits neither the table nor the roll.
pub fn solve(problem: &Problem, mixes: &[(Mix, Length)]) -> Result<Plan, Unplannable> {
    let ready = Ready::new(problem, mixes)?;
    let colours = 0..ready.low.len();
    let least: Vec<Option<Least>> = colours.clone().map(|colour| Least::of(&ready, colour)).collect();
    let best = |colour: usize| least[colour].as_ref().and_then(|least| least.best(&ready, colour));
    let first: Option<Vec<(u32, Vec<u32>)>> = colours.clone().map(best).collect();
    let units: Vec<u32> = match &first {
        Some(first) => first.iter().map(|(units, _)| *units).collect(),
        None => colours
            .map(|colour| match &least[colour] {
                Some(least) => least.best(&ready, colour).map_or(0, |(units, _)| units),
                None => problem.buy.joined_at_least(bound::length(&ready, colour)),
            })
            .collect(),
    };
    let bought = units.iter().enumerate().map(|(colour, units)| ready.bought(*units, colour)).sum();
    let below = (bought, bound::lays(&ready));
    let amounts = first.is_some().then(|| exact::exact(&ready, &least, &units)).flatten();
    let proved = amounts.is_some();
    let amounts = match amounts {
        Some(amounts) => Some(amounts),
        None => {
            let first =
                first.map(|first| together(&ready, &first.into_iter().map(|(_, groups)| groups).collect::<Vec<_>>()));
            search::search(&ready, first, below).map(|(_, amounts)| amounts)
        }
    };
    let amounts = amounts.unwrap_or_else(|| ready.nothing());
    // A lay for each size, where the search found nothing as good.
    let plain = if proved { None } else { each::each(&ready) };
    let better = plain.filter(|plain| ready.worth(plain) < ready.worth(&amounts));
    Ok(plan(&ready, &better.unwrap_or(amounts), below, proved))
}

fn plan(ready: &Ready<'_>, amounts: &Amounts, bound: (i64, u32), proved: bool) -> Plan {
    let worth = ready.worth(amounts);
    let made = ready.made(amounts);
    let rolls = rolls(ready, amounts);
    let taken = |(colour, made): (usize, Vec<u32>)| {
        let units = ready.units(amounts, colour);
        let used = |roll: &pack::Roll| roll.iter().map(|(mix, n)| ready.mixes[*mix].length * i64::from(*n)).sum();
        Taken {
            made,
            spread: ready.spread(amounts, colour),
            units,
            bought: ready.bought(units, colour),
            rolls: rolls[colour].iter().map(used).collect(),
        }
    };
    let proved = proved || (worth.bought, worth.lays) <= bound;
    let bound = if proved { (worth.bought, worth.lays) } else { bound };
    Plan {
        lays: lays(ready, amounts, rolls.clone()),
        colours: made.into_iter().enumerate().map(taken).collect(),
        worth,
        bound,
        proved,
        raised: ready.raised.clone(),
    }
}

/// Groups of plies set out in lays: the longest first, in each the colours in order.
fn lays(ready: &Ready<'_>, amounts: &Amounts, rolls: Vec<Vec<pack::Roll>>) -> Vec<Spread> {
    let step = ready.problem.step;
    let mut order: Vec<usize> = (0..amounts.len()).collect();
    order.sort_by(|a, b| ready.mixes[*b].length.cmp(&ready.mixes[*a].length).then(a.cmp(b)));
    let mut rolls = Rolls(rolls);
    let mut all = Vec::new();
    for mix in order {
        let mut left = amounts[mix].clone();
        while left.iter().any(|left| *left > 0) {
            let mut room = ready.groups;
            let (mut plies, mut from) = (Vec::new(), Vec::new());
            for (colour, left) in left.iter_mut().enumerate() {
                let taken = room.min(*left);
                room -= taken;
                *left -= taken;
                plies.push(taken * step);
                from.push(rolls.take(colour, mix, taken, step));
            }
            let one = &ready.mixes[mix];
            all.push(Spread { mix: one.index, ply: one.length / i64::from(step), plies, rolls: from });
        }
    }
    all
}

/// What the rolls of each colour are cut into.
fn rolls(ready: &Ready<'_>, amounts: &Amounts) -> Vec<Vec<pack::Roll>> {
    let whole = ready.problem.buy.whole;
    let of = |colour| if whole { pack::rolls(&ready.kinds(amounts, colour), ready.usable) } else { Vec::new() };
    (0..ready.low.len()).map(of).collect()
}

/// Which roll still gives groups of which mix, by colour.
struct Rolls(Vec<Vec<pack::Roll>>);

impl Rolls {
    /// Takes groups of a mix off the first rolls that give them: numbers of rolls from 1, and plies.
    fn take(&mut self, colour: usize, mix: usize, groups: u32, step: u32) -> Vec<(u32, u32)> {
        let mut left = groups;
        let mut all = Vec::new();
        for (number, roll) in self.0[colour].iter_mut().enumerate() {
            for (_, there) in roll.iter_mut().filter(|(one, _)| *one == mix) {
                let taken = left.min(*there);
                *there -= taken;
                left -= taken;
                if taken > 0 {
                    all.push((number as u32 + 1, taken * step));
                }
            }
        }
        all
    }
}

//! Every plan of a small order, cut short where it can be no better.
//!
//! `least[k]` holds, for every number of products of every colour and size, the least length that at most k lays spread for
//! it. Plans with the fewest lays that keep to what must be bought are then followed from there, shortest first.

use super::colour::{Least, Weights};
use super::grid::Grid;
use super::problem::Worth;
use super::ready::{Amounts, Ready};

/// Places of the grid at most.
const PLACES: usize = 60_000;
/// Places times ways of one lay at most, all lays together.
const WORK: usize = 60_000_000;
/// Ways of one lay at most.
const WAYS: usize = 20_000;
/// Steps of following at most.
const STEPS: u32 = 400_000;
/// Lays at most.
const LAYS: usize = 24;
/// What no lays give.
const NEVER: i64 = i64::MAX;

/// One lay: a mix and its groups of plies by colour.
struct Way {
    mix: usize,
    groups: Vec<u32>,
    cells: Vec<(usize, u32)>,
    step: usize,
    length: i64,
}

/// The best plan of all; `None` where the order is too large to look at every plan. `units` are the fewest by colour.
pub fn exact(ready: &Ready<'_>, least: &[Option<Least>], units: &[u32]) -> Option<Amounts> {
    let high: Vec<u32> = ready.high.concat();
    let low: Vec<u32> = ready.low.concat();
    let grid = Grid::new(&high, PLACES)?;
    let ways = ways(ready, &grid)?;
    let by_colour: Option<Vec<&Least>> = least.iter().map(Option::as_ref).collect();
    let by_colour = by_colour?;
    let rolls = |colour: usize| ready.problem.buy.bought(units[colour], ready.problem.colours[colour].minimum);
    let most = (0..units.len()).map(|colour| {
        let bought = rolls(colour);
        if ready.problem.buy.whole { ready.usable * i64::from(bought) } else { ready.problem.buy.holds(bought) }
    });
    let wanted: Vec<usize> =
        (0..grid.size).filter(|place| grid.products(*place).iter().zip(&low).all(|(here, low)| here >= low)).collect();
    let mut search = Search {
        ready,
        grid,
        ways,
        weights: by_colour
            .iter()
            .enumerate()
            .map(|(colour, least)| Weights::all(ready, least, rolls(colour)))
            .collect(),
        by_colour,
        most: most.collect(),
        bought: units.iter().enumerate().map(|(colour, units)| ready.bought(*units, colour)).sum(),
        least: vec![],
        best: None,
        surplus: 0,
        steps: 0,
    };
    search.least.push(vec![NEVER; search.grid.size]);
    search.least[0][0] = 0;
    let mut work = 0;
    for lays in 1..=LAYS {
        work += search.grid.size * search.ways.len();
        if work > WORK {
            return None;
        }
        search.spread_once_more();
        search.look(lays, &wanted)?;
        if let Some((_, amounts)) = search.best.take() {
            return Some(amounts);
        }
    }
    None
}

/// Every way of one lay.
fn ways(ready: &Ready<'_>, grid: &Grid) -> Option<Vec<Way>> {
    let sizes = ready.low.first().map_or(0, Vec::len);
    let mut all = Vec::new();
    for (index, mix) in ready.mixes.iter().enumerate() {
        let most: Vec<u32> = ready.high.iter().map(|high| most_groups(mix, high)).collect();
        let mut groups = vec![0; most.len()];
        while next(&mut groups, &most, ready.groups) {
            if all.len() >= WAYS {
                return None;
            }
            let cells: Vec<(usize, u32)> = groups
                .iter()
                .enumerate()
                .filter(|(_, groups)| **groups > 0)
                .flat_map(|(colour, groups)| {
                    mix.sizes.iter().map(move |size| (colour * sizes + size, mix.sets[*size] * groups))
                })
                .collect();
            let length = mix.length * i64::from(groups.iter().sum::<u32>());
            all.push(Way { mix: index, step: grid.step(&cells), groups: groups.clone(), cells, length });
        }
    }
    Some(all)
}

/// Groups of a mix that do not exceed what may be made.
fn most_groups(mix: &super::ready::Usable, room: &[u32]) -> u32 {
    mix.sizes.iter().map(|size| room[*size] / mix.sets[*size]).min().unwrap_or(0)
}

/// The next numbers of groups by colour, of no more than so many in all.
fn next(groups: &mut [u32], most: &[u32], all: u32) -> bool {
    for colour in 0..groups.len() {
        groups[colour] += 1;
        if groups[colour] <= most[colour] && groups.iter().sum::<u32>() <= all {
            return true;
        }
        groups[colour] = 0;
    }
    false
}

struct Search<'a> {
    ready: &'a Ready<'a>,
    grid: Grid,
    ways: Vec<Way>,
    by_colour: Vec<&'a Least>,
    /// Weights by colour that bound the rolls.
    weights: Vec<Vec<Weights>>,
    /// Most length by colour that takes no more than is bought.
    most: Vec<i64>,
    bought: i64,
    least: Vec<Vec<i64>>,
    best: Option<(Worth, Amounts)>,
    /// Products too many of the plans that are followed.
    surplus: u64,
    steps: u32,
}

impl Search<'_> {
    fn spread_once_more(&mut self) {
        let Some(before) = self.least.last() else { return };
        let mut after = before.clone();
        let mut here = self.grid.products(0);
        for (place, length) in before.iter().enumerate() {
            if *length != NEVER {
                for way in self.ways.iter().filter(|way| self.grid.takes(&here, &way.cells)) {
                    let there = &mut after[place + way.step];
                    *there = (*there).min(length + way.length);
                }
            }
            self.grid.next(&mut here);
        }
        self.least.push(after);
    }

    /// Looks at every plan of so many lays; `None` where there are too many.
    fn look(&mut self, lays: usize, wanted: &[usize]) -> Option<()> {
        let mut ends: Vec<usize> = wanted.iter().copied().filter(|end| self.least[lays][*end] != NEVER).collect();
        let low: u64 = self.ready.low.iter().flatten().map(|low| u64::from(*low)).sum();
        let made = |grid: &Grid, end: usize| grid.products(end).iter().map(|made| u64::from(*made)).sum::<u64>();
        ends.sort_by_key(|end| (self.least[lays][*end], made(&self.grid, *end)));
        for end in ends {
            self.surplus = made(&self.grid, end) - low;
            let mut amounts = self.ready.nothing();
            let mut used = vec![0; self.most.len()];
            self.follow(lays, end, 0, usize::MAX, &mut used, &mut amounts)?;
        }
        Some(())
    }

    fn follow(
        &mut self,
        lays: usize,
        place: usize,
        spread: i64,
        before: usize,
        used: &mut [i64],
        amounts: &mut Amounts,
    ) -> Option<()> {
        self.steps += 1;
        if self.steps > STEPS {
            return None;
        }
        if place == 0 {
            let worth = self.ready.worth(amounts);
            if worth.bought <= self.bought && self.best.as_ref().is_none_or(|(best, _)| worth < *best) {
                self.best = Some((worth, amounts.clone()));
            }
            return Some(());
        }
        if lays == 0 || !self.within(place, used, amounts) {
            return Some(());
        }
        let mut next: Vec<(i64, usize)> = (0..self.ways.len().min(before.saturating_add(1)))
            .filter(|way| self.grid.holds(place, &self.ways[*way].cells))
            .map(|way| (self.least[lays - 1][place - self.ways[way].step], way))
            .filter(|(rest, _)| *rest != NEVER)
            .map(|(rest, way)| (spread + self.ways[way].length + rest, way))
            .collect();
        next.sort_unstable();
        for (bound, way) in next {
            if self.best.as_ref().is_some_and(|(best, _)| (bound, self.surplus) >= (best.spread, best.surplus)) {
                break;
            }
            self.add(way, used, amounts, true);
            let (step, length) = (self.ways[way].step, self.ways[way].length);
            self.follow(lays - 1, place - step, spread + length, way, used, amounts)?;
            self.add(way, used, amounts, false);
        }
        Some(())
    }

    fn add(&self, way: usize, used: &mut [i64], amounts: &mut Amounts, more: bool) {
        let way = &self.ways[way];
        let each = self.ready.mixes[way.mix].length;
        for (colour, groups) in way.groups.iter().enumerate() {
            let length = each * i64::from(*groups);
            let there = &mut amounts[way.mix][colour];
            (*there, used[colour]) =
                if more { (*there + groups, used[colour] + length) } else { (*there - groups, used[colour] - length) };
        }
    }

    /// Whether what is still to be made of each colour can stay within what is bought of it.
    fn within(&self, place: usize, used: &[i64], amounts: &Amounts) -> bool {
        let sizes = self.ready.low.first().map_or(0, Vec::len);
        used.iter().enumerate().all(|(colour, used)| {
            let cells: Vec<(usize, u32)> =
                (0..sizes).map(|size| (size, self.grid.at(place, colour * sizes + size))).collect();
            let at = self.by_colour[colour].grid.step(&cells);
            let least = self.by_colour[colour].length(at);
            least.is_some_and(|least| used + least <= self.most[colour])
                && self.weights[colour].iter().all(|weights| weights.within(at, amounts, colour))
        })
    }
}

//! The least that one colour takes, whatever the others do: what is bought is counted by colour.

use super::grid::Grid;
use super::ready::{Amounts, Ready};

/// Places times mixes up to which every number of products is looked at.
const WORK: usize = 24_000_000;
/// Places at most.
const PLACES: usize = 1_500_000;

/// Least rolls and length for every number of products of one colour.
#[derive(Debug)]
pub struct Least {
    /// Products by size.
    pub grid: Grid,
    /// Fewest rolls begun and least used of the last; 0 and the least length where plies may be joined.
    rolls: Vec<(u32, i64)>,
    last: Vec<u16>,
    /// Least length, µm.
    pub length: Vec<i64>,
}

/// What no plies give.
const NEVER: i64 = i64::MAX;

impl Least {
    /// Looks at every number of products of one colour; `None` where there are too many.
    pub fn of(ready: &Ready<'_>, colour: usize) -> Option<Self> {
        let most = PLACES.min(WORK / ready.mixes.len().max(1));
        let grid = Grid::new(&ready.high[colour], most).filter(|_| ready.mixes.len() < usize::from(u16::MAX))?;
        let cells: Vec<Vec<(usize, u32)>> =
            ready.mixes.iter().map(|mix| mix.sizes.iter().map(|size| (*size, mix.sets[*size])).collect()).collect();
        let steps: Vec<usize> = cells.iter().map(|cells| grid.step(cells)).collect();
        let size = grid.size;
        let mut least =
            Least { grid, rolls: vec![(u32::MAX, NEVER); size], last: vec![u16::MAX; size], length: vec![NEVER; size] };
        least.rolls[0] = (0, 0);
        least.length[0] = 0;
        for at in 0..size {
            if least.length[at] == NEVER {
                continue;
            }
            for (index, mix) in ready.mixes.iter().enumerate() {
                if least.grid.fits(at, &cells[index]) {
                    least.reach(ready, at, at + steps[index], index, mix.length);
                }
            }
        }
        Some(least)
    }

    fn reach(&mut self, ready: &Ready<'_>, from: usize, to: usize, index: usize, length: i64) {
        self.length[to] = self.length[to].min(self.length[from] + length);
        let (rolls, used) = self.rolls[from];
        let here = match ready.problem.buy.whole {
            false => (0, used + length),
            true if rolls > 0 && used + length <= ready.usable => (rolls, used + length),
            true => (rolls + 1, length),
        };
        if here < self.rolls[to] {
            self.rolls[to] = here;
            self.last[to] = index as u16;
        }
    }

    /// Fewest units for what is wanted of the colour, and the groups that take no more.
    pub fn best(&self, ready: &Ready<'_>, colour: usize) -> Option<(u32, Vec<u32>)> {
        let low = &ready.low[colour];
        let wanted = |place: &usize| (0..low.len()).all(|size| self.grid.at(*place, size) >= low[size]);
        let reached = (0..self.grid.size).filter(|place| self.length[*place] != NEVER).filter(wanted);
        let mut at = reached.min_by_key(|place| (self.rolls[*place], self.length[*place]))?;
        let units = match ready.problem.buy.whole {
            true => self.rolls[at].0,
            false => ready.problem.buy.joined(self.rolls[at].1),
        };
        let mut groups = vec![0; ready.mixes.len()];
        while at > 0 {
            let index = usize::from(self.last[at]);
            groups[index] += 1;
            let mix = &ready.mixes[index];
            let cells: Vec<(usize, u32)> = mix.sizes.iter().map(|size| (*size, mix.sets[*size])).collect();
            at -= self.grid.step(&cells);
        }
        Some((units, groups))
    }
}

/// Puts the groups of each colour together.
pub fn together(ready: &Ready<'_>, colours: &[Vec<u32>]) -> Amounts {
    (0..ready.mixes.len()).map(|mix| colours.iter().map(|groups| groups[mix]).collect()).collect()
}

/// Weights of the mixes of which the groups of one roll never weigh more than one roll's limit: for a whole number k, a group
/// longer than one part in k + 1 of the roll weighs as if only k such parts could be had (dual feasible functions of Fekete
/// and Schepers). So what all groups weigh bounds the rolls, where their length alone does not.
#[derive(Debug)]
pub struct Weights {
    each: Vec<i64>,
    least: Vec<i64>,
    most: i64,
}

/// What a full roll weighs: divisible by 1 to 5.
const ROLL: i64 = 60;

impl Weights {
    /// The weights for k from 1 to 5, where plies are not joined and no more than so many rolls are bought.
    pub fn all(ready: &Ready<'_>, least: &Least, rolls: u32) -> Vec<Self> {
        let many = if ready.problem.buy.whole { 5 } else { 0 };
        (1..=many).map(|k| Self::new(ready, least, rolls, k)).collect()
    }

    fn new(ready: &Ready<'_>, least: &Least, rolls: u32, k: i64) -> Self {
        let weight = |length: i64| {
            let (parts, rest) = ((k + 1) * length / ready.usable, (k + 1) * length % ready.usable);
            if rest == 0 { parts * ROLL / (k + 1) } else { parts * (ROLL / k) }
        };
        let each: Vec<i64> = ready.mixes.iter().map(|mix| weight(mix.length)).collect();
        let cells: Vec<Vec<(usize, u32)>> =
            ready.mixes.iter().map(|mix| mix.sizes.iter().map(|size| (*size, mix.sets[*size])).collect()).collect();
        let mut table = vec![NEVER; least.grid.size];
        table[0] = 0;
        for at in 0..least.grid.size {
            if table[at] == NEVER {
                continue;
            }
            for (cells, each) in cells.iter().zip(&each).filter(|(cells, _)| least.grid.fits(at, cells)) {
                let there = at + least.grid.step(cells);
                table[there] = table[there].min(table[at] + each);
            }
        }
        Weights { each, least: table, most: ROLL * i64::from(rolls) }
    }

    /// Whether these groups with what is still to be made at a place can come from the rolls bought.
    pub fn within(&self, place: usize, amounts: &Amounts, colour: usize) -> bool {
        let used: i64 = self.each.iter().zip(amounts).map(|(each, groups)| each * i64::from(groups[colour])).sum();
        self.least[place] != NEVER && used + self.least[place] <= self.most
    }
}

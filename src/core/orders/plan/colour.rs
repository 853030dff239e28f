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
    cells: Vec<Cell>,
}

/// The least for one number of products.
#[derive(Debug, Clone, Copy)]
struct Cell {
    /// Fewest rolls begun and least used of the last; 0 and the least length where plies may be joined.
    rolls: (u32, i64),
    /// The mix it ends with.
    last: u16,
    /// Least length, µm.
    length: i64,
}

/// What no plies give.
const NEVER: i64 = i64::MAX;

impl Least {
    /// Looks at every number of products of one colour; `None` where there are too many.
    pub fn of(ready: &Ready<'_>, colour: usize) -> Option<Self> {
        let most = PLACES.min(WORK / ready.mixes.len().max(1));
        let grid = Grid::new(&ready.high[colour], most).filter(|_| ready.mixes.len() < usize::from(u16::MAX))?;
        let products = products(ready);
        let steps: Vec<usize> = products.iter().map(|products| grid.step(products)).collect();
        let mut cells = vec![Cell { rolls: (u32::MAX, NEVER), last: u16::MAX, length: NEVER }; grid.size];
        cells[0] = Cell { rolls: (0, 0), last: u16::MAX, length: 0 };
        let mut here = grid.products(0);
        for at in 0..grid.size {
            let from = cells[at];
            if from.length != NEVER {
                for (index, mix) in ready.mixes.iter().enumerate() {
                    if grid.takes(&here, &products[index]) {
                        reach(ready, from, &mut cells[at + steps[index]], (index, mix.length));
                    }
                }
            }
            grid.next(&mut here);
        }
        Some(Least { grid, cells })
    }

    /// Least length of some products, µm; none where nothing gives exactly these.
    pub fn length(&self, place: usize) -> Option<i64> {
        Some(self.cells[place].length).filter(|length| *length != NEVER)
    }

    /// Fewest units for what is wanted of the colour, and the groups that take no more.
    pub fn best(&self, ready: &Ready<'_>, colour: usize) -> Option<(u32, Vec<u32>)> {
        let low = &ready.low[colour];
        let wanted = |place: &usize| (0..low.len()).all(|size| self.grid.at(*place, size) >= low[size]);
        let reached = (0..self.grid.size).filter(|place| self.length(*place).is_some()).filter(wanted);
        let mut at = reached.min_by_key(|place| (self.cells[*place].rolls, self.cells[*place].length))?;
        let units = match ready.problem.buy.whole {
            true => self.cells[at].rolls.0,
            false => ready.problem.buy.joined(self.cells[at].rolls.1),
        };
        let products = products(ready);
        let mut groups = vec![0; ready.mixes.len()];
        while at > 0 {
            let index = usize::from(self.cells[at].last);
            groups[index] += 1;
            at -= self.grid.step(&products[index]);
        }
        Some((units, groups))
    }
}

/// Products by size of every mix, of the sizes that it holds.
fn products(ready: &Ready<'_>) -> Vec<Vec<(usize, u32)>> {
    ready.mixes.iter().map(|mix| mix.sizes.iter().map(|size| (*size, mix.sets[*size])).collect()).collect()
}

/// From some products to those with one more group of a mix.
fn reach(ready: &Ready<'_>, from: Cell, to: &mut Cell, (index, length): (usize, i64)) {
    to.length = to.length.min(from.length + length);
    let (rolls, used) = from.rolls;
    let here = match ready.problem.buy.whole {
        false => (0, used + length),
        true if rolls > 0 && used + length <= ready.usable => (rolls, used + length),
        true => (rolls + 1, length),
    };
    if here < to.rolls {
        to.rolls = here;
        to.last = index as u16;
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
        let cells = products(ready);
        let mut table = vec![NEVER; least.grid.size];
        table[0] = 0;
        let steps: Vec<usize> = cells.iter().map(|cells| least.grid.step(cells)).collect();
        let mut here = least.grid.products(0);
        for at in 0..least.grid.size {
            let so_far = table[at];
            if so_far != NEVER {
                for index in (0..cells.len()).filter(|index| least.grid.takes(&here, &cells[*index])) {
                    let there = &mut table[at + steps[index]];
                    *there = (*there).min(so_far + each[index]);
                }
            }
            least.grid.next(&mut here);
        }
        Weights { each, least: table, most: ROLL * i64::from(rolls) }
    }

    /// Whether these groups with what is still to be made at a place can come from the rolls bought.
    pub fn within(&self, place: usize, amounts: &Amounts, colour: usize) -> bool {
        let used: i64 = self.each.iter().zip(amounts).map(|(each, groups)| each * i64::from(groups[colour])).sum();
        self.least[place] != NEVER && used + self.least[place] <= self.most
    }
}

//! Tables over every order of up to four sizes and forty products at once, made in another way than plans are. Also
//! compiled into the bench of plans.

use backtack_core::orders::plan::{Buy, Demand, Length, Mix, Problem, Worth};
use backtack_core::units::Rational;

/// A millimetre in µm.
pub const MM: i64 = 1_000;
/// A metre in µm.
pub const M: i64 = 1_000_000;

/// Fabric bought by the roll, plies not spliced.
pub fn rolls(unit: i64) -> Buy {
    Buy { unit, keep: Rational::ONE, whole: true, overlap: 0, reserve: 0 }
}

/// One colour, an exact number of each size.
pub fn problem(low: &[u32], plies: u32, buy: Buy) -> Problem {
    let colours = vec![Demand { low: low.to_vec(), high: low.to_vec(), minimum: 0 }];
    Problem { colours, plies, step: 1, multiple: 1, ends: 0, table: None, products: None, gap: None, shortest: 0, buy }
}

/// Lengths of mixes as a lay would have them: areas side by side, with less waste the more lie together.
pub fn uneven(mix: &Mix) -> Length {
    let areas = [410, 530, 640, 790, 860, 930, 990, 1080];
    let sum: i64 = mix.sets.iter().zip(areas).map(|(sets, area)| i64::from(*sets) * area).sum();
    let count = i64::from(mix.count());
    let odd = mix.sets.iter().enumerate().map(|(at, sets)| (i64::from(*sets) * (at as i64 * 7 + 3)) % 11).sum::<i64>();
    Length::Known((sum + 160 / count + odd * 9) * MM)
}

/// Every list of numbers with no more than `most` in all.
pub fn every(cells: usize, most: u32) -> Vec<Vec<u32>> {
    let mut all = vec![vec![]];
    for _ in 0..cells {
        let longer = |list: &Vec<u32>| {
            let left = most - list.iter().sum::<u32>();
            (0..=left).map(|next| [list.as_slice(), &[next]].concat()).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(longer).collect();
    }
    all
}

/// Orders, and where each stands.
pub struct Orders {
    /// Every order.
    pub list: Vec<Vec<u32>>,
    places: Vec<u32>,
    base: usize,
}

impl Orders {
    /// Every order of so many sizes and up to so many products.
    pub fn new(sizes: usize, most: u32) -> Self {
        let list = every(sizes, most);
        let base = most as usize + 1;
        let mut orders = Orders { places: vec![u32::MAX; base.pow(sizes as u32)], list, base };
        for at in 0..orders.list.len() {
            let rank = orders.rank(&orders.list[at]);
            orders.places[rank] = at as u32;
        }
        orders
    }

    fn rank(&self, order: &[u32]) -> usize {
        order.iter().fold(0, |rank, count| rank * self.base + *count as usize)
    }

    /// The place of what is left of an order when some groups of a mix are taken off.
    fn without(&self, at: usize, sets: &[u32], groups: u32) -> Option<usize> {
        let order = &self.list[at];
        let enough = order.iter().zip(sets).all(|(order, sets)| *order >= sets * groups);
        enough.then(|| self.places[self.rank(order) - self.rank(sets) * groups as usize] as usize)
    }

    /// For each order, lays and length spread, each pair better in one than the others. Mix by mix and group by group, where
    /// a plan goes lay by lay.
    pub fn spread(&self, mixes: &[(Mix, Length)], plies: u32) -> Vec<Vec<(u32, i64)>> {
        let mut best: Vec<Vec<(u32, i64)>> = vec![vec![]; self.list.len()];
        best[0] = vec![(0, 0)];
        for (mix, length) in mixes {
            let before = best.clone();
            for (at, there) in best.iter_mut().enumerate() {
                for groups in 1.. {
                    let Some(from) = self.without(at, &mix.sets, groups) else { break };
                    let (lays, length) = (groups.div_ceil(plies), length.get() * i64::from(groups));
                    there.extend(before[from].iter().map(|(l, s)| (l + lays, s + length)));
                }
                there.sort_unstable();
                let mut least = i64::MAX;
                there.retain(|(_, length)| {
                    let better = *length < least;
                    least = least.min(*length);
                    better
                });
            }
        }
        best
    }

    /// For each order, the fewest rolls where plies are not joined: by everything that one roll can give.
    pub fn rolls(&self, spread: &[Vec<(u32, i64)>], usable: i64) -> Vec<u32> {
        let one = |at: &usize| spread[*at].iter().any(|(_, length)| *length <= usable);
        let given: Vec<&Vec<u32>> = (1..self.list.len()).filter(one).map(|at| &self.list[at]).collect();
        let mut rolls = vec![u32::MAX; self.list.len()];
        rolls[0] = 0;
        // Orders stand so that each comes after whatever is less in every size.
        for at in 1..self.list.len() {
            let from = given.iter().filter_map(|given| self.without(at, given, 1));
            rolls[at] = from.map(|from| rolls[from].saturating_add(1)).min().unwrap_or(u32::MAX);
        }
        rolls
    }
}

/// The best of an order where plies may be joined anywhere.
pub fn joined(spread: &[(u32, i64)], unit: i64) -> Worth {
    let of = |(lays, spread): &(u32, i64)| Worth {
        bought: (spread + unit - 1) / unit * unit,
        lays: *lays,
        spread: *spread,
        surplus: 0,
    };
    spread.iter().map(of).min().unwrap()
}

/// 8 sizes in 6 colourways, 3 % over, of which the middle ones sell most.
pub fn large(plies: u32, buy: Buy) -> Problem {
    let share = [3, 7, 11, 13, 12, 8, 5, 2];
    let colour = |colour: u32| {
        let low: Vec<u32> =
            share.iter().enumerate().map(|(at, share)| share * (9 + 2 * colour) + at as u32 % 3).collect();
        Demand { high: low.iter().map(|low| low + low * 3 / 100).collect(), low, minimum: 0 }
    };
    Problem { colours: (0..6).map(colour).collect(), ends: 40 * MM, ..problem(&[1], plies, buy) }
}

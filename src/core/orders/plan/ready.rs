//! A problem of cutting with what follows from it, ready for the search.

use crate::words::words;

use super::pack::{Kind, bound, longest_first, rolls};
use super::problem::{Length, Mix, Problem, Unplannable, Worth};

words! {
    SIZES_DIFFER "plan.sizes-differ" = "sizes of demand and mixes differ, or a lay has no length";
    NO_PLIES "plan.no-plies" = "a lay has at least one group of plies";
    NOTHING_USABLE "plan.nothing-usable" = "nothing of the fabric can be used, or a mix is no multiple";
    SPLICE_TOO_LONG "plan.splice-too-long" = "a splice loses more than a roll holds";
}

/// A mix that can be spread.
#[derive(Debug, Clone)]
pub struct Usable {
    /// Which of the mixes given.
    pub index: usize,
    /// Products by size in one group of plies.
    pub sets: Vec<u32>,
    /// Sizes it holds.
    pub sizes: Vec<usize>,
    /// Length of one group of plies, ends included, µm.
    pub length: i64,
}

/// Groups of plies by usable mix, then by colour.
pub type Amounts = Vec<Vec<u32>>;

/// A problem with what follows from it.
#[derive(Debug)]
pub struct Ready<'a> {
    /// The problem.
    pub problem: &'a Problem,
    /// Mixes that fit on the table and the roll.
    pub mixes: Vec<Usable>,
    /// At least, by colour and size.
    pub low: Vec<Vec<u32>>,
    /// At most, by colour and size.
    pub high: Vec<Vec<u32>>,
    /// Colours and sizes whose upper limit no number of plies meets; it was raised.
    pub raised: Vec<(usize, usize)>,
    /// Most groups of plies in one lay.
    pub groups: u32,
    /// Usable length of one roll, µm.
    pub usable: i64,
}

impl<'a> Ready<'a> {
    /// Looks at what can be spread at all.
    ///
    /// # Errors
    /// If the problem is malformed or a wanted size fits in no lay.
    pub fn new(problem: &'a Problem, mixes: &[(Mix, Length)]) -> Result<Self, Unplannable> {
        let sizes = checked(problem, mixes)?;
        let usable = problem.buy.usable();
        let mut ready = Ready {
            problem,
            mixes: Vec::new(),
            low: problem.colours.iter().map(|one| one.low.clone()).collect(),
            high: problem.colours.iter().map(|one| one.high.clone()).collect(),
            raised: Vec::new(),
            groups: problem.plies / problem.step,
            usable,
        };
        let on_table = |ply: i64| ply < i64::MAX && problem.table.is_none_or(|table| ply <= table);
        let most = problem.most().unwrap_or(u32::MAX);
        for (index, (mix, length)) in mixes.iter().enumerate() {
            let ply = length.get().saturating_add(problem.ends);
            let group = ply.saturating_mul(i64::from(problem.step));
            if on_table(ply) && (group <= usable || !problem.buy.whole) && (1..=most).contains(&mix.count()) {
                let sizes = (0..sizes).filter(|size| mix.sets[*size] > 0).collect();
                ready.mixes.push(Usable { index, sets: mix.sets.clone(), sizes, length: group });
            }
        }
        for size in 0..sizes {
            let wanted = ready.low.iter().any(|low| low[size] > 0);
            let multiple =
                |sets: &[u32]| sets[size] == problem.multiple && sets.iter().sum::<u32>() == problem.multiple;
            if wanted && !ready.mixes.iter().any(|mix| multiple(&mix.sets)) {
                let fits = |(mix, length): &(Mix, Length)| {
                    multiple(&mix.sets) && on_table(length.get().saturating_add(problem.ends))
                };
                let table = !mixes.iter().any(fits);
                return Err(if table { Unplannable::Table { size } } else { Unplannable::Roll { size } });
            }
        }
        ready.raise();
        Ok(ready)
    }

    /// Raises upper limits below which no number of plies comes out.
    fn raise(&mut self) {
        let multiple = self.problem.multiple;
        for (colour, (low, high)) in self.low.iter().zip(&mut self.high).enumerate() {
            for (size, (low, high)) in low.iter().zip(high).enumerate() {
                let least = low.div_ceil(multiple) * multiple;
                if *high < least {
                    *high = least;
                    self.raised.push((colour, size));
                }
                *high -= *high % multiple;
            }
        }
    }

    /// Products made, by colour and size.
    pub fn made(&self, amounts: &Amounts) -> Vec<Vec<u32>> {
        let mut made: Vec<Vec<u32>> = self.low.iter().map(|low| vec![0; low.len()]).collect();
        for (mix, groups) in self.mixes.iter().zip(amounts) {
            for (made, groups) in made.iter_mut().zip(groups) {
                mix.sizes.iter().for_each(|size| made[*size] += mix.sets[*size] * groups);
            }
        }
        made
    }

    /// No groups of anything.
    pub fn nothing(&self) -> Amounts {
        vec![vec![0; self.low.len()]; self.mixes.len()]
    }

    /// Lays spread.
    pub fn lays(&self, amounts: &Amounts) -> u32 {
        amounts.iter().map(|groups| groups.iter().sum::<u32>().div_ceil(self.groups)).sum()
    }

    /// Groups of plies of one colour, by length.
    pub fn kinds(&self, amounts: &Amounts, colour: usize) -> Vec<Kind> {
        let of = |(index, groups): (usize, &Vec<u32>)| Kind {
            mix: index,
            length: self.mixes[index].length,
            count: groups[colour],
        };
        amounts.iter().enumerate().map(of).filter(|kind| kind.count > 0).collect()
    }

    /// Length spread of one colour, µm.
    pub fn spread(&self, amounts: &Amounts, colour: usize) -> i64 {
        self.mixes.iter().zip(amounts).map(|(mix, groups)| mix.length * i64::from(groups[colour])).sum()
    }

    /// Units needed for one colour.
    pub fn units(&self, amounts: &Amounts, colour: usize) -> u32 {
        match self.problem.buy.whole {
            true => rolls(&self.kinds(amounts, colour), self.usable).len() as u32,
            false => self.problem.buy.joined(self.spread(amounts, colour)),
        }
    }

    /// Length bought for one colour that needs some units, µm.
    pub fn bought(&self, units: u32, colour: usize) -> i64 {
        let units = self.problem.buy.bought(units, self.problem.colours[colour].minimum);
        self.problem.buy.unit.saturating_mul(i64::from(units))
    }

    /// What a plan is worth at best, without packing its rolls.
    pub fn at_least(&self, amounts: &Amounts) -> Worth {
        let units = |colour: usize| match self.problem.buy.whole {
            true => bound(&longest_first(self.kinds(amounts, colour)), self.usable),
            false => self.problem.buy.joined(self.spread(amounts, colour)),
        };
        self.worth_with(amounts, units)
    }

    /// What a plan is worth.
    pub fn worth(&self, amounts: &Amounts) -> Worth {
        self.worth_with(amounts, |colour| self.units(amounts, colour))
    }

    fn worth_with(&self, amounts: &Amounts, units: impl Fn(usize) -> u32) -> Worth {
        let colours = 0..self.low.len();
        let made = self.made(amounts);
        let surplus = made.iter().flatten().zip(self.low.iter().flatten());
        Worth {
            bought: colours.clone().map(|colour| self.bought(units(colour), colour)).sum(),
            lays: self.lays(amounts),
            spread: colours.map(|colour| self.spread(amounts, colour)).sum(),
            surplus: surplus.map(|(made, low)| u64::from(made.saturating_sub(*low))).sum(),
        }
    }
}

/// The number of sizes of a well-formed problem.
fn checked(problem: &Problem, mixes: &[(Mix, Length)]) -> Result<usize, Unplannable> {
    let sizes = problem.colours.first().map_or(0, |one| one.low.len());
    let same = |one: &super::problem::Demand| one.low.len() == sizes && one.high.len() == sizes;
    let lengths = mixes.iter().all(|(mix, length)| mix.sets.len() == sizes && length.get() > 0);
    let multiples = || mixes.iter().flat_map(|(mix, _)| &mix.sets).all(|sets| sets % problem.multiple == 0);
    if sizes == 0 || !problem.colours.iter().all(same) || !lengths {
        return Err(Unplannable::Malformed(SIZES_DIFFER));
    }
    if problem.step == 0 || problem.multiple == 0 || problem.plies < problem.step {
        return Err(Unplannable::Malformed(NO_PLIES));
    }
    if problem.buy.usable() <= 0 || problem.ends < 0 || problem.buy.overlap < 0 || !multiples() {
        return Err(Unplannable::Malformed(NOTHING_USABLE));
    }
    if !problem.buy.whole && problem.buy.overlap >= problem.buy.usable() {
        return Err(Unplannable::Malformed(SPLICE_TOO_LONG));
    }
    Ok(sizes)
}

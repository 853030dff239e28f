//! Long lays: shorter ones joined end to end, up to the table. The length of a joined lay is the sum of its parts with the gap
//! between them, so it can be spread as it is, and no search is hoped for.

use std::collections::BTreeMap;

use super::grid::Grid;
use super::problem::{Length, Mix, Problem};

/// Joined mixes at most that are looked at beside those that are laid by themselves.
pub const LONG: usize = 400;

/// Every mix: those that are laid by themselves, then those that can only be joined of them.
#[derive(Debug)]
pub struct Joined {
    /// The mixes.
    pub mixes: Vec<Mix>,
    /// By mix: a part laid by itself, and the mix that is left without it.
    ways: Vec<Vec<(usize, usize)>>,
    /// The order in which a mix comes after all that are less.
    order: Vec<usize>,
    gap: i64,
}

/// The length of a mix and the parts it is joined of, which are laid by themselves; none where it cannot be had.
pub type Chain = Option<(i64, Vec<usize>)>;

impl Joined {
    /// What can be joined of mixes that are laid by themselves, where the problem lets lays be joined.
    pub fn of(problem: &Problem, own: &[(Mix, Length)]) -> Self {
        let mut mixes: Vec<Mix> = own.iter().map(|(mix, _)| mix.clone()).collect();
        let Some(gap) = problem.gap else {
            let order = (0..mixes.len()).collect();
            return Joined { ways: vec![Vec::new(); mixes.len()], mixes, order, gap: 0 };
        };
        let mut known: BTreeMap<Mix, usize> = mixes.iter().cloned().zip(0..).collect();
        for mix in long(problem, own, gap) {
            if !known.contains_key(&mix) {
                known.insert(mix.clone(), mixes.len());
                mixes.push(mix);
            }
        }
        let ways = mixes.iter().map(|mix| ways(mix, own, &known)).collect();
        let mut order: Vec<usize> = (0..mixes.len()).collect();
        order.sort_by_key(|at| (mixes[*at].count(), *at));
        Joined { mixes, ways, order, gap }
    }

    /// The shortest length of every mix by the lengths of what is laid by itself, with the parts it is joined of.
    pub fn lengths(&self, own: &[Option<i64>]) -> Vec<Chain> {
        // The length, and the part it ends with beside what is before it.
        let mut best: Vec<Best> =
            (0..self.mixes.len()).map(|at| own.get(at).copied().flatten().map(|length| (length, None))).collect();
        for at in &self.order {
            for (part, rest) in &self.ways[*at] {
                let (Some(Some(first)), Some((second, _))) = (own.get(*part), best[*rest]) else { continue };
                let length = first.saturating_add(self.gap).saturating_add(second);
                if best[*at].is_none_or(|(known, _)| length < known) {
                    best[*at] = Some((length, Some((*part, *rest))));
                }
            }
        }
        (0..best.len()).map(|at| Some((best[at]?.0, parts(&best, at)))).collect()
    }
}

/// The shortest length known of a mix, with the part it ends with and the mix before that, where it is joined.
type Best = Option<(i64, Option<(usize, usize)>)>;

/// The parts of a mix, the first first.
fn parts(best: &[Best], at: usize) -> Vec<usize> {
    let (mut at, mut all) = (at, Vec::new());
    while let Some((_, Some((part, rest)))) = best[at] {
        all.push(part);
        at = rest;
    }
    all.push(at);
    all.sort_unstable_by(|a, b| b.cmp(a));
    all
}

/// Every part of a mix that is laid by itself and leaves a mix that is known.
fn ways(mix: &Mix, own: &[(Mix, Length)], known: &BTreeMap<Mix, usize>) -> Vec<(usize, usize)> {
    let without = |part: &Mix| -> Option<Mix> {
        let left = mix.sets.iter().zip(&part.sets).map(|(all, part)| all.checked_sub(*part));
        left.collect::<Option<Vec<u32>>>().map(|sets| Mix { sets })
    };
    let way = |(part, (one, length)): (usize, &(Mix, Length))| {
        (*length != Length::Never).then(|| Some((part, *known.get(&without(one)?)?)))?
    };
    own.iter().enumerate().filter_map(way).collect()
}

/// Mixes that only joined lays hold: every one where there are few, else repeats of each mix.
fn long(problem: &Problem, own: &[(Mix, Length)], gap: i64) -> Vec<Mix> {
    let repeats: Vec<Vec<Mix>> = own.iter().filter_map(|(mix, _)| repeats(problem, own, mix, gap)).collect();
    let sizes = own.first().map_or(0, |(mix, _)| mix.sets.len());
    let most = |size: usize| repeats.iter().flatten().filter(|mix| mix.is_plain()).map(|mix| mix.sets[size]).max();
    let high: Vec<u32> = (0..sizes).map(|size| most(size).unwrap_or(0)).collect();
    let steps: Vec<u32> = high.iter().map(|high| high / problem.multiple).collect();
    if let Some(grid) = Grid::new(&steps, LONG) {
        let mix = |at: usize| Mix { sets: grid.products(at).iter().map(|steps| steps * problem.multiple).collect() };
        let fits = |mix: &Mix| problem.most().is_none_or(|most| mix.count() <= most);
        return (1..grid.size).map(mix).filter(fits).collect();
    }
    // First what one lay of a size does with, then the others, those of the fewest products first.
    let (mut all, others): (Vec<Mix>, Vec<Mix>) = repeats.into_iter().flatten().partition(|mix| meets(problem, mix));
    all.truncate(LONG / 2);
    let room = LONG - all.len();
    all.extend(others.into_iter().take(room));
    all
}

/// Whether a mix of one size gives every colour what it wants of that size, and no more than it may have.
fn meets(problem: &Problem, mix: &Mix) -> bool {
    let whole =
        |(sets, (low, high)): (&u32, (&u32, &u32))| *sets == 0 || low.div_ceil(*sets).saturating_mul(*sets) <= *high;
    let met = |one: &super::Demand| mix.sets.iter().zip(one.low.iter().zip(&one.high)).all(whole);
    mix.is_plain() && problem.colours.iter().all(met)
}

/// A mix one, two and more times, as long as they fit and somebody wants them; none of a mix that itself repeats a smaller one.
fn repeats(problem: &Problem, own: &[(Mix, Length)], mix: &Mix, gap: i64) -> Option<Vec<Mix>> {
    let times = |count: u32| Mix { sets: mix.sets.iter().map(|sets| sets * count).collect() };
    let common = mix.sets.iter().fold(0, |all, sets| divisor(all, *sets));
    if common != problem.multiple {
        return None;
    }
    // Without a table or a roll only what is wanted bounds a lay.
    let longest = problem.longest().unwrap_or(i64::MAX / 2);
    let wanted = |mix: &Mix| {
        let enough = |one: &super::Demand| {
            mix.sets.iter().zip(&one.high).all(|(sets, high)| *sets <= (*high).max(problem.multiple))
        };
        problem.colours.iter().any(enough)
    };
    let few = |mix: &Mix| problem.most().is_none_or(|most| mix.count() <= most);
    // The bound of every number of times, from what is laid by itself.
    let laid: BTreeMap<&Mix, i64> = own.iter().map(|(mix, length)| (mix, length.get())).collect();
    let (mut best, mut all): (Vec<i64>, Vec<Mix>) = (vec![-gap], Vec::new());
    for count in 1.. {
        let here = times(count);
        let joined = (1..=count).filter_map(|one| {
            let (first, rest) = (laid.get(&times(one))?, best[(count - one) as usize]);
            Some(first.saturating_add(gap).saturating_add(rest))
        });
        let Some(length) = joined.min().filter(|length| *length <= longest) else { break };
        if !wanted(&here) || !few(&here) {
            break;
        }
        best.push(length);
        all.push(here);
    }
    Some(all)
}

/// The greatest common divisor.
fn divisor(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { divisor(b, a % b) }
}

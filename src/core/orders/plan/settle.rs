//! Plans and lays in turn, until what is planned is laid.

use super::problem::{Length, Mix, Problem, Unplannable};
use super::{Plan, solve};

/// A plan whose mixes are all laid, with the plain one beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settled {
    /// Every mix looked at, with what is known of its length.
    pub mixes: Vec<(Mix, Length)>,
    /// The plan.
    pub plan: Plan,
    /// The plan with one size a lay.
    pub plain: Plan,
    /// Whether no mix that was not laid could make less be bought, or as little in fewer lays.
    pub complete: bool,
}

/// Plans, has the chosen mixes laid, and plans again, until every chosen mix is laid, or what is laid buys no more and takes no
/// more lays than what is hoped for: no mix that was looked at is better then, but for fabric that is bought anyway. After
/// `rounds` the plan is made of what is laid. `lay` gives the length of a lay in µm without the ends, or `None` where it
/// cannot be laid.
///
/// # Errors
/// As [`solve`].
pub fn settle(
    problem: &Problem,
    mixes: Vec<(Mix, Length)>,
    lay: &mut dyn FnMut(&Mix) -> Option<i64>,
    rounds: usize,
) -> Result<Settled, Unplannable> {
    let mut work = Work { problem, mixes, lay };
    // One product of each size is always laid: a plan can always be made of it.
    let wanted = |size: usize| problem.colours.iter().any(|one| one.low[size] > 0);
    let sizes: Vec<bool> = (0..problem.colours.first().map_or(0, |one| one.low.len())).map(wanted).collect();
    work.measure(|mix| {
        let asked = |(size, sets): (usize, &u32)| *sets > 0 && sizes.get(size) == Some(&true);
        mix.count() == problem.multiple && mix.sets.iter().enumerate().any(asked)
    });
    let (plan, complete) = work.settled(|_| true, rounds)?;
    let (plain, _) = work.settled(Mix::is_plain, rounds)?;
    Ok(Settled { mixes: work.mixes, plan, plain, complete })
}

struct Work<'a> {
    problem: &'a Problem,
    mixes: Vec<(Mix, Length)>,
    lay: &'a mut dyn FnMut(&Mix) -> Option<i64>,
}

impl Work<'_> {
    /// The plan over some of the mixes, laid; and whether none of the others could be better.
    fn settled(&mut self, which: impl Fn(&Mix) -> bool, rounds: usize) -> Result<(Plan, bool), Unplannable> {
        let is_known = |length: &Length| matches!(length, Length::Known(_));
        for _ in 0..rounds {
            let hoped = self.solved(|mix, _| which(mix))?;
            if hoped.lays.iter().all(|spread| is_known(&self.mixes[spread.mix].1)) {
                return Ok((hoped, true));
            }
            let sure = self.solved(|mix, length| which(mix) && is_known(length))?;
            if (sure.worth.bought, sure.worth.lays) <= (hoped.worth.bought, hoped.worth.lays) {
                return Ok((sure, true));
            }
            let chosen: Vec<Mix> = hoped.lays.iter().map(|spread| self.mixes[spread.mix].0.clone()).collect();
            self.measure(|mix| chosen.contains(mix));
        }
        Ok((self.solved(|mix, length| which(mix) && is_known(length))?, false))
    }

    /// The plan over some of the mixes, by their places among all.
    fn solved(&self, which: impl Fn(&Mix, &Length) -> bool) -> Result<Plan, Unplannable> {
        let places: Vec<usize> =
            (0..self.mixes.len()).filter(|at| which(&self.mixes[*at].0, &self.mixes[*at].1)).collect();
        let some: Vec<(Mix, Length)> = places.iter().map(|at| self.mixes[*at].clone()).collect();
        let mut plan = solve(self.problem, &some)?;
        plan.lays.iter_mut().for_each(|spread| spread.mix = places[spread.mix]);
        Ok(plan)
    }

    /// Lays some mixes.
    fn measure(&mut self, which: impl Fn(&Mix) -> bool) {
        let thought = |(mix, length): &&mut (Mix, Length)| matches!(length, Length::AtLeast(_)) && which(mix);
        for (mix, length) in self.mixes.iter_mut().filter(thought) {
            *length = (self.lay)(mix).map_or(Length::Never, Length::Known);
        }
    }
}

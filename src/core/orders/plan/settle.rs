//! Plans and lays in turn, until what is planned is laid.

use super::join::{Chain, Joined};
use super::problem::{Length, Mix, Problem, Unplannable};
use super::{Plan, solve};

/// A plan whose mixes are all laid, with the plain one beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settled {
    /// Every mix looked at, with what is known of its length.
    pub mixes: Vec<(Mix, Length)>,
    /// The mixes that the lay of each is joined of, by their places; itself where it is laid by itself.
    pub parts: Vec<Vec<usize>>,
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
/// cannot be laid. What is laid is also joined end to end, where the problem has a gap for it.
///
/// # Errors
/// As [`solve`].
pub fn settle(
    problem: &Problem,
    mixes: Vec<(Mix, Length)>,
    lay: &mut dyn FnMut(&Mix) -> Option<i64>,
    rounds: usize,
) -> Result<Settled, Unplannable> {
    let joined = Joined::of(problem, &mixes);
    let mut work = Work { problem, joined, own: mixes, lay };
    // One product of each size is always laid: a plan can always be made of it.
    let wanted = |size: usize| problem.colours.iter().any(|one| one.low[size] > 0);
    let sizes: Vec<bool> = (0..problem.colours.first().map_or(0, |one| one.low.len())).map(wanted).collect();
    work.measure(|_, mix| {
        let asked = |(size, sets): (usize, &u32)| *sets > 0 && sizes.get(size) == Some(&true);
        mix.count() == problem.multiple && mix.sets.iter().enumerate().any(asked)
    });
    let (plan, complete) = work.settled(|_, _| true, rounds)?;
    let (plain, _) = work.settled(|mix, _| mix.is_plain(), rounds)?;
    // The plain plan is one of all; a search among very many may miss it.
    let plan = if plain.worth < plan.worth { within(plain.clone(), plan.bound) } else { plan };
    let plan = work.spread_well(plan, rounds);
    let sure = work.lengths(true);
    let bound = work.lengths(false);
    let length = |at: usize| match (&sure[at], &bound[at]) {
        (Some((length, _)), _) => Length::Known(*length),
        (None, Some((length, _))) => Length::AtLeast(*length),
        (None, None) => Length::Never,
    };
    let mixes = work.joined.mixes.iter().cloned().enumerate().map(|(at, mix)| (mix, length(at))).collect();
    let parts = sure.into_iter().map(|one| one.map_or_else(Vec::new, |(_, parts)| parts)).collect();
    Ok(Settled { mixes, parts, plan, plain, complete })
}

/// A plan beside the bound of all plans.
fn within(plan: Plan, bound: (i64, u32)) -> Plan {
    Plan { bound, proved: plan.worth.bought_and_lays() <= bound, ..plan }
}

struct Work<'a> {
    problem: &'a Problem,
    joined: Joined,
    /// What is laid by itself: the first mixes of all.
    own: Vec<(Mix, Length)>,
    lay: &'a mut dyn FnMut(&Mix) -> Option<i64>,
}

impl Work<'_> {
    /// The plan, or one with fewer plies that are too short to spread, where that buys no more.
    fn spread_well(&mut self, plan: Plan, rounds: usize) -> Plan {
        let short = self.short(&plan);
        if short == 0 {
            return plan;
        }
        // One product alone is always looked at: with it what is left over can be cut.
        let (problem, alone) = (self.problem, self.problem.multiple);
        let which = |mix: &Mix, length| mix.count() == alone || problem.is_spread(mix, length);
        match self.settled(which, rounds) {
            Ok((longer, _)) if longer.worth.bought <= plan.worth.bought && self.short(&longer) < short => {
                within(longer, plan.bound)
            }
            _ => plan,
        }
    }

    /// Plies that are too short to spread.
    fn short(&self, plan: &Plan) -> u64 {
        let lengths = self.lengths(true);
        let length = |mix: usize| lengths.get(mix).and_then(Option::as_ref).map_or(0, |(length, _)| *length);
        let short =
            plan.lays.iter().filter(|lay| !self.problem.is_spread(&self.joined.mixes[lay.mix], length(lay.mix)));
        short.flat_map(|lay| &lay.plies).map(|plies| u64::from(*plies)).sum()
    }

    /// The plan over some of the mixes, laid; and whether none of the others could be better.
    fn settled(&mut self, which: impl Fn(&Mix, i64) -> bool, rounds: usize) -> Result<(Plan, bool), Unplannable> {
        for _ in 0..rounds {
            let (sure, bound) = (self.lengths(true), self.lengths(false));
            let hoped = self.solved(&which, &bound)?;
            let same = |chain: usize| sure[chain].as_ref().map(|one| one.0) == bound[chain].as_ref().map(|one| one.0);
            if hoped.lays.iter().all(|spread| same(spread.mix)) {
                return Ok((hoped, true));
            }
            let plan = self.solved(&which, &sure)?;
            if (plan.worth.bought, plan.worth.lays) <= (hoped.worth.bought, hoped.worth.lays) {
                return Ok((plan, true));
            }
            let chosen: Vec<usize> = hoped
                .lays
                .iter()
                .flat_map(|spread| bound[spread.mix].iter().flat_map(|(_, parts)| parts))
                .copied()
                .collect();
            self.measure(|at, _| chosen.contains(&at));
        }
        let sure = self.lengths(true);
        Ok((self.solved(&which, &sure)?, false))
    }

    /// The lengths of all mixes: of what is laid, or as short as hoped.
    fn lengths(&self, sure: bool) -> Vec<Chain> {
        let length = |(_, length): &(Mix, Length)| match length {
            Length::Known(length) => Some(*length),
            Length::AtLeast(length) if !sure => Some(*length),
            Length::AtLeast(_) | Length::Never => None,
        };
        self.joined.lengths(&self.own.iter().map(length).collect::<Vec<_>>())
    }

    /// The plan over some of the mixes, by their places among all.
    fn solved(&self, which: &impl Fn(&Mix, i64) -> bool, lengths: &[Chain]) -> Result<Plan, Unplannable> {
        let mixes = &self.joined.mixes;
        let known = (0..mixes.len()).filter_map(|at| Some((at, lengths[at].as_ref()?.0)));
        let some: Vec<(usize, i64)> = known.filter(|(at, length)| which(&mixes[*at], *length)).collect();
        let given: Vec<(Mix, Length)> =
            some.iter().map(|(at, length)| (mixes[*at].clone(), Length::Known(*length))).collect();
        let mut plan = solve(self.problem, &given)?;
        plan.lays.iter_mut().for_each(|spread| spread.mix = some[spread.mix].0);
        Ok(plan)
    }

    /// Lays some of what is laid by itself.
    fn measure(&mut self, which: impl Fn(usize, &Mix) -> bool) {
        for (at, (mix, length)) in self.own.iter_mut().enumerate() {
            if matches!(length, Length::AtLeast(_)) && which(at, mix) {
                *length = (self.lay)(mix).map_or(Length::Never, Length::Known);
            }
        }
    }
}

use super::mixes::plain;
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
    /// Whether no mix that was not laid could make it better.
    pub complete: bool,
}

/// Plans, has the chosen mixes laid, and plans again, until every chosen mix is laid: no mix that was looked at is better
/// then. After `rounds` the plan is made of what is laid. `lay` gives the length of a lay in µm without the ends, or
/// `None` where it cannot be laid.
///
/// # Errors
/// As [`solve`].
pub fn settle(
    problem: &Problem,
    mixes: Vec<(Mix, Length)>,
    lay: &mut dyn FnMut(&Mix) -> Option<i64>,
    rounds: usize,
) -> Result<Settled, Unplannable> {
    let mut mixes = mixes;
    // One product of each size is always laid: the plain plan needs it, and a plan can always be made of it.
    let wanted = |size: usize| problem.colours.iter().any(|one| one.low[size] > 0);
    let single = |mix: &Mix| mix.is_plain() && mix.count() == problem.multiple;
    let singles = |mix: &Mix| single(mix) && mix.sets.iter().enumerate().any(|(size, sets)| *sets > 0 && wanted(size));
    measure(&mut mixes, lay, singles);
    for _ in 0..rounds {
        let plan = solve(problem, &mixes)?;
        if !measure_chosen(&mut mixes, lay, &plan) {
            return finish(problem, mixes, plan, lay, true);
        }
    }
    let laid: Vec<(Mix, Length)> =
        mixes.iter().filter(|(_, length)| matches!(length, Length::Known(_))).cloned().collect();
    let mut plan = solve(problem, &laid)?;
    for spread in &mut plan.lays {
        spread.mix = mixes.iter().position(|(mix, _)| *mix == laid[spread.mix].0).unwrap_or(spread.mix);
    }
    finish(problem, mixes, plan, lay, false)
}

/// Adds the plain plan. Lays of one size that are only thought of are laid for it.
fn finish(
    problem: &Problem,
    mut mixes: Vec<(Mix, Length)>,
    plan: Plan,
    lay: &mut dyn FnMut(&Mix) -> Option<i64>,
    complete: bool,
) -> Result<Settled, Unplannable> {
    loop {
        let some = plain(&mixes);
        let mut plain = solve(problem, &some)?;
        for spread in &mut plain.lays {
            spread.mix = mixes.iter().position(|(mix, _)| *mix == some[spread.mix].0).unwrap_or(spread.mix);
        }
        if !measure_chosen(&mut mixes, lay, &plain) {
            return Ok(Settled { mixes, plan, plain, complete });
        }
    }
}

/// Lays every mix of a plan that is not laid yet; whether there was one.
fn measure_chosen(mixes: &mut [(Mix, Length)], lay: &mut dyn FnMut(&Mix) -> Option<i64>, plan: &Plan) -> bool {
    let chosen: Vec<Mix> = plan.lays.iter().map(|spread| mixes[spread.mix].0.clone()).collect();
    measure(mixes, lay, |mix| chosen.contains(mix))
}

/// Lays some mixes. Whether there was one to lay.
fn measure(
    mixes: &mut [(Mix, Length)],
    lay: &mut dyn FnMut(&Mix) -> Option<i64>,
    which: impl Fn(&Mix) -> bool,
) -> bool {
    let mut any = false;
    for (mix, length) in mixes.iter_mut().filter(|(mix, length)| matches!(length, Length::AtLeast(_)) && which(mix)) {
        *length = lay(mix).map_or(Length::Never, Length::Known);
        any = true;
    }
    any
}

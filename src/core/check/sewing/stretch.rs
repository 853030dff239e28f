//! Edges that nothing is done with, in rows as they could be sewn, and what they could be sewn to.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::model::assembly::{Instance, Reverse, Run};
use crate::model::{Joint, JointKind};
use crate::source::{Edit, Help};
use crate::words::{say, words};

use super::limits;
use super::text;

words! {
    WRITE_BETWEEN "sewing.stretch.write-between" = "if {part} is caught there by both its plies, write in {joint}: between = [\"{a}\", \"{b}\"]";
    WRITE_CAUGHT "sewing.stretch.write-caught" = "if {part} is caught by both its plies, write in the seam that catches it: between = [\"{a}\", \"{b}\"], with the stretch as `on`";
    WRITE_BESIDE "sewing.stretch.write-beside" = "if it is caught with {ply}, which is its other ply, write in {joint}: between = [\"{a}\", \"{b}\"]";
    WRITE_SEAM "sewing.stretch.write-seam" = "if it is sewn, write a seam: a = \"{a}\", b = \"{b}\"";
    WRITE_OPENING "sewing.stretch.write-opening" = "if {part} is filled here and closed afterwards, write an opening: a = \"{a}\", b = \"{b}\", close.by = \"hand\"; if it is sewn, a seam with the same a and b";
}

/// Unaccounted runs of one instance in a row: neighbours, or joined by seams between them.
#[derive(Debug, Clone)]
pub struct Stretch {
    /// The instance.
    pub instance: usize,
    /// Its runs, walked anticlockwise as drawn.
    pub runs: Vec<Run>,
    /// The points of the sewn surface it begins and ends at.
    pub ends: (usize, usize),
}

/// All of them, by instance.
pub fn stretches(context: &Context<'_>) -> Vec<Stretch> {
    let sewing = &context.assembly.sewing;
    let mut open: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for ((instance, run), account) in &sewing.accounts {
        if account.is_empty() {
            open.entry(*instance).or_default().push(*run);
        }
    }
    open.into_iter().flat_map(|(instance, runs)| rows(&sewing.corners[instance], instance, &runs)).collect()
}

/// Rows among the open runs of one instance, which are numbered round its outline.
fn rows(corners: &[usize], instance: usize, runs: &[usize]) -> Vec<Stretch> {
    let corner = |point: usize| corners[point % corners.len()];
    let mut all: Vec<Stretch> = Vec::new();
    for run in runs {
        let one = Run { instance, run: *run, forward: true };
        match all.last_mut() {
            Some(last) if last.ends.1 == corner(*run) => {
                last.runs.push(one);
                last.ends.1 = corner(run + 1);
            }
            _ => all.push(Stretch { instance, runs: vec![one], ends: (corner(*run), corner(run + 1)) }),
        }
    }
    // The outline is closed: the last row may go on in the first.
    if all.len() > 1
        && all.last().map(|last| last.ends.1) == all.first().map(|first| first.ends.0)
        && let Some(last) = all.pop()
        && let Some(first) = all.first_mut()
    {
        first.runs.splice(0..0, last.runs);
        first.ends.0 = last.ends.0;
    }
    all
}

/// The seam that a forgotten stretch most likely belongs to, as text to write: with one whose ends it meets already,
/// else with the same edge of a mirrored copy, else with the only other one as long. The root of a limb that is sewn otherwise
/// is caught.
pub fn partner(context: &Context<'_>, stretch: &Stretch, all: &[Stretch]) -> Option<Help> {
    if let Some(help) = beside(context, stretch) {
        return Some(help);
    }
    let instances = &context.assembly.instances;
    let me = &instances[stretch.instance];
    let rivals = || {
        all.iter().filter(|other| {
            (other.instance, &other.runs) != (stretch.instance, &stretch.runs) && equal(context, stretch, other)
        })
    };
    let meets = |other: &&Stretch| other.ends == stretch.ends || other.ends == (stretch.ends.1, stretch.ends.0);
    let numbers = |one: &Stretch| one.runs.iter().map(|run| run.run).collect::<Vec<_>>();
    let twin = |other: &&Stretch| {
        let one = &instances[other.instance];
        one.piece == me.piece
            && one.usage == me.usage
            && one.mirrored != me.mirrored
            && numbers(other) == numbers(stretch)
    };
    let sewn = stretch.ends.0 != stretch.ends.1;
    let found = rivals().find(|other| sewn && meets(other)).or_else(|| rivals().find(twin)).or_else(|| {
        let mut one = rivals();
        one.next().filter(|_| one.next().is_none())
    })?;
    let same_way = me.mirrored == instances[found.instance].mirrored;
    let other: Vec<Run> =
        if same_way { found.runs.iter().rev().map(|run| run.turned()).collect() } else { found.runs.clone() };
    let (a, b) = (text::chain(context, &stretch.runs, false), text::chain(context, &other, false));
    if !(sewn && meets(&found) && is_root(context, stretch, all)) {
        let filled =
            context.model.stuffings.values().any(|one| one.part.as_ref().is_some_and(|one| one.value == me.part));
        return Some(match filled && !is_open(context, me) {
            true => say!(WRITE_OPENING, part = &me.part, a, b).into(),
            false => say!(WRITE_SEAM, a, b).into(),
        });
    }
    let part = &me.part;
    let Some((joint, on)) = waiting(context) else { return Some(say!(WRITE_CAUGHT, part, a, b).into()) };
    // The ply that is walked against the seam faces the needle.
    let against = sense(context, &stretch.runs) != sense(context, on);
    let (a, b) = if against { (a, b) } else { (b, a) };
    let edit = Edit::line(joint.entry.span(), format!("between = [\"{a}\", \"{b}\"]"));
    Some(Help::with(say!(WRITE_BETWEEN, part, joint = &joint.entry.id.value, a, b), edit))
}

/// The seam that catches the other ply of a limb, of which this one was forgotten: both begin and end at the same points of the
/// sewn surface.
fn beside(context: &Context<'_>, stretch: &Stretch) -> Option<Help> {
    let corners = &context.assembly.sewing.corners;
    let at = |run: &Run, end: bool| {
        let own = corners.get(run.instance)?;
        own.get((run.run + usize::from(run.forward == end)) % own.len().max(1)).copied()
    };
    let ends = |runs: &[Run]| Some((at(runs.first()?, false)?, at(runs.last()?, true)?));
    let written = context.assembly.joints.iter().filter(|joint| joint.image == Reverse::Written);
    for joint in written {
        for (layer, ply) in joint.caught_layers() {
            let Some((from, to)) = ends(&ply.runs).filter(|(from, to)| from != to) else { continue };
            let runs: Vec<Run> = match stretch.ends {
                one if one == (from, to) => stretch.runs.clone(),
                one if one == (to, from) => stretch.runs.iter().rev().map(|run| run.turned()).collect(),
                _ => continue,
            };
            let (own, other) = (text::chain(context, &runs, false), text::chain(context, &ply.runs, false));
            // The ply that is walked against the seam faces the needle.
            let first = sense(context, &runs) != sense(context, &joint.along(layer).runs);
            let (a, b) = if first { (&own, &other) } else { (&other, &own) };
            return Some(say!(WRITE_BESIDE, ply = &other, joint = &joint.joint, a, b).into());
        }
    }
    None
}

/// A seam that says where something lies, and not what: it has the place for it.
fn waiting<'a>(context: &Context<'a>) -> Option<(&'a Joint, &'a [Run])> {
    context.assembly.joints.iter().filter(|one| one.image == Reverse::Written).find_map(|one| {
        let joint = context.model.joints.get(&one.joint).filter(|joint| joint.between.is_empty())?;
        Some((joint, one.on.as_ref()?.runs.as_slice()))
    })
}

/// Which way round its face the first of some runs is walked.
fn sense(context: &Context<'_>, runs: &[Run]) -> Option<bool> {
    runs.first().map(|run| run.counter_clockwise(&context.assembly.instances))
}

/// Whether the part of a piece has an opening.
fn is_open(context: &Context<'_>, me: &Instance) -> bool {
    let of_mine = |at: usize| {
        let one = &context.assembly.instances[at];
        one.part == me.part && one.usage == me.usage
    };
    context.assembly.joints.iter().any(|joint| {
        let opens = context.model.joints.get(&joint.joint).is_some_and(|one| one.kind == JointKind::Opening);
        opens && joint.a.runs.iter().any(|run| of_mine(run.instance))
    })
}

/// Whether a stretch is all that is left open of a part beside others with pieces: the root of a limb.
fn is_root(context: &Context<'_>, stretch: &Stretch, all: &[Stretch]) -> bool {
    let instances = &context.assembly.instances;
    let me = &instances[stretch.instance];
    let of_mine = |at: usize| instances[at].part == me.part && instances[at].usage == me.usage;
    !me.part.is_empty()
        && instances.iter().any(|one| one.part != me.part)
        && all.iter().filter(|one| of_mine(one.instance)).count() == 2
        && !is_open(context, me)
}

/// Whether two stretches are equally long in every size; never if a length is not known.
fn equal(context: &Context<'_>, one: &Stretch, other: &Stretch) -> bool {
    let assembly = context.assembly;
    context.model.sizes.iter().all(|size| {
        let length = |stretch: &Stretch| assembly.lengths.sum(&assembly.instances, &size.entry.id.value, &stretch.runs);
        length(one).zip(length(other)).is_some_and(|(a, b)| (a - b).abs() <= limits::equal(a.max(b)))
    })
}

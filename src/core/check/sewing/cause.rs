//! Which pieces are the wrong way round, when seams are.
//!
//! Each seam says of two instances that they lie the same way or the opposite way. Where the whole of it has no
//! contradiction, a set of instances turned over puts every seam right, and the smaller of the two sets that do is the
//! cause. Where it has, pieces are turned as long as that leaves fewer wrong seams, and what is left is wrong by itself.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use crate::check::Context;
use crate::model::assembly::Run;

/// Runs of one instance in a joint, against the joint's first run.
#[derive(Debug, Clone, Copy)]
struct Tie {
    from: usize,
    to: usize,
    wrong: bool,
}

/// Instances that are inside out.
pub fn turned(context: &Context<'_>) -> BTreeSet<usize> {
    let ties = ties(context);
    let mut by: BTreeMap<usize, Vec<Tie>> = BTreeMap::new();
    for tie in &ties {
        by.entry(tie.from).or_default().push(*tie);
        by.entry(tie.to).or_default().push(Tie { from: tie.to, to: tie.from, ..*tie });
    }
    let mut left: BTreeSet<usize> = by.keys().copied().collect();
    let mut all = BTreeSet::new();
    while let Some(start) = left.first().copied() {
        let (sides, sound) = coloured(&by, start);
        left.retain(|one| !sides.contains_key(one));
        let first = ties.iter().find(|tie| tie.wrong && sides.contains_key(&tie.from)).map(|tie| tie.from);
        all.extend(if sound { smaller(&sides, first) } else { fewest(&by, &sides) });
    }
    all
}

fn ties(context: &Context<'_>) -> Vec<Tie> {
    let instances = &context.assembly.instances;
    let mut all = Vec::new();
    for joint in &context.assembly.joints {
        let Some(first) = joint.a.runs.first() else { continue };
        let sense = first.counter_clockwise(instances);
        let mut tie = |run: &Run, wanted: bool| {
            if run.instance != first.instance {
                let wrong = run.counter_clockwise(instances) != wanted;
                all.push(Tie { from: first.instance, to: run.instance, wrong });
            }
        };
        joint.a.runs.iter().for_each(|run| tie(run, sense));
        joint.b.runs.iter().for_each(|run| tie(run, !sense));
    }
    all
}

/// Everything that hangs together with `start`, parted in two so that right seams stay within a side and wrong ones go
/// across; and whether that can be done.
fn coloured(by: &BTreeMap<usize, Vec<Tie>>, start: usize) -> (BTreeMap<usize, bool>, bool) {
    let mut sides = BTreeMap::from([(start, false)]);
    let mut queue = VecDeque::from([start]);
    let mut sound = true;
    while let Some(at) = queue.pop_front() {
        let side = sides.get(&at).copied().unwrap_or_default();
        for tie in by.get(&at).into_iter().flatten() {
            match sides.get(&tie.to) {
                Some(other) => sound &= *other == (side != tie.wrong),
                None => {
                    sides.insert(tie.to, side != tie.wrong);
                    queue.push_back(tie.to);
                }
            }
        }
    }
    (sides, sound)
}

/// The smaller side; of two alike, the one without the instance on side `a` of the first wrong seam: whoever writes
/// the second side writes it to fit the first.
fn smaller(sides: &BTreeMap<usize, bool>, first: Option<usize>) -> BTreeSet<usize> {
    let pick = |wanted: bool| sides.iter().filter(|(_, side)| **side == wanted).map(|(one, _)| *one).collect();
    let (one, other): (BTreeSet<usize>, BTreeSet<usize>) = (pick(false), pick(true));
    let tied = one.len() == other.len() && first.is_some_and(|first| other.contains(&first));
    if one.len() < other.len() || tied { one } else { other }
}

/// Passes over all instances that are made before a contradiction is left as it is.
const PASSES: usize = 8;

/// Turns instances as long as more than half of the seams of one are wrong.
fn fewest(by: &BTreeMap<usize, Vec<Tie>>, sides: &BTreeMap<usize, bool>) -> BTreeSet<usize> {
    let mut turned: BTreeSet<usize> = BTreeSet::new();
    for _ in 0..PASSES {
        let before = turned.clone();
        for at in sides.keys() {
            let ties = by.get(at).map_or(&[][..], Vec::as_slice);
            let wrong = |tie: &&Tie| tie.wrong != (turned.contains(&tie.from) != turned.contains(&tie.to));
            let count = ties.iter().filter(wrong).count();
            if count * 2 > ties.len() && !turned.remove(at) {
                turned.insert(*at);
            }
        }
        if before == turned {
            break;
        }
    }
    turned
}

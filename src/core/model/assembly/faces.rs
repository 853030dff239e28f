//! Pieces of fabric without right and wrong side: they are turned over as the seams need them.

use std::collections::BTreeMap;

use crate::model::Model;
use crate::model::mention::turns_over;

use super::{Instance, Resolved, Run};

/// Turns over the pieces that may lie either face up, so that they meet the others right sides together. The copies of such a
/// piece are cut alike; which of them is the other's image is decided by the seams alone.
pub(super) fn turn_over(model: &Model, instances: &mut [Instance], joints: &[Resolved]) {
    let free: Vec<bool> = instances
        .iter()
        .map(|one| model.pieces.get(&one.piece).is_some_and(|piece| turns_over(model, piece)))
        .collect();
    if !free.contains(&true) {
        return;
    }
    // Every other piece lies as it is written, and decides how its neighbours lie.
    let mut turned: BTreeMap<usize, bool> = (0..free.len()).filter(|n| !free[*n]).map(|n| (n, false)).collect();
    loop {
        while joints.iter().any(|joint| settle(instances, joint, &mut turned)) {}
        let Some(next) = (0..free.len()).find(|n| !turned.contains_key(n)) else { break };
        turned.insert(next, false);
    }
    for (one, turned) in instances.iter_mut().zip(turned.into_values()) {
        one.mirrored ^= turned;
    }
}

/// Decides for the pieces of a seam that are not decided, if one of them is; whether it decided any.
fn settle(instances: &[Instance], joint: &Resolved, turned: &mut BTreeMap<usize, bool>) -> bool {
    let of_a = joint.a.runs.iter().map(|run| (run, true));
    let runs: Vec<(&Run, bool)> = of_a.chain(joint.b.runs.iter().map(|run| (run, false))).collect();
    let way = |(run, side): &(&Run, bool)| run.counter_clockwise(instances) == *side;
    let known = runs.iter().find_map(|one| turned.get(&one.0.instance).map(|turned| way(one) != *turned));
    let Some(right) = known else { return false };
    let before = turned.len();
    for one in &runs {
        turned.entry(one.0.instance).or_insert(way(one) != right);
    }
    turned.len() > before
}

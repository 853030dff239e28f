//! Which stretch of one side of a seam lies on which stretch of the other.

use crate::check::Context;
use crate::model::assembly::{Resolved, Run};

/// Pairs of runs that lie on each other for more than a hair, by the share of the way along each side.
pub fn matched(context: &Context<'_>, joint: &Resolved, size: &str) -> Vec<(Run, Run)> {
    let spans = |runs: &[Run]| shares(context, runs, size);
    let (Some(a), Some(b)) = (spans(&joint.a.runs), spans(&joint.b.runs)) else { return Vec::new() };
    let mut all = Vec::new();
    let mut first = 0;
    for (run, start, end) in &a {
        // Both lists run on: what ended before this stretch began is passed for good.
        while b.get(first).is_some_and(|(_, _, stop)| *stop <= start + HAIR) {
            first += 1;
        }
        let over = b.iter().skip(first).take_while(|(_, begin, _)| *begin < end - HAIR);
        all.extend(over.map(|(other, _, _)| (*run, *other)));
    }
    all
}

/// Share of a side below which two stretches only touch.
const HAIR: f64 = 0.02;

/// Each run with the share of the side at which it begins and ends.
fn shares(context: &Context<'_>, runs: &[Run], size: &str) -> Option<Vec<(Run, f64, f64)>> {
    let assembly = context.assembly;
    let total = assembly.lengths.sum(&assembly.instances, size, runs).filter(|total| *total > 0.0)?;
    let mut at = 0.0;
    let mut all = Vec::new();
    for run in runs {
        let start = at;
        at += assembly.lengths.get(&assembly.instances[run.instance].piece, size, run.run)?;
        all.push((*run, start / total, at / total));
    }
    Some(all)
}

//! A lay for each size by itself: one number of products on a ply that meets all colours. A search among very many mixes seldom
//! comes upon it.

use super::problem::Worth;
use super::ready::{Amounts, Ready};

/// For each size the mix of that size alone that needs the fewest lays, then the least fabric, with as many groups of plies as
/// each colour wants; none where a size has no such mix.
pub fn each(ready: &Ready<'_>) -> Option<Amounts> {
    let mut all = ready.nothing();
    let sizes = ready.low.first().map_or(0, Vec::len);
    for size in (0..sizes).filter(|size| ready.low.iter().any(|low| low.get(*size).is_some_and(|low| *low > 0))) {
        let alone = |mix: &usize| ready.mixes.get(*mix).is_some_and(|mix| mix.sizes == [size]);
        let mut best: Option<(Worth, usize, Vec<u32>)> = None;
        for mix in (0..ready.mixes.len()).filter(alone) {
            let Some(groups) = groups(ready, mix, size) else { continue };
            let mut only = ready.nothing();
            if let Some(amounts) = only.get_mut(mix) {
                amounts.clone_from(&groups);
            }
            let worth = ready.at_least(&only);
            let better = |(most, ..): &(Worth, usize, Vec<u32>)| {
                (worth.lays, worth.spread, worth.surplus) < (most.lays, most.spread, most.surplus)
            };
            if best.as_ref().is_none_or(better) {
                best = Some((worth, mix, groups));
            }
        }
        let (_, mix, groups) = best?;
        *all.get_mut(mix)? = groups;
    }
    Some(all)
}

/// Groups of plies of a mix of one size by colour, so that each has what it wants and no more than it may have.
fn groups(ready: &Ready<'_>, mix: usize, size: usize) -> Option<Vec<u32>> {
    let sets = *ready.mixes.get(mix)?.sets.get(size)?;
    let of = |(low, high): (&Vec<u32>, &Vec<u32>)| {
        let (low, high) = (*low.get(size)?, *high.get(size)?);
        let groups = low.div_ceil(sets.max(1));
        (groups.checked_mul(sets)? <= high).then_some(groups)
    };
    ready.low.iter().zip(&ready.high).map(of).collect()
}

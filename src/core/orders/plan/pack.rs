//! Groups of plies on rolls: each comes whole from one roll, and what is left of a roll serves a shorter lay.

/// Groups of plies of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kind {
    /// Which usable mix.
    pub mix: usize,
    /// Length of one, µm.
    pub length: i64,
    /// How many.
    pub count: u32,
}

/// What one roll is cut into: groups by usable mix.
pub type Roll = Vec<(usize, u32)>;

/// States up to which the packing is solved exactly.
const STATES: usize = 40_000;

/// The fewest rolls that give all groups; the fewest found where there are very many kinds and the bound is not met.
/// Each kind must be no longer than a roll.
pub fn rolls(kinds: &[Kind], usable: i64) -> Vec<Roll> {
    let kinds = longest_first(kinds.to_vec());
    let found = filled(&kinds, usable);
    if found.len() as u32 <= bound(&kinds, usable) {
        return found;
    }
    match exact(&kinds, usable) {
        Some(better) if better.len() < found.len() => better,
        _ => found,
    }
}

/// Kinds in the order in which they are packed.
pub fn longest_first(mut kinds: Vec<Kind>) -> Vec<Kind> {
    kinds.sort_by(|a, b| b.length.cmp(&a.length).then(a.mix.cmp(&b.mix)));
    kinds
}

/// No packing has fewer rolls than the length fills, or than any of the longest kinds alone take, where two of them do
/// not share a roll with more than one of each.
pub fn bound(kinds: &[Kind], usable: i64) -> u32 {
    let total: i64 = kinds.iter().map(|kind| kind.length * i64::from(kind.count)).sum();
    let mut least = (total + usable - 1) / usable;
    // Groups at least as long as one kind: no roll gives more of them than of the shortest.
    let mut longer = 0;
    for kind in kinds {
        longer += i64::from(kind.count);
        let each = (usable / kind.length).max(1);
        least = least.max((longer + each - 1) / each);
    }
    u32::try_from(least).unwrap_or(u32::MAX)
}

/// Roll by roll, the longest that still fits first.
fn filled(kinds: &[Kind], usable: i64) -> Vec<Roll> {
    let mut left: Vec<u32> = kinds.iter().map(|kind| kind.count).collect();
    let mut all = Vec::new();
    while left.iter().any(|left| *left > 0) {
        let (mut room, mut roll) = (usable, Roll::new());
        for (kind, left) in kinds.iter().zip(&mut left) {
            let count = u32::try_from(room / kind.length).unwrap_or(u32::MAX).min(*left);
            if count > 0 {
                room -= kind.length * i64::from(count);
                *left -= count;
                roll.push((kind.mix, count));
            }
        }
        if roll.is_empty() {
            break;
        }
        all.push(roll);
    }
    all
}

/// Fewest rolls, by every number of groups of each kind: fewest rolls begun, then least used of the last one. A packing
/// can be made roll by roll, and whatever is better in these two stays better whatever follows.
fn exact(kinds: &[Kind], usable: i64) -> Option<Vec<Roll>> {
    let mut stride = Vec::new();
    let mut size = 1usize;
    for kind in kinds {
        stride.push(size);
        size = size.checked_mul(kind.count as usize + 1).filter(|size| *size <= STATES)?;
    }
    let mut best: Vec<(u32, i64)> = vec![(u32::MAX, 0); size];
    let mut last = vec![usize::MAX; size];
    best[0] = (0, usable);
    for at in 1..size {
        for (index, kind) in kinds.iter().enumerate() {
            if (at / stride[index]) % (kind.count as usize + 1) == 0 {
                continue;
            }
            let (rolls, used) = best[at - stride[index]];
            let here =
                if used + kind.length <= usable { (rolls, used + kind.length) } else { (rolls + 1, kind.length) };
            if here < best[at] {
                best[at] = here;
                last[at] = index;
            }
        }
    }
    Some(traced(kinds, &stride, &best, &last))
}

fn traced(kinds: &[Kind], stride: &[usize], best: &[(u32, i64)], last: &[usize]) -> Vec<Roll> {
    let mut counts: Vec<Vec<u32>> = vec![vec![0; kinds.len()]; best.last().map_or(0, |(rolls, _)| *rolls as usize)];
    let mut at = best.len() - 1;
    while at > 0 {
        let index = last[at];
        if let Some(roll) = counts.get_mut(best[at].0 as usize - 1) {
            roll[index] += 1;
        }
        at -= stride[index];
    }
    let roll =
        |counts: Vec<u32>| kinds.iter().zip(counts).filter(|(_, n)| *n > 0).map(|(kind, n)| (kind.mix, n)).collect();
    counts.into_iter().map(roll).collect()
}

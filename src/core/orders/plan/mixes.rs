//! The mixes of sizes that one lay can hold.

use super::problem::{Length, Mix};

/// Mixes at most that are looked at.
const MOST: usize = 600;

/// Every mix of up to so many products of these sizes, each size in multiples of `multiple`, whose length is no more than
/// `longest`, the ones with fewer products first. Fewer products are allowed where there would be more than 600 mixes.
pub fn mixes(
    sizes: usize,
    multiple: u32,
    most: u32,
    longest: Option<i64>,
    length: &mut dyn FnMut(&Mix) -> Length,
) -> Vec<(Mix, Length)> {
    let mut all = Vec::new();
    let mut count = multiple;
    while count <= most.max(multiple) {
        let mut some = Vec::new();
        divide(sizes, count / multiple, multiple, &mut Vec::new(), &mut some);
        if all.len() + some.len() > MOST && count > multiple {
            break;
        }
        let fits = |length: &Length| longest.is_none_or(|longest| length.get() <= longest);
        all.extend(some.into_iter().map(|mix| (length(&mix), mix)).filter(|(l, _)| fits(l)).map(|(l, mix)| (mix, l)));
        count += multiple;
    }
    all
}

fn divide(sizes: usize, left: u32, multiple: u32, sets: &mut Vec<u32>, all: &mut Vec<Mix>) {
    if sets.len() + 1 == sizes {
        sets.push(left * multiple);
        all.push(Mix { sets: sets.clone() });
        sets.pop();
        return;
    }
    for here in (0..=left).rev() {
        sets.push(here * multiple);
        divide(sizes, left - here, multiple, sets, all);
        sets.pop();
    }
}

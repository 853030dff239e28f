//! Which instance takes the place of another when left and right are exchanged.

use super::Instance;

/// The instance that takes this one's place when left and right are exchanged; `alike` are the instances of its piece.
///
/// Where the use of the part was written (`written`), the use is exchanged if it has a partner, else the copy. Where a
/// seam stands for every use, each use keeps to itself and only copies are exchanged: otherwise the seam of the left
/// use, mirrored, would be the seam of the right use once more. A piece with neither stays itself.
pub fn partner(instances: &[Instance], alike: &[usize], at: usize, written: bool) -> usize {
    let me = &instances[at];
    let same_copy = |one: &Instance| one.copy == me.copy && one.usage != me.usage;
    let same_use = |one: &Instance| one.usage == me.usage && one.copy != me.copy;
    let by_use = || written.then(|| other(instances, alike, me, &same_copy, &|one| &one.usage)).flatten();
    let by_copy = || other(instances, alike, me, &same_use, &|one| &one.copy);
    by_use().or_else(by_copy).unwrap_or(at)
}

/// Among the instances admitted, the one whose name is the opposite of ours; or, where there is just one other and it
/// is turned the other way, that one.
fn other(
    instances: &[Instance],
    alike: &[usize],
    me: &Instance,
    admit: &dyn Fn(&Instance) -> bool,
    name: &dyn Fn(&Instance) -> &String,
) -> Option<usize> {
    let wanted = opposite(name(me));
    let mut rivals = alike.iter().copied().filter(|n| admit(&instances[*n]));
    if let Some(wanted) = wanted
        && let Some(named) = rivals.clone().find(|n| *name(&instances[*n]) == wanted)
    {
        return Some(named);
    }
    match (rivals.next(), rivals.next()) {
        (Some(one), None) if instances[one].mirrored != me.mirrored => Some(one),
        _ => None,
    }
}

/// The name with its word for a side exchanged: `left` and `right`, `l` and `r`, alone or as a word between
/// underscores.
fn opposite(name: &str) -> Option<String> {
    const SIDES: [(&str, &str); 3] = [("left", "right"), ("l", "r"), ("L", "R")];
    let mut changed = false;
    let words: Vec<&str> = name
        .split('_')
        .map(|word| {
            let found = SIDES.iter().find_map(|(a, b)| match word {
                w if w == *a => Some(*b),
                w if w == *b => Some(*a),
                _ => None,
            });
            changed |= found.is_some();
            found.unwrap_or(word)
        })
        .collect();
    changed.then(|| words.join("_"))
}

#[cfg(test)]
mod tests {
    use super::opposite;

    #[test]
    fn only_whole_words_name_a_side() {
        assert_eq!(opposite("left"), Some("right".into()));
        assert_eq!(opposite("front_l"), Some("front_r".into()));
        assert_eq!(opposite("leg"), None);
        assert_eq!(opposite("lr"), None);
    }
}

use super::Instance;

/// The index of the instance that takes this one's place when left and right are exchanged.
///
/// The use of the part is exchanged if it has a partner, else the copy; a piece with neither stays itself.
pub fn partner(instances: &[Instance], at: usize) -> usize {
    let me = &instances[at];
    let by_use = other(instances, me, |one| one.piece == me.piece && one.copy == me.copy, |one| &one.usage);
    let by_copy = || other(instances, me, |one| one.piece == me.piece && one.usage == me.usage, |one| &one.copy);
    by_use.or_else(by_copy).unwrap_or(at)
}

/// Among the instances that `alike` admits, the one whose name is the opposite of ours; or, where there are just two
/// and one is mirrored, the other.
fn other(
    instances: &[Instance],
    me: &Instance,
    alike: impl Fn(&Instance) -> bool,
    name: impl Fn(&Instance) -> &String,
) -> Option<usize> {
    let rivals: Vec<usize> = (0..instances.len()).filter(|n| alike(&instances[*n]) && instances[*n] != *me).collect();
    let wanted = opposite(name(me));
    let named = rivals.iter().copied().find(|n| Some(name(&instances[*n])) == wanted.as_ref());
    let only = match rivals.as_slice() {
        [one] if instances[*one].mirrored != me.mirrored => Some(*one),
        _ => None,
    };
    named.or(only)
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

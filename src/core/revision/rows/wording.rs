//! What differs between two long texts: the words that changed, with a few round them; the rest is an ellipsis.

/// Texts of more letters than this are shown only where they differ.
const LONG: usize = 60;
/// Words kept on both sides of what changed.
const ROUND: usize = 3;
/// What replaces words that are the same.
const SAME: &str = "…";

/// A word of two texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step<'a> {
    /// In both.
    Both(&'a str),
    /// In the text before only.
    Before(&'a str),
    /// In the text after only.
    After(&'a str),
}

/// Two texts, each without what is far from any change, unless both are short.
pub fn differing(before: &str, after: &str) -> (String, String) {
    if before.chars().count().max(after.chars().count()) <= LONG {
        return (before.to_string(), after.to_string());
    }
    let steps = steps(&before.split(' ').collect::<Vec<_>>(), &after.split(' ').collect::<Vec<_>>());
    let old = shown(&steps, |step| match step {
        Step::Both(word) | Step::Before(word) => Some(word),
        Step::After(_) => None,
    });
    let new = shown(&steps, |step| match step {
        Step::Both(word) | Step::After(word) => Some(word),
        Step::Before(_) => None,
    });
    (old, new)
}

/// The words of both texts in one row, with as many as can be in both.
fn steps<'a>(old: &[&'a str], new: &[&'a str]) -> Vec<Step<'a>> {
    let common = common(old, new);
    let most = |i: usize, j: usize| common.get(i).and_then(|row| row.get(j)).copied().unwrap_or_default();
    let (mut all, mut i, mut j) = (Vec::new(), 0, 0);
    loop {
        match (old.get(i), new.get(j)) {
            (Some(one), Some(other)) if one == other => {
                all.push(Step::Both(one));
                (i, j) = (i + 1, j + 1);
            }
            (Some(one), other) if other.is_none() || most(i + 1, j) >= most(i, j + 1) => {
                all.push(Step::Before(one));
                i += 1;
            }
            (_, Some(other)) => {
                all.push(Step::After(other));
                j += 1;
            }
            _ => return all,
        }
    }
}

/// How many words can be in both from a word of each on.
fn common(old: &[&str], new: &[&str]) -> Vec<Vec<usize>> {
    let mut rows = vec![vec![0; new.len() + 1]];
    for one in old.iter().rev() {
        let below = rows.last().map_or(&[][..], Vec::as_slice);
        let mut row = vec![0; new.len() + 1];
        let mut right = 0;
        for (j, other) in new.iter().enumerate().rev() {
            let read = |j: usize| below.get(j).copied().unwrap_or_default();
            right = if one == other { read(j + 1) + 1 } else { read(j).max(right) };
            if let Some(cell) = row.get_mut(j) {
                *cell = right;
            }
        }
        rows.push(row);
    }
    rows.reverse();
    rows
}

/// One of the texts: the words near a change.
fn shown<'a>(steps: &[Step<'a>], of: impl Fn(Step<'a>) -> Option<&'a str>) -> String {
    let changed = |n: usize| steps.get(n).is_some_and(|step| !matches!(step, Step::Both(_)));
    let near = |n: usize| (n.saturating_sub(ROUND)..=n + ROUND).any(changed);
    let mut out: Vec<&str> = Vec::new();
    for (n, step) in steps.iter().enumerate() {
        match of(*step) {
            Some(word) if near(n) => out.push(word),
            Some(_) if out.last() != Some(&SAME) => out.push(SAME),
            _ => {}
        }
    }
    out.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    const BEFORE: &str =
        "Critical: needle, open seam, mould, wrong mark. Major: beak crooked, does not sit, stain. Minor: loose thread";

    #[test]
    fn only_what_differs_of_a_long_text_is_shown() {
        let after = BEFORE.replace("wrong mark.", "wrong mark, a point outside its limits.");
        let (old, new) = differing(BEFORE, &after);
        assert_eq!(old, "… seam, mould, wrong mark. Major: beak crooked, …");
        assert_eq!(new, "… seam, mould, wrong mark, a point outside its limits. Major: beak crooked, …");
    }

    #[test]
    fn a_word_that_went_shows_where_it_was() {
        let after = BEFORE.replace(" stain.", "");
        let (old, new) = differing(BEFORE, &after);
        assert_eq!(old, "… does not sit, stain. Minor: loose thread");
        assert_eq!(new, "… does not sit, Minor: loose thread");
    }

    #[test]
    fn short_texts_and_other_texts_are_whole() {
        assert_eq!(differing("blue", "light blue"), ("blue".to_string(), "light blue".to_string()));
        let (old, new) = (BEFORE, "x ".repeat(40));
        assert_eq!(differing(old, new.trim()), (old.to_string(), new.trim().to_string()));
    }
}

//! The word of a list that somebody probably meant.

/// The known word nearest to what was written, if one is near.
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let (score, near) =
        known.iter().map(|one| (strsim::damerau_levenshtein(&word.to_lowercase(), &one.to_lowercase()), *one)).min()?;
    (score <= 1 + word.chars().count() / 4).then_some(near)
}

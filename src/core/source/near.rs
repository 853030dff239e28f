//! The word of a list that somebody probably meant.

/// The known word nearest to what was written, if one is near.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let far = |one: &str| strsim::damerau_levenshtein(&word.to_lowercase(), &one.to_lowercase());
    let (score, near) = known.into_iter().map(|one| (far(one), one)).min()?;
    (score <= 1 + word.chars().count() / 4).then_some(near)
}

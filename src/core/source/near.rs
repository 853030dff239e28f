//! The word of a list that somebody probably meant.

/// The known word nearest to what was written, if one is near: a letter or two are wrong, and at least one is right.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let far = |one: &str| strsim::damerau_levenshtein(&word.to_lowercase(), &one.to_lowercase());
    let (score, near) = known.into_iter().map(|one| (far(one), one)).min()?;
    let letters = word.chars().count();
    (score <= 1 + letters / 4 && score < letters.max(near.chars().count())).then_some(near)
}

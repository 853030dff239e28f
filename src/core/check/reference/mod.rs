//! Ids: what is named must be declared, and what is declared must be used.

mod unknown_rule;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[Check { rule: &unknown_rule::RULE, run: unknown_rule::check }];

/// The known word nearest to what was written, if one is near.
fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let far = |one: &str| strsim::damerau_levenshtein(&word.to_lowercase(), &one.to_lowercase());
    let (score, near) = known.map(|one| (far(one), one)).min()?;
    (score <= 1 + word.chars().count() / 4).then_some(near)
}

//! Whom a caution is about: toys, the youngest; and how one is told.

use crate::diag::Finding;
use crate::model::{Model, Product};
use crate::standards::age::SMALL_PARTS;
use crate::standards::safety::{Caution, DEFERRAL};
use crate::words::{say, words};

words! {
    HELP "safety.caution.help" = "follows: {follows}";
}

/// Adds the text of a caution, what it follows, and who decides.
pub fn caution(finding: Finding, caution: &Caution) -> Finding {
    let follows: Vec<String> =
        caution.follows.iter().map(|one| format!("{} ({})", one.text, one.basis.words())).collect();
    finding.help(caution.text).help(say!(HELP, follows = follows.join("; "))).help(DEFERRAL)
}

/// Whether the specification says that it is a toy.
pub fn is_toy(model: &Model) -> bool {
    model.style.kind.as_ref().is_some_and(|kind| kind.value == Product::Toy)
}

/// Whether the youngest children may get it: a toy from an age below 36 months, or one whose age is not given.
pub fn is_for_the_youngest(model: &Model) -> bool {
    let from = model.style.age.as_ref().and_then(|age| age.from.as_ref());
    is_toy(model) && from.is_none_or(|from| from.value.months() < SMALL_PARTS.under_months)
}

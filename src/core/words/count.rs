//! A count with its noun.

use super::number::{Decimal, number};
use super::{Phrase, Word, say};

/// A count with the form of the word that goes with it; both forms have `{count}`.
pub fn counted(count: impl Decimal + PartialEq<usize>, one: Word, many: Word) -> Phrase {
    let word = if count == 1 { one } else { many };
    say!(word, count = number(count, 0))
}

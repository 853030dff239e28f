//! One cell of a table, or one field of a sheet: a typed value and how it is written.

use std::collections::BTreeSet;

use serde::{Serialize, Serializer};

use crate::compute::{Figure, Number};
use crate::words::number::{self, SPACE};
use crate::words::{Phrase, say, words};

words! {
    NOT_YET "cell.not-yet" = "not known yet";
    WITHHELD "cell.withheld" = "withheld";
    ABOUT "cell.about" = "≈\u{a0}{value}";
    CODED "cell.coded" = "{code}: {value}";
    NONE "cell.none" = "–";
}

/// What a cell holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Cell {
    /// Nothing to say.
    #[default]
    Empty,
    /// What does not apply here: a dash.
    Dash,
    /// Words.
    Text(Phrase),
    /// A quantity. `unit` is empty where the head of the column has it.
    Amount {
        /// The number in that unit.
        value: Number,
        /// The symbol of its unit.
        unit: String,
        /// Decimals, at most; those at the end that are zero are left out unless `fixed`.
        places: u32,
        /// Whether every decimal is written.
        fixed: bool,
    },
    /// The least and the greatest value that pass.
    Limits {
        /// The least.
        lower: Number,
        /// The greatest.
        upper: Number,
        /// The symbol of their unit.
        unit: String,
        /// Decimals.
        places: u32,
    },
    /// The same thing by size or colourway, in the order the user wrote them.
    By(Vec<Coded>),
    /// Several, one below the other.
    Lines(Vec<Cell>),
    /// A value that is an estimate.
    Estimate(Box<Cell>),
    /// A value that changed since the last sealed revision.
    Changed(Box<Cell>),
    /// The factory fills it in.
    Asked,
    /// Something it needs is not known yet: why.
    Unknown(BTreeSet<Phrase>),
    /// This edition does not show it.
    Withheld,
}

/// A value for one size or colourway.
#[derive(Debug, Clone, PartialEq)]
pub struct Coded {
    /// Code of the size or colourway, as the user wrote it.
    pub code: String,
    /// Its value.
    pub cell: Cell,
}

impl Cell {
    /// A quantity with up to `places` decimals.
    pub fn amount(value: Number, places: u32, unit: &str) -> Self {
        Cell::Amount { value, unit: unit.to_string(), places, fixed: false }
    }

    /// A quantity with exactly `places` decimals.
    pub fn fixed(value: Number, places: u32, unit: &str) -> Self {
        Cell::Amount { value, unit: unit.to_string(), places, fixed: true }
    }

    /// A count.
    pub fn count(value: u64) -> Self {
        Cell::fixed(Number::new(value as f64), 0, "")
    }

    /// A figure, written by `write` if it is known.
    pub fn figure<T>(figure: &Figure<T>, write: impl FnOnce(&T) -> Cell) -> Self {
        match figure {
            Figure::Known(value) => write(value),
            Figure::NotYet { why } => Cell::Unknown(why.clone()),
            Figure::Withheld => Cell::Withheld,
        }
    }

    /// A figure that is a number, with up to `places` decimals.
    pub fn number(figure: &Figure<Number>, places: u32, unit: &str) -> Self {
        Cell::figure(figure, |value| Cell::amount(*value, places, unit))
    }

    /// The same value marked as changed, where it did change.
    #[must_use]
    pub fn marked(self, changed: bool) -> Self {
        if changed { Cell::Changed(Box::new(self)) } else { self }
    }

    /// Whether it says nothing, or leaves it to the factory.
    pub fn is_blank(&self) -> bool {
        match self {
            Cell::Empty | Cell::Asked => true,
            Cell::Text(phrase) => phrase.is_empty(),
            Cell::Lines(cells) => cells.iter().all(Cell::is_blank),
            Cell::By(cells) => cells.iter().all(|one| one.cell.is_blank()),
            Cell::Estimate(cell) | Cell::Changed(cell) => cell.is_blank(),
            _ => false,
        }
    }

    /// As text, still in every language.
    pub fn phrase(&self) -> Phrase {
        match self {
            Cell::Empty | Cell::Asked => Phrase::none(),
            Cell::Dash => NONE.into(),
            Cell::Text(phrase) => phrase.clone(),
            Cell::Amount { value, unit, places, fixed } => amount(*value, unit, *places, *fixed).into(),
            Cell::Limits { lower, upper, unit, places } => {
                with_unit(number::limits(*lower, *upper, *places), unit).into()
            }
            Cell::By(cells) => by(cells),
            Cell::Lines(cells) => Phrase::lines(cells.iter().map(Cell::phrase)),
            Cell::Estimate(cell) => say!(ABOUT, value = cell.phrase()),
            Cell::Changed(cell) => Phrase::row([Phrase::from(MARK), cell.phrase()], " "),
            Cell::Unknown(_) => NOT_YET.into(),
            Cell::Withheld => WITHHELD.into(),
        }
    }
}

/// Before what changed since the last sealed revision.
pub const MARK: &str = "△";

fn amount(value: Number, unit: &str, places: u32, fixed: bool) -> String {
    let digits = number::number(value, places);
    let digits = if fixed { digits } else { number::shortened(&digits) };
    with_unit(digits, unit)
}

fn with_unit(digits: String, unit: &str) -> String {
    if unit.is_empty() { digits } else { format!("{digits}{SPACE}{}", number::unit(unit)) }
}

/// One value where all are the same, else each behind its code.
fn by(cells: &[Coded]) -> Phrase {
    match cells {
        [first, rest @ ..] if rest.iter().all(|one| one.cell == first.cell) => first.cell.phrase(),
        _ => Phrase::lines(cells.iter().map(|one| say!(CODED, code = &one.code, value = one.cell.phrase()))),
    }
}

impl From<Phrase> for Cell {
    fn from(phrase: Phrase) -> Self {
        if phrase.is_empty() { Cell::Empty } else { Cell::Text(phrase) }
    }
}

impl From<crate::words::Word> for Cell {
    fn from(word: crate::words::Word) -> Self {
        Cell::Text(word.into())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Phrase::from(text).into()
    }
}

impl From<&String> for Cell {
    fn from(text: &String) -> Self {
        Phrase::from(text).into()
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Phrase::from(text).into()
    }
}

/// In JSON a cell is its text, as a phrase.
impl Serialize for Cell {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.phrase().serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Cell {
        Cell::amount(Number::new(value), 1, "mm")
    }

    #[test]
    fn values_by_size_carry_their_size_unless_they_are_the_same() {
        let coded = |code: &str, cell| Coded { code: code.into(), cell };
        let cell = Cell::By(vec![coded("S", mm(250.0)), coded("L", mm(350.5))]);
        assert_eq!(cell.phrase().english(), "S: 250\u{a0}mm\nL: 350.5\u{a0}mm");
        let cell = Cell::By(vec![coded("S", mm(5.0)), coded("L", mm(5.0))]);
        assert_eq!(cell.phrase().english(), "5\u{a0}mm");
    }

    #[test]
    fn what_is_not_known_says_so() {
        let cell = Cell::number(&Figure::not_yet("the pattern is the factory's"), 1, "mm");
        assert_eq!(cell.phrase().english(), "not known yet");
        assert!(!cell.is_blank());
        assert!(Cell::Asked.is_blank() && Cell::from("").is_blank());
    }

    #[test]
    fn an_estimate_and_a_change_are_marked() {
        assert_eq!(Cell::Estimate(Box::new(mm(3.0))).marked(true).phrase().english(), "△ ≈\u{a0}3\u{a0}mm");
    }
}

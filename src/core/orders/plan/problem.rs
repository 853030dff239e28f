//! What is to be cut from one fabric: demand, mixes and their lengths, and how it is bought.

use crate::units::Rational;
use crate::words::Word;

use super::rounded;

/// What is to be cut from one fabric, and how it is spread and bought. Lengths in whole µm.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Demand by colour of the fabric.
    pub colours: Vec<Demand>,
    /// Most plies in one lay.
    pub plies: u32,
    /// Plies come in groups of this many: 2 face to face. The products of a mix are those of one group.
    pub step: u32,
    /// Products of one size in a mix come in multiples of this.
    pub multiple: u32,
    /// Lost at the two ends of each ply together.
    pub ends: i64,
    /// Longest ply the table holds, ends included.
    pub table: Option<i64>,
    /// Most products in one group of plies, where the cutting room wishes so.
    pub products: Option<u32>,
    /// Kept between two lays that are joined end to end; none where lays are not joined.
    pub gap: Option<i64>,
    /// Shortest ply that is spread, ends included, where that buys no more.
    pub shortest: i64,
    /// How the fabric is bought.
    pub buy: Buy,
}

/// Products wanted of one colour, by size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demand {
    /// At least.
    pub low: Vec<u32>,
    /// At most.
    pub high: Vec<u32>,
    /// Least length that can be bought.
    pub minimum: i64,
}

/// How fabric is bought.
#[derive(Debug, Clone, PartialEq)]
pub struct Buy {
    /// What it is bought by: a roll; or a metre, where no roll is known.
    pub unit: i64,
    /// What is left of a length after relaxation shrinkage and faults: (1 − s) × (1 − f).
    pub keep: Rational,
    /// Whether each group of plies comes from one roll: no splice.
    pub whole: bool,
    /// Lost at each splice, where splices are allowed.
    pub overlap: i64,
    /// Kept back of every unit, as it is delivered.
    pub reserve: i64,
}

impl Problem {
    /// Most products in one group of plies that are wished: no fewer than can be spread at all.
    pub fn most(&self) -> Option<u32> {
        self.products.map(|products| products.max(self.multiple))
    }

    /// Whether a ply of a mix can be spread well: it is long enough, or no colour wants the mix twice.
    pub fn is_spread(&self, mix: &Mix, length: i64) -> bool {
        let twice = |one: &Demand| mix.sets.iter().zip(&one.high).all(|(sets, high)| sets.saturating_mul(2) <= *high);
        length.saturating_add(self.ends) >= self.shortest || !self.colours.iter().any(twice)
    }

    /// Longest group of plies that a lay may have, of one ply, without its ends; none where nothing bounds it.
    pub fn longest(&self) -> Option<i64> {
        let roll = self.buy.whole.then(|| self.buy.usable() / i64::from(self.step.max(1)));
        let least = [self.table, roll].into_iter().flatten().min();
        least.map(|least| least - self.ends)
    }
}

impl Buy {
    /// What one unit gives as it is delivered.
    fn given(&self) -> i128 {
        i128::from((self.unit - self.reserve).max(0))
    }

    /// Usable length of one unit, down to a millimetre.
    pub fn usable(&self) -> i64 {
        let (above, below) = (self.keep.numerator(), self.keep.denominator());
        rounded::down(i64::try_from(self.given() * above / below).unwrap_or(i64::MAX))
    }

    /// Units that a total length takes where it may be joined anywhere.
    pub fn joined(&self, total: i64) -> u32 {
        if total <= 0 {
            return 0;
        }
        let (above, below) = (self.keep.numerator(), self.keep.denominator());
        let overlap = i128::from(self.overlap);
        let each = self.given() * above - overlap * below;
        let wanted = (i128::from(total) - overlap) * below;
        if each <= 0 {
            return u32::MAX;
        }
        u32::try_from((wanted + each - 1).div_euclid(each).max(1)).unwrap_or(u32::MAX)
    }

    /// Units that a total length takes at least, wherever it is cut.
    pub fn joined_at_least(&self, total: i64) -> u32 {
        if self.whole { Buy { overlap: 0, ..self.clone() }.joined(total) } else { self.joined(total) }
    }

    /// The most length that some units give where it may be joined anywhere.
    pub fn holds(&self, units: u32) -> i64 {
        let (above, below) = (self.keep.numerator(), self.keep.denominator());
        let all = i128::from(units) * self.given() * above / below;
        let lost = i128::from(self.overlap) * i128::from(units.saturating_sub(1));
        i64::try_from(all - lost).unwrap_or(i64::MAX)
    }

    /// Units that are bought where some are needed and at least a length is taken.
    pub fn bought(&self, units: u32, minimum: i64) -> u32 {
        let least = u32::try_from((minimum + self.unit - 1) / self.unit.max(1)).unwrap_or(u32::MAX);
        if units == 0 { 0 } else { units.max(least) }
    }
}

/// The length of one lay of a mix, without the ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Length {
    /// It was laid.
    Known(i64),
    /// It was not laid yet and cannot be shorter.
    AtLeast(i64),
    /// It cannot be laid.
    Never,
}

impl Length {
    /// In whole millimetres, rounded up.
    pub fn rounded(self) -> Self {
        match self {
            Length::Known(length) => Length::Known(rounded::taken(length)),
            Length::AtLeast(length) => Length::AtLeast(rounded::taken(length)),
            Length::Never => Length::Never,
        }
    }

    /// The length that is counted with.
    pub fn get(self) -> i64 {
        match self {
            Length::Known(length) | Length::AtLeast(length) => length,
            Length::Never => i64::MAX,
        }
    }
}

/// Products by size that are laid together.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mix {
    /// Products by size, in one group of plies.
    pub sets: Vec<u32>,
}

impl Mix {
    /// Products in one group of plies.
    pub fn count(&self) -> u32 {
        self.sets.iter().sum()
    }

    /// Whether all products are of one size.
    pub fn is_plain(&self) -> bool {
        self.sets.iter().filter(|sets| **sets > 0).count() == 1
    }
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unplannable {
    /// No ply, no unit, or numbers of sizes that differ.
    Malformed(Word),
    /// No lay of this size fits on the table.
    Table {
        /// Which size.
        size: usize,
    },
    /// No ply of this size comes out of one roll.
    Roll {
        /// Which size.
        size: usize,
    },
}

/// What a plan is judged by, first to last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Worth {
    /// Length bought, all colours, µm.
    pub bought: i64,
    /// Lays spread.
    pub lays: u32,
    /// Length spread, ends included, µm.
    pub spread: i64,
    /// Products above what is wanted.
    pub surplus: u64,
}

impl Worth {
    /// What is bought, and in how many lays it is spread.
    pub fn bought_and_lays(&self) -> (i64, u32) {
        (self.bought, self.lays)
    }
}

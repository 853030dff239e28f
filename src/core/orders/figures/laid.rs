//! Where the lengths of lays come from: an estimate, or lays kept or made.

use std::collections::BTreeSet;

use crate::cutting::figures::how::How;
use crate::geom::grid::snap;
use crate::orders::plan::rounded::{down, taken};
use crate::orders::plan::{Length, Mix};
use crate::words::Phrase;

/// Pieces that are laid together: everything cut from one fabric in one colour, for some products.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laid<'a> {
    /// The fabric.
    pub article: &'a str,
    /// What the pieces call it.
    pub materials: &'a BTreeSet<String>,
    /// A colourway in which they are cut together; all such colourways have the same pieces.
    pub colourway: &'a str,
    /// Size ids, in the order of the mix.
    pub sizes: &'a [String],
}

/// How a fabric is spread and cut. Lengths in whole µm.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spreading {
    /// Most plies in one lay.
    pub plies: u32,
    /// Plies come in groups of this many: 2 face to face.
    pub step: u32,
    /// Products of one size in one group come in multiples of this.
    pub multiple: u32,
    /// Most products in one lay that is searched; longer lays are joined of these.
    pub sets: u32,
    /// Lost at the two ends of each ply together.
    pub ends: i64,
    /// Longest ply, ends included.
    pub table: Option<i64>,
    /// Most products in one group of plies, where the cutting room wishes so.
    pub products: Option<u32>,
    /// Kept between two lays that are joined end to end; none where they are not joined.
    pub gap: Option<i64>,
    /// Shortest ply that is spread, ends included, where that buys no more.
    pub shortest: i64,
    /// Kept back of every roll.
    pub reserve: i64,
    /// What a splice loses, where splices are allowed.
    pub splice: Option<i64>,
    /// What was taken for want of a statement.
    pub assumed: BTreeSet<Phrase>,
}

/// The shortest ply where the cutting room states none, µm (*common practice*).
const SHORTEST: i64 = 500_000;

/// The shortest ply that is spread, µm: as stated.
pub(super) fn shortest(how: Option<&How>) -> i64 {
    how.and_then(|how| how.shortest_ply).map_or(SHORTEST, |length| snap(length.raw()))
}

impl Spreading {
    /// The same with every length in whole millimetres: the table down, the rest up.
    pub(super) fn rounded(self) -> Self {
        Spreading {
            ends: taken(self.ends),
            table: self.table.map(down),
            gap: self.gap.map(taken),
            shortest: taken(self.shortest),
            reserve: taken(self.reserve),
            splice: self.splice.map(taken),
            ..self
        }
    }
}

/// Where the lengths of lays come from.
pub trait LayLengths {
    /// How a fabric is spread and cut.
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading;
    /// What is known of the length of a lay, without its ends; `Err` with the reason where nothing is, as where an outline
    /// is the factory's to make.
    ///
    /// # Errors
    /// Why no length is known.
    fn length(&mut self, of: &Laid<'_>, mix: &Mix) -> Result<Length, Phrase>;
    /// Lays a mix that is not laid yet: its length in µm; `None` where it cannot be laid.
    fn lay(&mut self, of: &Laid<'_>, mix: &Mix) -> Option<i64>;
    /// Pieces that a group of plies gives beyond those of its products.
    fn over(&mut self, _: &Laid<'_>, _: &Mix) -> u64 {
        0
    }
    /// Whether lengths are an estimate, and no lay.
    fn is_estimate(&self) -> bool;
    /// Rounds of planning and laying, for one fabric.
    fn rounds(&self) -> usize {
        ROUNDS
    }
}

/// Rounds of planning and laying, for one fabric.
pub const ROUNDS: usize = 12;

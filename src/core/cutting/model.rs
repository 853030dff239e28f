//! How a fabric is spread and cut.

use std::collections::BTreeMap;

use crate::source::Spanned;
use crate::units::Quantity;

use crate::model::{Entry, Stated};

/// What cuts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Method {
    /// A straight, round or band knife led by hand.
    HandKnife,
    /// A knife led by a machine.
    AutomaticKnife,
    /// Steel rule struck by a press.
    Die,
    /// A laser.
    Laser,
}

impl Method {
    /// Every method, as it is written and meant.
    pub const ALL: [(&'static str, Method); 4] = [
        ("hand knife", Method::HandKnife),
        ("automatic knife", Method::AutomaticKnife),
        ("die", Method::Die),
        ("laser", Method::Laser),
    ];

    /// As it is written.
    pub fn word(self) -> &'static str {
        Method::ALL.iter().find(|(_, method)| *method == self).map_or("", |(word, _)| word)
    }
}

/// How plies lie on each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spread {
    /// Every ply face up, the fabric cut at each end.
    OneWay,
    /// Every other ply face down.
    FaceToFace,
    /// Every other ply face down, each cut off and the roll turned, so that all run the same way.
    Turned,
    /// One ply folded along its length, the right side inside.
    Folded,
}

impl Spread {
    /// Every way, as it is written and meant.
    pub const ALL: [(&'static str, Spread); 4] = [
        ("one way", Spread::OneWay),
        ("face to face", Spread::FaceToFace),
        ("face to face, roll turned", Spread::Turned),
        ("folded", Spread::Folded),
    ];

    /// Whether two plies lie with their faces together, so that pieces come in pairs.
    pub fn pairs(self) -> bool {
        matches!(self, Spread::FaceToFace | Spread::Turned)
    }

    /// As it is written.
    pub fn word(self) -> &'static str {
        Spread::ALL.iter().find(|(_, spread)| *spread == self).map_or("", |(word, _)| word)
    }
}

/// How some fabric is spread and cut.
#[derive(Debug, Clone)]
pub struct Cutting {
    /// Id and name.
    pub entry: Entry,
    /// The fabric it is for; every other fabric where none is named.
    pub fabrics: Vec<Spanned<String>>,
    /// What cuts.
    pub method: Option<Spanned<Method>>,
    /// How plies lie.
    pub spread: Option<Spanned<Spread>>,
    /// Least distance between two pieces.
    pub gap: Option<Stated<Quantity>>,
    /// Kept free along both long edges of the cuttable width.
    pub edge: Option<Stated<Quantity>>,
    /// Kept free at both ends of every ply.
    pub end: Option<Stated<Quantity>>,
    /// How far a piece may be turned off its grain, degrees.
    pub tilt: Option<Stated<f64>>,
    /// Length of the table.
    pub table: Option<Stated<Quantity>>,
    /// Height that can be cut.
    pub height: Option<Stated<Quantity>>,
    /// Most plies.
    pub plies: Option<Stated<u32>>,
    /// Most products on one ply of an order.
    pub products: Option<Stated<u32>>,
    /// Shortest ply that is spread in an order.
    pub shortest_ply: Option<Stated<Quantity>>,
    /// Kept back of every roll.
    pub reserve: Option<Stated<Quantity>>,
    /// Products of each size that are laid together, by size; at least two sizes, or empty.
    pub mix: BTreeMap<String, u64>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

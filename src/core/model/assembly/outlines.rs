//! The outline of every piece in every size, or why there is none.

use std::collections::BTreeMap;

use crate::geom::{Outline, Point};

use super::gap::Gap;

/// Outlines by piece and size, as drawn: sew line or cut line, in mm.
#[derive(Debug, Clone, Default)]
pub struct Outlines {
    pub(super) by: BTreeMap<String, BTreeMap<String, Result<Outline, Gap>>>,
    pub(super) scales: BTreeMap<String, BTreeMap<String, Scale>>,
}

/// How the outline of a size was scaled from the drawn one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Factor along the grain.
    pub along: f64,
    /// Factor across the grain.
    pub across: f64,
    /// Direction of the grain.
    pub grain: Point,
}

impl Outlines {
    /// How the outline of a piece was scaled for a size; `None` where it was drawn for it. A size is a scaled *sew*
    /// line: the allowance inside a scaled cut line is scaled with it.
    pub fn scale(&self, piece: &str, size: &str) -> Option<Scale> {
        self.scales.get(piece)?.get(size).copied()
    }

    /// Whether any piece was scaled for a size.
    pub fn is_scaled(&self, size: &str) -> bool {
        self.scales.values().any(|sizes| sizes.contains_key(size))
    }

    /// The outline of a piece in a size, or why there is none.
    pub fn get(&self, piece: &str, size: &str) -> Result<&Outline, &Gap> {
        match self.by.get(piece).and_then(|sizes| sizes.get(size)) {
            Some(made) => made.as_ref(),
            None => Err(&Gap::Missing),
        }
    }

    /// The outline in the first size that has one: its points and their order hold for every size.
    pub fn any(&self, piece: &str) -> Option<&Outline> {
        self.by.get(piece)?.values().find_map(|made| made.as_ref().ok())
    }

    /// Every outline that could not be made: piece, size, why.
    pub fn gaps(&self) -> impl Iterator<Item = (&str, &str, &Gap)> {
        self.by.iter().flat_map(|(piece, sizes)| {
            sizes
                .iter()
                .filter_map(move |(size, made)| made.as_ref().err().map(|gap| (piece.as_str(), size.as_str(), gap)))
        })
    }
}

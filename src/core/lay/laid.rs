//! A lay: where every piece lies.

use super::instance::Turn;
use crate::geom::grid::GridPoint;

/// One piece on the fabric: its outline is turned about its own origin, rounded to the grid, and moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Which piece of the instance.
    pub piece: usize,
    /// Which of its copies, from 0.
    pub copy: usize,
    /// How it lies.
    pub turn: Turn,
    /// Where its origin lies.
    pub at: GridPoint,
}

/// Pieces on a length of fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Lay {
    /// Length with the margins at both ends, in µm.
    pub length: i64,
    /// Every piece, by piece and copy.
    pub placed: Vec<Placed>,
}

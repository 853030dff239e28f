//! How short a lay can be at best: what its area needs, and its longest piece. No lay is shorter, but the best one is
//! usually longer than both, so that the difference says nothing about how good a lay is.

use super::instance::Instance;

/// Lengths no lay can be shorter than, margins at the ends included, in µm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// The area of all pieces over the cuttable width.
    pub area: i64,
    /// The longest piece, in the turn in which it is shortest.
    pub longest: i64,
}

/// Both bounds of an instance.
pub fn bounds(instance: &Instance) -> Bounds {
    let fabric = instance.fabric;
    let fold = instance.pieces.iter().any(|piece| piece.fold);
    let usable = i128::from((fabric.width - fabric.edge - if fold { 0 } else { fabric.edge }).max(1));
    let area2 = instance.area2();
    let area = (area2 + 2 * usable - 1) / (2 * usable);
    let shortest = |piece: &super::instance::Piece| {
        let lengths = piece.fitting(fabric).filter_map(|(_, outline)| outline.bbox()).map(|(low, high)| high.x - low.x);
        lengths.min().filter(|_| piece.demand > 0).unwrap_or(0)
    };
    let longest = instance.pieces.iter().map(shortest).max().unwrap_or(0);
    Bounds { area: i64::try_from(area).unwrap_or(i64::MAX / 2) + 2 * fabric.end, longest: longest + 2 * fabric.end }
}

/// The larger of both bounds, in µm.
pub fn least(instance: &Instance) -> i64 {
    let Bounds { area, longest } = bounds(instance);
    area.max(longest)
}

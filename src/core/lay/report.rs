//! What is told about a lay: length, density, bounds, waste, and where every piece lies.

use serde::Serialize;

use super::bound::bounds;
use super::instance::Instance;
use super::laid::{Lay, Placed};
use super::pack::Packed;
use crate::geom::grid::millimetres;

/// A lay in figures, in mm and mm² on the 1 µm grid.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Report {
    /// What the lay is called.
    pub name: String,
    /// Pieces laid.
    pub pieces: usize,
    /// Width of the roll, mm.
    pub width: f64,
    /// Length of the lay, margins at the ends included, mm.
    pub length: f64,
    /// Area of the pieces in parts of width × length.
    pub density: f64,
    /// Fabric that becomes no piece, mm².
    pub waste: f64,
    /// No lay can be shorter than this, for its area, mm.
    pub area_bound: f64,
    /// No lay can be shorter than this, for its longest piece, mm.
    pub longest_bound: f64,
    /// Random numbers used.
    pub seed: u64,
    /// Places tried for pieces.
    pub evaluations: u64,
    /// Whether the same input gives the same lay again.
    pub reproducible: bool,
    /// Whether the search was stopped early.
    pub interrupted: bool,
    /// Where each piece lies.
    pub positions: Vec<Position>,
}

/// Where one piece lies: mirrored (y becomes −y), turned anticlockwise about its own origin, moved by x and y.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Position {
    /// The piece.
    pub piece: String,
    /// Which copy, from 1.
    pub copy: usize,
    /// Whether it is mirrored.
    pub mirrored: bool,
    /// Degrees, anticlockwise.
    pub degrees: f64,
    /// Along the roll, mm.
    pub x: f64,
    /// Across the roll, mm.
    pub y: f64,
}

/// Area of the pieces in parts of the fabric they take.
pub fn density(instance: &Instance, lay: &Lay) -> f64 {
    let fabric = 2.0 * instance.fabric.width as f64 * lay.length as f64;
    if fabric > 0.0 { instance.area2() as f64 / fabric } else { 0.0 }
}

/// The figures of a lay.
pub fn report(instance: &Instance, packed: &Packed, seed: u64) -> Report {
    let lay = &packed.lay;
    let bounds = bounds(instance);
    // Exact before the one rounding.
    let spare2 = 2 * i128::from(instance.fabric.width) * i128::from(lay.length) - instance.area2();
    Report {
        name: instance.name.clone(),
        pieces: instance.count(),
        width: millimetres(instance.fabric.width),
        length: millimetres(lay.length),
        density: (density(instance, lay) * 1e6).round() / 1e6,
        waste: (spare2 as f64 / 2e3).round() / 1e3,
        area_bound: millimetres(bounds.area),
        longest_bound: millimetres(bounds.longest),
        seed,
        evaluations: packed.evaluations,
        reproducible: packed.reproducible,
        interrupted: packed.interrupted,
        positions: positions(instance, lay),
    }
}

fn positions(instance: &Instance, lay: &Lay) -> Vec<Position> {
    let known = |placed: &Placed| instance.pieces.get(placed.piece).map(|piece| (piece.id.clone(), *placed));
    let position = |(piece, placed): (String, Placed)| Position {
        piece,
        copy: placed.copy + 1,
        mirrored: placed.turn.mirrored,
        degrees: placed.turn.degrees,
        x: millimetres(placed.at.x),
        y: millimetres(placed.at.y),
    };
    lay.placed.iter().filter_map(known).map(position).collect()
}

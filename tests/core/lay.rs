//! Lays of pieces on a roll.

mod faults;
mod reading;
mod rows;
mod search;

use backtack_core::geom::grid::{GridPoint, Polygon};
use backtack_core::lay::{Budget, Fabric, Instance, Lay, Options, Packed, Piece, Placed, Progress, Turn, pack};

/// A polygon from corners in whole millimetres.
fn polygon(corners: &[(i64, i64)]) -> Polygon {
    Polygon { points: corners.iter().map(|(x, y)| GridPoint::new(x * 1000, y * 1000)).collect() }
}

fn rectangle(width: i64, height: i64) -> Polygon {
    polygon(&[(0, 0), (width, 0), (width, height), (0, height)])
}

fn piece(id: &str, outline: Polygon, demand: usize, turns: &[f64]) -> Piece {
    let turns = turns.iter().map(|degrees| Turn::by(*degrees)).collect();
    Piece { id: id.into(), outline, demand, turns, fold: false }
}

fn instance(width: i64, pieces: Vec<Piece>) -> Instance {
    Instance { name: "test".into(), fabric: Fabric::wide(width * 1000), pieces }
}

/// A piece as drawn, its origin at a place in whole micrometres.
fn placed(piece: usize, copy: usize, x: i64, y: i64) -> Placed {
    Placed { piece, copy, turn: Turn::NONE, at: GridPoint::new(x, y) }
}

fn lay(length: i64, placed: Vec<Placed>) -> Lay {
    Lay { length: length * 1000, placed }
}

fn packed(instance: &Instance, evaluations: u64, seed: u64, threads: usize) -> Packed {
    let silent = |_: Progress| {};
    let never = || false;
    let options = Options { budget: Budget::Evaluations(evaluations), seed, threads, stop: &never, observe: &silent };
    pack(instance, options).unwrap()
}

//! A better place for one piece: places tried at random, over the strip and near where it stands, and the best of them
//! settled exactly between their neighbours.

use super::board::{Board, Place, Tried};
use super::form::{Spot, whole};
use super::meter::Meter;
use super::random::Random;
use super::settle::settle;

/// Places tried over the whole strip, and near the piece.
const OVER: usize = 40;
const NEAR: usize = 20;
/// How many of them settle.
const SETTLED: usize = 3;
/// First and last step of the walk downhill from the best, in parts of the piece's shorter side.
const FINE: (f64, f64) = (0.01, 0.0001);

/// The best place found for a piece; where it stands if there is no better.
pub fn better(board: &Board, piece: usize, random: &mut Random, meter: &mut Meter) -> Tried {
    let here = board.places[piece];
    let mut best = vec![Tried { place: here, cost: board.standing(piece) }];
    let ways = &board.table.kinds[board.kinds[piece]].ways;
    for number in 0..OVER + NEAR {
        let form = if number < NEAR && random.below(2) == 0 { here.form } else { ways[random.below(ways.len())].form };
        let Some((low, high)) = board.range(piece, form) else { continue };
        let at = if number < NEAR { near(board, here, random, low, high) } else { anywhere(random, low, high) };
        let bound = if best.len() > SETTLED { best[SETTLED].cost } else { f64::INFINITY };
        let cost = board.weigh(piece, form, at, bound);
        meter.count();
        if cost == 0.0 {
            return Tried { place: Place { form, at }, cost };
        }
        if cost < bound {
            let rank = best.partition_point(|tried| tried.cost <= cost);
            best.insert(rank, Tried { place: Place { form, at }, cost });
            best.truncate(SETTLED + 1);
        }
    }
    let settled = best.into_iter().map(|start| settle(board, piece, start, meter));
    let least = settled.min_by(|a, b| a.cost.total_cmp(&b.cost));
    let start = least.unwrap_or(Tried { place: here, cost: board.standing(piece) });
    if start.cost > 0.0 { walk(board, piece, start, FINE, random, meter) } else { start }
}

fn anywhere(random: &mut Random, low: Spot, high: Spot) -> Spot {
    Spot { x: whole(random.between(low.x, high.x)), y: whole(random.between(low.y, high.y)) }
}

fn near(board: &Board, here: Place, random: &mut Random, low: Spot, high: Spot) -> Spot {
    let size = board.table.forms[here.form].size;
    let x = here.at.x + (random.unit() - random.unit()) * size.x * 0.5;
    let y = here.at.y + (random.unit() - random.unit()) * size.y * 0.5;
    Spot { x: whole(x).clamp(low.x, high.x), y: whole(y).clamp(low.y, high.y) }
}

/// Walks downhill along the axes and diagonals, with longer steps after a success and shorter ones after none.
pub fn walk(
    board: &Board,
    piece: usize,
    mut here: Tried,
    steps: (f64, f64),
    random: &mut Random,
    meter: &mut Meter,
) -> Tried {
    let form = here.place.form;
    let Some((low, high)) = board.range(piece, form) else { return here };
    let size = board.table.forms[form].size;
    let side = size.x.min(size.y);
    let (mut x, mut y) = (side * steps.0, side * steps.0);
    let last = (side * steps.1).max(1.0);
    while here.cost > 0.0 && (x >= last || y >= last) {
        let axis = random.below(3);
        let turn = if random.below(2) == 0 { 1.0 } else { -1.0 };
        let (dx, dy) = [(x, 0.0), (0.0, y), (x, y * turn)][axis];
        let mut moved = false;
        for sign in [1.0, -1.0] {
            let at = Spot {
                x: whole(here.place.at.x + sign * dx).clamp(low.x, high.x),
                y: whole(here.place.at.y + sign * dy).clamp(low.y, high.y),
            };
            if at == here.place.at {
                continue;
            }
            let cost = board.weigh(piece, form, at, here.cost);
            meter.count();
            if cost < here.cost {
                here = Tried { place: Place { form, at }, cost };
                moved = true;
                break;
            }
        }
        let factor = if moved { 1.1 } else { 0.5 };
        if axis != 1 {
            x *= factor;
        }
        if axis != 0 {
            y *= factor;
        }
    }
    here
}

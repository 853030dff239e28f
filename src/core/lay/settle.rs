//! Lets a piece settle exactly: nearby, every other piece is a line it may not cross, and the best place is where two such
//! lines meet.

use super::board::{Board, Place, Tried};
use super::field::Facing;
use super::form::{Spot, whole};
use super::meter::Meter;

/// How far one step goes at most, in parts of the piece's shorter side.
const REACH: f64 = 0.25;
/// Steps at most.
const STEPS: usize = 4;
/// Places tried in a step.
const TRIED: usize = 2;
/// Kept from a line that is not upright: beyond rounding and beyond what a field leaves in doubt, which costs time, in µm.
const ROUNDING: f64 = 3.0;
/// Lines looked at, the deepest first.
const LINES: usize = 6;

/// A line: the step `d` leads beyond it if `x·dx + y·dy` is `depth` or more.
type Line = (Facing, f64);

/// Steps to ever better meetings of lines until there is none.
pub fn settle(board: &Board, piece: usize, mut here: Tried, meter: &mut Meter) -> Tried {
    let form = here.place.form;
    let Some((low, high)) = board.range(piece, form) else { return here };
    let size = board.table.forms[form].size;
    let far = size.x.min(size.y) * REACH;
    let (mut lines, mut steps) = (Vec::new(), Vec::new());
    for _ in 0..STEPS {
        if here.cost == 0.0 {
            break;
        }
        board.facings(piece, form, here.place.at, &mut lines);
        walls(here.place.at, low, high, far, &mut lines);
        meetings(&mut lines, far, &mut steps);
        let before = here.cost;
        for (_, step) in steps.iter().take(TRIED) {
            let at = Spot {
                x: whole(here.place.at.x + step.x).clamp(low.x, high.x),
                y: whole(here.place.at.y + step.y).clamp(low.y, high.y),
            };
            let cost = board.weigh(piece, form, at, here.cost);
            meter.count();
            if cost < here.cost {
                here = Tried { place: Place { form, at }, cost };
                break;
            }
        }
        if here.cost >= before {
            break;
        }
    }
    here
}

/// The borders of the fabric as lines, where they are near.
fn walls(at: Spot, low: Spot, high: Spot, far: f64, lines: &mut Vec<Line>) {
    // Heavy enough that no overlap is worth leaving the fabric.
    const WEIGHT: f64 = 1e9;
    let wall = |x: f64, y: f64, depth: f64| (Facing { x, y, depth }, WEIGHT);
    let all = [
        wall(1.0, 0.0, low.x - at.x),
        wall(-1.0, 0.0, at.x - high.x),
        wall(0.0, 1.0, low.y - at.y),
        wall(0.0, -1.0, at.y - high.y),
    ];
    lines.extend(all.into_iter().filter(|(facing, _)| facing.depth >= -far));
}

/// Steps to where lines meet and to the nearest points on them, the least remaining overlap first.
fn meetings(lines: &mut Vec<Line>, far: f64, steps: &mut Vec<(f64, Spot)>) {
    for (facing, _) in lines.iter_mut() {
        let upright = facing.x.abs() < 1e-12 || facing.y.abs() < 1e-12;
        facing.depth += if upright { 0.0 } else { ROUNDING };
    }
    lines.sort_by(|a, b| b.0.depth.total_cmp(&a.0.depth));
    lines.truncate(LINES);
    steps.clear();
    let mut add = |step: Spot, lines: &[Line]| {
        if step.x * step.x + step.y * step.y <= far * far {
            let over = |(facing, weight): &Line| {
                let rest = facing.depth - facing.x * step.x - facing.y * step.y;
                if rest > 1e-6 { (rest + far * 0.05) * weight } else { 0.0 }
            };
            steps.push((lines.iter().map(over).sum(), step));
        }
    };
    for (at, (one, _)) in lines.iter().enumerate() {
        if one.depth > 0.0 {
            add(Spot { x: one.x * one.depth, y: one.y * one.depth }, lines);
        }
        for (other, _) in &lines[at + 1..] {
            let across = one.x * other.y - one.y * other.x;
            if across.abs() > 0.02 {
                let x = (one.depth * other.y - other.depth * one.y) / across;
                let y = (one.x * other.depth - other.x * one.depth) / across;
                add(Spot { x, y }, lines);
            }
        }
    }
    steps.sort_by(|a, b| a.0.total_cmp(&b.0));
}

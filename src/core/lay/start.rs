//! A first lay without overlaps: one piece after another, each as far to the left as a few tries find.

use super::board::{Board, Place};
use super::form::Spot;
use super::meter::Meter;
use super::random::Random;

/// Places tried for a piece, and walks of the best.
const TRIES: usize = 200;
const WALKS: usize = 3;

/// In which order pieces are laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// Largest area first.
    Area,
    /// Longest box first.
    Length,
    /// Widest box first.
    Width,
    /// Longest side first.
    Side,
    /// As it falls out.
    Chance,
}

/// Every order.
pub const ORDERS: [Order; 5] = [Order::Area, Order::Length, Order::Width, Order::Side, Order::Chance];

/// Lays all pieces in an order. The board must be empty; its end is set to where the last piece ends.
pub fn start(board: &mut Board, order: Order, random: &mut Random, meter: &mut Meter) {
    let mut pieces: Vec<usize> = (0..board.kinds.len()).collect();
    random.shuffle(&mut pieces);
    let size = |piece: usize| {
        let kind = &board.table.kinds[board.kinds[piece]];
        let first = kind.ways.first().map_or(Spot::default(), |way| board.table.forms[way.form].size);
        match order {
            Order::Area => kind.area,
            Order::Length => first.x,
            Order::Width => first.y,
            Order::Side => first.x.max(first.y),
            Order::Chance => 0.0,
        }
    };
    pieces.sort_by(|a, b| size(*b).total_cmp(&size(*a)));
    let mut extent = board.room.low.x;
    for piece in pieces {
        let place = leftmost(board, piece, extent, random, meter);
        board.put(piece, place);
        extent = extent.max(place.at.x + board.table.forms[place.form].size.x);
    }
    board.end = extent;
}

/// The place that ends furthest left of those tried; behind everything if none of them is free.
pub fn leftmost(board: &mut Board, piece: usize, extent: f64, random: &mut Random, meter: &mut Meter) -> Place {
    let ways = &board.table.kinds[board.kinds[piece]].ways;
    let behind = |form: usize| {
        let form = &board.table.forms[form];
        // Beyond every box, grown outlines included.
        let x = if extent > board.room.low.x { extent + 2.0 * (form.high.x - form.size.x) + 2.0 } else { extent };
        (x, x + form.size.x)
    };
    let first = ways.iter().map(|way| (behind(way.form), way.form)).min_by(|a, b| a.0.1.total_cmp(&b.0.1));
    let ((x, right), form) = first.unwrap_or(((extent, extent), 0));
    board.end = right;
    let mut best = Place { form, at: Spot { x, y: board.room.low.y } };
    let mut tops: Vec<(f64, Place)> = vec![(score(board, best), best)];
    for _ in 0..TRIES {
        let form = ways[random.below(ways.len())].form;
        let Some((low, high)) = board.range(piece, form) else { continue };
        let at = Spot { x: random.between(low.x, high.x).round(), y: random.between(low.y, high.y).round() };
        let place = Place { form, at };
        let value = score(board, place);
        let worst = tops.last().map_or(f64::INFINITY, |(value, _)| *value);
        meter.count();
        if (value < worst || tops.len() < WALKS) && board.free(piece, form, at) {
            let rank = tops.partition_point(|(known, _)| *known <= value);
            tops.insert(rank, (value, place));
            tops.truncate(WALKS);
        }
    }
    let walked = tops.into_iter().map(|(_, place)| slide(board, piece, place, meter));
    if let Some(place) = walked.min_by(|a, b| score(board, *a).total_cmp(&score(board, *b))) {
        best = place;
    }
    best
}

/// Right end, and a little of the height.
fn score(board: &Board, place: Place) -> f64 {
    place.at.x + board.table.forms[place.form].size.x + place.at.y * 0.05
}

/// Slides a free piece left and down in steps that shrink when they are blocked.
fn slide(board: &Board, piece: usize, mut place: Place, meter: &mut Meter) -> Place {
    let Some((low, high)) = board.range(piece, place.form) else { return place };
    let size = board.table.forms[place.form].size;
    let mut step = size.x.max(size.y);
    while step >= 1.0 {
        let from = place.at;
        for (dx, dy) in [(-1.0, 0.0), (0.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            let at = Spot {
                x: (place.at.x + dx * step).round().clamp(low.x, high.x),
                y: (place.at.y + dy * step).round().clamp(low.y, high.y),
            };
            let next = Place { form: place.form, at };
            if at != place.at && score(board, next) < score(board, place) {
                meter.count();
                if board.free(piece, place.form, at) {
                    place = next;
                }
            }
        }
        if place.at == from {
            step *= 0.5;
        }
    }
    place
}

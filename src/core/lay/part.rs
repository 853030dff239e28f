//! Takes overlapping pieces apart on a strip of fixed length: one after another they look for a better place, and overlaps
//! that stay weigh more and more. Every round is tried twice and the better try kept.

use super::board::{Board, Place};
use super::meter::Meter;
use super::random::Random;
use super::seek;

/// How long to go on without progress.
#[derive(Debug, Clone, Copy)]
pub struct Patience {
    /// Rounds in a row without less overlap.
    pub rounds: usize,
    /// How often to go back to the least overlap and try again.
    pub strikes: usize,
    /// More overlap than this is hopeless: a few rounds without less, and it is given up.
    pub hope: f64,
}

/// What was reached.
#[derive(Debug)]
pub struct Parted {
    /// The least overlap, 0 if there is none.
    pub cost: f64,
    /// Where the pieces stood then.
    pub places: Vec<Place>,
}

/// Rounds in a row without less overlap while there is no hope.
const HOPELESS: usize = 15;
/// Less than this much of the former overlap counts as progress.
const PROGRESS: f64 = 0.98;

/// Moves pieces until none overlap, or patience or budget are used up; the board is left at the least overlap.
pub fn part(board: &mut Board, random: &mut Random, meter: &mut Meter, patience: Patience) -> Parted {
    let mut least = Parted { cost: board.total(), places: board.places.clone() };
    let (mut stale, mut strikes, mut mark) = (0, 0, least.cost);
    while least.cost > 0.0 && !meter.empty() {
        round(board, random, meter);
        let cost = board.total();
        if cost < least.cost {
            least = Parted { cost, places: board.places.clone() };
        }
        if cost == 0.0 {
            break;
        }
        board.learn();
        if cost < mark * PROGRESS {
            (mark, stale) = (cost, 0);
        } else {
            stale += 1;
        }
        let hopeless = least.cost > patience.hope;
        if stale > if hopeless { HOPELESS } else { patience.rounds } {
            strikes += 1;
            if hopeless || strikes >= patience.strikes {
                break;
            }
            board.restore(&least.places);
            stale = 0;
        }
    }
    board.restore(&least.places);
    least
}

/// Two tries at a round from the same start, each in its own order; the one that leaves less, as it weighs, counts.
fn round(board: &mut Board, random: &mut Random, meter: &mut Meter) {
    let before = board.places.clone();
    once(board, random, meter);
    let first = board.weighed();
    if first == 0.0 {
        return;
    }
    let places = board.places.clone();
    board.restore(&before);
    once(board, random, meter);
    if first <= board.weighed() {
        board.restore(&places);
    }
}

/// Every piece that overlaps another looks once for a better place, in a random order.
fn once(board: &mut Board, random: &mut Random, meter: &mut Meter) {
    let mut pieces = board.meeting();
    random.shuffle(&mut pieces);
    for piece in pieces {
        if board.standing(piece) > 0.0 && !meter.empty() {
            let found = seek::better(board, piece, random, meter);
            if found.place != board.places[piece] {
                board.put(piece, found.place);
            }
        }
    }
}

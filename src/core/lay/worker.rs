//! One worker's search: ever shorter strips, first with bold steps and fresh disorder (exploring), then with small ones
//! (pressing).

use super::board::{Board, Place};
use super::form::Spot;
use super::meter::Meter;
use super::part::{Patience, part};
use super::random::Random;

/// A lay without overlaps.
#[derive(Debug, Clone)]
pub struct Found {
    /// Where the pieces stand.
    pub places: Vec<Place>,
    /// Where the last one ends, in µm.
    pub end: f64,
}

/// A worker with its own board and stream of random numbers.
pub struct Worker<'a> {
    /// The board; between slices it stands anywhere.
    pub board: Board<'a>,
    /// The best lay it knows.
    pub best: Found,
    /// Its part of the budget.
    pub meter: Meter<'a>,
    random: Random,
    /// Attempts that nearly came apart at the present length, least overlap first.
    pool: Vec<(f64, Vec<Place>)>,
    /// Shrinkage tried next while pressing.
    press: f64,
    /// Shrinkage tried next while exploring.
    bold: f64,
    /// No strip can end before this, in µm.
    bound: f64,
}

/// Part of the length given up at a time while exploring, at first and at least.
const BOLD: (f64, f64) = (0.02, 0.001);
/// The first of them from a good start.
const CAREFUL: f64 = 0.002;
/// The same while pressing.
const PRESS: (f64, f64) = (0.0005, 0.000_01);
const EXPLORING: Patience = Patience { rounds: 60, strikes: 3 };
const PRESSING: Patience = Patience { rounds: 60, strikes: 2 };
/// Attempts kept in the pool.
const KEPT: usize = 12;

impl<'a> Worker<'a> {
    /// A worker that starts from the lay on the board.
    pub fn new(board: Board<'a>, meter: Meter<'a>, random: Random, bound: f64) -> Self {
        let best = Found { places: board.places.clone(), end: board.extent() };
        Self { board, best, meter, random, pool: Vec::new(), press: PRESS.0, bold: BOLD.0, bound }
    }

    /// Takes over a lay that is better than its own.
    pub fn adopt(&mut self, found: &Found) {
        if found.end < self.best.end {
            self.best = found.clone();
            self.pool.clear();
        }
    }

    /// Tries small steps from the beginning, as suits a start that is good already.
    pub fn careful(&mut self) {
        self.bold = CAREFUL;
    }

    /// Whether no shorter strip can be found.
    pub fn done(&mut self) -> bool {
        self.best.end <= self.bound || self.meter.empty()
    }

    /// Searches until so many evaluations are used, or the share of the budget, exploring or pressing.
    pub fn run(&mut self, until: u64, share: f64, exploring: bool) {
        while self.meter.used < until && self.meter.share() < share && !self.done() {
            if exploring {
                self.explore();
            } else {
                self.press();
            }
        }
    }

    /// One strip shorter than the best, from the best lay or from an attempt in the pool with two pieces swapped.
    fn explore(&mut self) {
        let end = (self.best.end * (1.0 - self.bold)).floor().max(self.bound);
        self.board.forget();
        if self.pool.is_empty() {
            self.board.end = self.best.end;
            self.board.restore(&self.best.places);
            self.shrink(end);
        } else {
            // A triangular draw favours attempts with little overlap.
            let rank = (self.random.unit() - self.random.unit()).abs() * self.pool.len() as f64;
            let places = self.pool[(rank as usize).min(self.pool.len() - 1)].1.clone();
            self.board.restore(&places);
            self.shrink(end);
            self.disturb();
        }
        let parted = part(&mut self.board, &mut self.random, &mut self.meter, EXPLORING);
        if parted.cost == 0.0 {
            self.keep();
            self.pool.clear();
        } else if self.bold > BOLD.1 {
            self.bold = (self.bold * 0.5).max(BOLD.1);
        } else {
            let rank = self.pool.partition_point(|(cost, _)| *cost <= parted.cost);
            self.pool.insert(rank, (parted.cost, parted.places));
            self.pool.truncate(KEPT);
        }
    }

    /// A slightly shorter strip from the best lay.
    fn press(&mut self) {
        self.board.forget();
        self.board.end = self.best.end;
        self.board.restore(&self.best.places);
        self.shrink((self.best.end * (1.0 - self.press)).floor().max(self.bound));
        let parted = part(&mut self.board, &mut self.random, &mut self.meter, PRESSING);
        if parted.cost == 0.0 {
            self.keep();
        } else {
            self.press = (self.press * 0.7).max(PRESS.1);
        }
    }

    fn keep(&mut self) {
        let end = self.board.extent();
        if end < self.best.end {
            self.best = Found { places: self.board.places.clone(), end };
        }
    }

    /// Shortens the strip: what stands right of a random place moves left, and nobody sticks out.
    fn shrink(&mut self, end: f64) {
        let less = (self.board.end - end).max(0.0);
        let cut = self.random.between(self.board.room.low.x, self.board.end);
        self.board.end = end;
        for piece in 0..self.board.places.len() {
            let Place { form, at } = self.fitting(piece);
            let Some((low, high)) = self.board.range(piece, form) else { continue };
            let middle = at.x + self.board.table.forms[form].size.x * 0.5;
            let x = if middle > cut { at.x - less } else { at.x };
            let at = Spot { x: x.clamp(low.x, high.x), y: at.y.clamp(low.y, high.y) };
            if (Place { form, at }) != self.board.places[piece] {
                self.board.put(piece, Place { form, at });
            }
        }
        if self.board.ring {
            self.board.recount();
        }
    }

    /// Where a piece stands, in another form if the strip has become too short for its own.
    fn fitting(&self, piece: usize) -> Place {
        let Place { form, at } = self.board.places[piece];
        let ways = &self.board.table.kinds[self.board.kinds[piece]].ways;
        let own = std::iter::once(form).chain(ways.iter().map(|way| way.form));
        let fits = own.into_iter().find(|form| self.board.range(piece, *form).is_some());
        Place { form: fits.unwrap_or(form), at }
    }

    /// Swaps two large pieces of different kinds.
    fn disturb(&mut self) {
        let board = &mut self.board;
        let area = |piece: &usize| board.table.kinds[board.kinds[*piece]].area;
        let mut large: Vec<usize> = (0..board.kinds.len()).collect();
        large.sort_by(|a, b| area(b).total_cmp(&area(a)).then(a.cmp(b)));
        large.truncate((board.kinds.len() / 2).max(2));
        let one = large[self.random.below(large.len())];
        let others: Vec<usize> = large.into_iter().filter(|piece| board.kinds[*piece] != board.kinds[one]).collect();
        if others.is_empty() {
            return;
        }
        let two = others[self.random.below(others.len())];
        let (first, second) = (board.places[one], board.places[two]);
        for (piece, form, there) in [(one, first.form, second), (two, second.form, first)] {
            if let Some((low, high)) = board.range(piece, form) {
                let (own, other) = (board.table.forms[form].size, board.table.forms[there.form].size);
                let x = (there.at.x + (other.x - own.x) * 0.5).round().clamp(low.x, high.x);
                let y = (there.at.y + (other.y - own.y) * 0.5).round().clamp(low.y, high.y);
                board.put(piece, Place { form, at: Spot { x, y } });
            }
        }
    }
}

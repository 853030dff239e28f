//! One worker's search: ever shorter strips, first with bold steps and fresh disorder, started again when nothing more comes
//! of it, then with small steps from the best lay.

use super::board::{Board, Place};
use super::form::Spot;
use super::meter::Meter;
use super::part::{Patience, part};
use super::random::Random;
use super::start::{ORDERS, start};

/// A lay without overlaps.
#[derive(Debug, Clone)]
pub struct Found {
    /// Where the pieces stand.
    pub places: Vec<Place>,
    /// Where the last one ends, in µm.
    pub end: f64,
}

/// What a worker is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Bold steps and fresh disorder; started again when nothing more comes of it.
    Apart,
    /// The same from the best lay only.
    Together,
    /// Small steps from the best lay.
    Pressing,
}

/// A worker with its own board and stream of random numbers.
pub struct Worker<'a> {
    /// The board; between slices it stands anywhere.
    pub board: Board<'a>,
    /// The best lay it knows.
    pub best: Found,
    /// The best since it started again, which it goes on from.
    last: Found,
    /// Attempts since then that gave no shorter lay, in a row.
    failed: usize,
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
const EXPLORING: Patience = Patience { rounds: 60, strikes: 3, hope: f64::INFINITY };
const PRESSING: Patience = Patience { rounds: 60, strikes: 2, hope: f64::INFINITY };
/// Attempts kept in the pool.
const KEPT: usize = 12;
/// Attempts that are too few to tell a hopeless one.
const FEW: usize = 6;
/// Attempts in a row that give no shorter lay before a worker starts again: with a lay about as good as its best, and with
/// one worse than that by more than a part of the length.
const ENOUGH: (usize, usize) = (50, 20);
const WORSE: f64 = 0.002;

impl<'a> Worker<'a> {
    /// A worker that starts from the lay on the board.
    pub fn new(board: Board<'a>, meter: Meter<'a>, random: Random, bound: f64) -> Self {
        let best = Found { places: board.places.clone(), end: board.extent() };
        let (last, pool) = (best.clone(), Vec::new());
        Self { board, best, last, failed: 0, meter, random, pool, press: PRESS.0, bold: BOLD.0, bound }
    }

    /// Goes on from a lay that is better than its last one.
    pub fn adopt(&mut self, found: &Found) {
        if found.end < self.last.end {
            self.go_on(found.clone());
        }
    }

    fn go_on(&mut self, found: Found) {
        if found.end < self.best.end {
            self.best = found.clone();
        }
        self.last = found;
        self.pool.clear();
        self.failed = 0;
    }

    /// Tries small steps from the beginning, as suits a start that is good already.
    pub fn careful(&mut self) {
        self.bold = CAREFUL;
    }

    /// Whether no shorter strip can be found.
    pub fn done(&mut self) -> bool {
        self.best.end <= self.bound || self.meter.empty()
    }

    /// Searches until so many evaluations are used, or the share of the budget.
    pub fn run(&mut self, until: u64, share: f64, phase: Phase) {
        while self.meter.used < until && self.meter.share() < share && !self.done() {
            // So that an attempt that moves nobody uses up something too.
            self.meter.count();
            match phase {
                Phase::Pressing => self.press(),
                Phase::Apart if self.stuck() => self.restart(),
                Phase::Apart | Phase::Together => self.explore(),
            }
        }
    }

    /// Whether nothing more is likely to come of the last lay.
    fn stuck(&self) -> bool {
        let close = self.last.end <= self.best.end * (1.0 + WORSE);
        // A ring has no beginning to start at.
        self.failed > if close { ENOUGH.0 } else { ENOUGH.1 } && !self.board.ring
    }

    /// A new first lay, in any order.
    fn restart(&mut self) {
        self.board.forget();
        (0..self.board.places.len()).for_each(|piece| self.board.take(piece));
        let order = ORDERS[self.random.below(ORDERS.len())];
        start(&mut self.board, order, &mut self.random, &mut self.meter);
        self.bold = BOLD.0;
        self.go_on(Found { places: self.board.places.clone(), end: self.board.extent() });
    }

    /// One strip shorter than the last lay, from there or from an attempt in the pool with two pieces swapped.
    fn explore(&mut self) {
        let end = (self.last.end * (1.0 - self.bold)).floor().max(self.bound);
        self.board.forget();
        if self.pool.is_empty() {
            self.board.end = self.last.end;
            self.board.restore(&self.last.places);
            self.shrink(end);
        } else {
            // A triangular draw favours attempts with little overlap.
            let rank = (self.random.unit() - self.random.unit()).abs() * self.pool.len() as f64;
            let places = self.pool[(rank as usize).min(self.pool.len() - 1)].1.clone();
            self.board.restore(&places);
            self.shrink(end);
            self.disturb();
        }
        let patience = Patience { hope: self.hope(), ..EXPLORING };
        let parted = part(&mut self.board, &mut self.random, &mut self.meter, patience);
        if parted.cost == 0.0 {
            self.keep();
        } else if self.bold > BOLD.1 {
            self.bold = (self.bold * 0.5).max(BOLD.1);
        } else {
            self.failed += 1;
            let rank = self.pool.partition_point(|(cost, _)| *cost <= parted.cost);
            self.pool.insert(rank, (parted.cost, parted.places));
            self.pool.truncate(KEPT);
        }
    }

    /// The overlap of the middle attempt in the pool, once there are a few.
    fn hope(&self) -> f64 {
        if self.pool.len() < FEW { f64::INFINITY } else { self.pool[self.pool.len() / 2].0 }
    }

    /// A slightly shorter strip from the last lay.
    fn press(&mut self) {
        self.board.forget();
        self.board.end = self.last.end;
        self.board.restore(&self.last.places);
        self.shrink((self.last.end * (1.0 - self.press)).floor().max(self.bound));
        let parted = part(&mut self.board, &mut self.random, &mut self.meter, PRESSING);
        if parted.cost == 0.0 {
            self.keep();
        } else {
            self.press = (self.press * 0.7).max(PRESS.1);
        }
    }

    /// Keeps the lay on the board, once the outlines themselves confirm what the fields say.
    fn keep(&mut self) {
        let end = self.board.extent();
        if end < self.last.end && self.board.sound() {
            self.go_on(Found { places: self.board.places.clone(), end });
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::grid::{GridPoint, Polygon};
    use crate::lay::instance::{Fabric, Instance, Piece, Turn};
    use crate::lay::meter::Budget;
    use crate::lay::table::Table;

    /// A worker that is stuck lays everything again, goes on from there, and keeps the best it had.
    #[test]
    fn a_stuck_worker_starts_again_and_keeps_its_best() {
        let corners = [(0, 0), (900, 100), (700, 800), (200, 500)];
        let outline = Polygon { points: corners.iter().map(|(x, y)| GridPoint::new(*x, *y)).collect() };
        let turns = vec![Turn::NONE, Turn::by(180.0)];
        let piece = Piece { id: "a".into(), outline, demand: 12, turns, fold: false };
        let instance = Instance { name: String::new(), fabric: Fabric::wide(2_500), pieces: vec![piece] };
        let table = Table::new(&instance);
        let meter = Meter::new(Budget::Evaluations(10_000_000), 1, &|| false);
        let mut board = Board::new(&instance, &table, instance.kinds());
        let (mut random, mut first) = (Random::new(1, 0), meter.clone());
        start(&mut board, ORDERS[0], &mut random, &mut first);
        let mut worker = Worker::new(board, meter, random, 0.0);
        worker.run(100_000, 1.0, Phase::Apart);
        let best = worker.best.end;
        assert!(best <= worker.last.end && !worker.stuck());
        worker.failed = ENOUGH.0 + 1;
        assert!(worker.stuck());
        // One evaluation more is room for one beginning.
        worker.run(worker.meter.used + 1, 1.0, Phase::Apart);
        assert!(worker.board.sound() && worker.pool.is_empty() && worker.failed == 0);
        assert!(worker.last.end > best && worker.best.end == best);
        let found = worker.best.clone();
        worker.adopt(&found);
        assert_eq!(worker.last.end, best);
    }
}

//! How much searching may still be done.

/// The budget of a search.
#[derive(Clone, Copy)]
pub enum Budget<'a> {
    /// So many evaluations, a place tried for a piece being one, over both workers: the same result everywhere.
    Evaluations(u64),
    /// Until the share of the time that is used up, as this tells it, reaches 1: not reproducible.
    Clock(&'a (dyn Fn() -> f64 + Sync)),
}

/// What one worker has used of its part of the budget.
#[derive(Clone)]
pub struct Meter<'a> {
    budget: Budget<'a>,
    stop: &'a (dyn Fn() -> bool + Sync),
    /// Evaluations so far.
    pub used: u64,
    /// Whether somebody asked to stop.
    pub stopped: bool,
    share: f64,
    next: u64,
}

/// Evaluations between two looks at the clock.
const LOOK: u64 = 2_000;

impl<'a> Meter<'a> {
    /// The meter of one of `workers` workers.
    pub fn new(budget: Budget<'a>, workers: u64, stop: &'a (dyn Fn() -> bool + Sync)) -> Self {
        let budget = match budget {
            Budget::Evaluations(count) => Budget::Evaluations((count / workers).max(1)),
            clock @ Budget::Clock(_) => clock,
        };
        Self { budget, stop, used: 0, stopped: false, share: 0.0, next: 0 }
    }

    /// Counts one evaluation.
    pub fn count(&mut self) {
        self.used += 1;
    }

    /// The share of the budget used up, from 0 to 1; a request to stop uses up all.
    pub fn share(&mut self) -> f64 {
        if self.used >= self.next && !self.stopped {
            self.next = self.used + LOOK;
            self.stopped = (self.stop)();
            if let Budget::Clock(clock) = self.budget {
                self.share = clock();
            }
        }
        match self.budget {
            _ if self.stopped => 1.0,
            Budget::Evaluations(count) => self.used as f64 / count as f64,
            Budget::Clock(_) => self.share,
        }
    }

    /// Whether nothing is left.
    pub fn empty(&mut self) -> bool {
        self.share() >= 1.0
    }
}

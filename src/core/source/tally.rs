//! How often a command did what need be done once.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A piece of work that takes time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// One text file parsed.
    Parse,
    /// One specification read into a model.
    Read,
    /// Its outlines and sewn surface worked out.
    Assemble,
    /// Its figures computed.
    Compute,
    /// Every rule asked about it.
    Judge,
    /// It taken apart into facts, for a comparison.
    State,
}

/// Every piece of work, in the order of [`Tally::counts`].
const ALL: [Work; 6] = [Work::Parse, Work::Read, Work::Assemble, Work::Compute, Work::Judge, Work::State];

/// Counts of one command. A clone counts into the same.
#[derive(Debug, Clone, Default)]
pub struct Tally(Arc<[AtomicUsize; ALL.len()]>);

impl Tally {
    /// Counts one piece of work.
    pub fn add(&self, work: Work) {
        if let Some(count) = ALL.iter().position(|one| *one == work).and_then(|at| self.0.get(at)) {
            count.fetch_add(1, Ordering::Relaxed);
        }
    }

    /// How often each piece of work was done.
    pub fn counts(&self) -> [(Work, usize); ALL.len()] {
        let mut at = 0;
        ALL.map(|work| {
            at += 1;
            (work, self.0[at - 1].load(Ordering::Relaxed))
        })
    }

    /// How often this was done.
    pub fn count(&self, work: Work) -> usize {
        self.counts().iter().find(|(one, _)| *one == work).map_or(0, |(_, count)| *count)
    }
}

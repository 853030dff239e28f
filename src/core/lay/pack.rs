//! Finds a short lay: two workers search on their own, for variety, and later tell each other about better lays. There are
//! two whatever the number of threads, so that a budget of evaluations gives the same lay everywhere.

use super::block;
use super::board::{Board, Place};
use super::bound;
use super::instance::{Bad, Instance};
use super::laid::{Lay, Placed};
use super::meter::{Budget, Meter};
use super::random::Random;
use super::start::{ORDERS, start};
use super::table::Table;
use super::valid;
use super::worker::{Found, Phase, Worker};
use crate::geom::grid::GridPoint;

/// Workers, whatever the number of threads.
const WORKERS: u64 = 2;
/// Share of the budget after which strips are pressed instead of explored.
const EXPLORED: f64 = 0.9;
/// Share of the budget for which the workers do not tell each other what they have found.
const APART: f64 = 0.65;
/// Evaluations of a worker between two looks at what the other has.
const SLICE: u64 = 200_000;

/// How to search.
#[derive(Clone, Copy)]
pub struct Options<'a> {
    /// How long.
    pub budget: Budget<'a>,
    /// Which random numbers.
    pub seed: u64,
    /// Threads, 1 or more; the result does not depend on them as long as the budget is one of evaluations.
    pub threads: usize,
    /// Asked now and then whether to stop with the best so far.
    pub stop: &'a (dyn Fn() -> bool + Sync),
    /// Told about the best lay so far.
    pub observe: &'a dyn Fn(Progress),
}

/// How far a search has come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Progress {
    /// Length of the best lay so far, in µm.
    pub length: i64,
    /// Share of the budget used, from 0 to 1.
    pub share: f64,
}

/// What came of a search.
#[derive(Debug, Clone, PartialEq)]
pub struct Packed {
    /// The shortest lay found; it has passed [`valid::check`].
    pub lay: Lay,
    /// Whether it was stopped before the budget was used up.
    pub interrupted: bool,
    /// Whether the same input gives the same lay again.
    pub reproducible: bool,
    /// Places tried for pieces, by both workers.
    pub evaluations: u64,
}

/// Evaluations that suit an instance: what `backtack lay` uses when nothing else is asked. Two or three seconds for 30 pieces.
pub fn usual(instance: &Instance) -> u64 {
    (instance.count() as u64 * 600_000).clamp(2_000_000, 30_000_000)
}

/// Finds a short lay.
///
/// # Errors
/// If the instance cannot be laid, with the reason; or if the lay found does not pass the independent check, which is a
/// defect of this program.
pub fn pack(instance: &Instance, options: Options) -> Result<Packed, Bad> {
    instance.check()?;
    let table = Table::new(instance);
    let kinds = instance.kinds();
    let end = (bound::least(instance) - instance.fabric.end) as f64;
    let mut workers = begun(instance, &table, &kinds, options, end);
    share_best(&mut workers);
    search(&mut workers, instance.fabric.end, options);
    let evaluations = workers.iter().map(|worker| worker.meter.used).sum();
    let interrupted = workers.iter().any(|worker| worker.meter.stopped);
    let best = workers.iter().min_by(|a, b| a.best.end.total_cmp(&b.best.end));
    let best = best.ok_or_else(|| Bad("the search broke off, a defect".into()))?;
    let lay = finished(instance, &table, &best.best)?;
    let reproducible = !interrupted && matches!(options.budget, Budget::Evaluations(_));
    Ok(Packed { lay, interrupted, reproducible, evaluations })
}

/// Both workers with their first lays.
fn begun<'a>(
    instance: &Instance,
    table: &'a Table,
    kinds: &[usize],
    options: Options<'a>,
    bound: f64,
) -> Vec<Worker<'a>> {
    // The observer stays with this thread.
    let Options { budget, seed, stop, threads, .. } = options;
    let one = move |number| worker(instance, table, kinds, (Meter::new(budget, WORKERS, stop), seed), number, bound);
    if threads < 2 {
        return (0..WORKERS).map(one).collect();
    }
    std::thread::scope(|scope| {
        let running: Vec<_> = (0..WORKERS).map(|number| scope.spawn(move || one(number))).collect();
        running.into_iter().filter_map(|thread| thread.join().ok()).collect()
    })
}

/// A worker with a block repeated, or the best of a few simple lays.
fn worker<'a>(
    instance: &Instance,
    table: &'a Table,
    kinds: &[usize],
    (mut meter, seed): (Meter<'a>, u64),
    number: u64,
    bound: f64,
) -> Worker<'a> {
    let mut random = Random::new(seed, number);
    if let Some(board) = block::repeated(instance, table, kinds, &mut random, &mut meter) {
        let mut worker = Worker::new(board, meter, random, bound);
        worker.careful();
        return worker;
    }
    let mut best: Option<Board> = None;
    for order in ORDERS.iter().skip(number as usize).step_by(WORKERS as usize) {
        let mut board = Board::new(instance, table, kinds.to_vec());
        start(&mut board, *order, &mut random, &mut meter);
        if best.as_ref().is_none_or(|known| board.end < known.end) {
            best = Some(board);
        }
        // With hundreds of pieces one order is enough; with none of the budget left too.
        if meter.share() > 0.05 {
            break;
        }
    }
    let board = best.unwrap_or_else(|| Board::new(instance, table, kinds.to_vec()));
    Worker::new(board, meter, random, bound)
}

fn search(workers: &mut [Worker], margin: i64, options: Options) {
    let mut until = 0;
    for (share, phase) in [(APART, Phase::Apart), (EXPLORED, Phase::Together), (1.0, Phase::Pressing)] {
        if phase != Phase::Apart {
            share_best(workers);
        }
        while workers.iter_mut().any(|worker| worker.meter.share() < share && !worker.done()) {
            until += SLICE;
            slice(workers, until, share, phase, options.threads);
            let used = workers.iter_mut().map(|worker| worker.meter.share()).fold(1.0, f64::min);
            if phase != Phase::Apart {
                share_best(workers);
            }
            let end = workers.iter().map(|worker| worker.best.end).fold(f64::INFINITY, f64::min);
            (options.observe)(Progress { length: end as i64 + margin, share: used });
        }
    }
}

/// Each worker goes on for a while; the order in which threads take them does not matter.
fn slice(workers: &mut [Worker], until: u64, share: f64, phase: Phase, threads: usize) {
    if threads < 2 {
        workers.iter_mut().for_each(|worker| worker.run(until, share, phase));
        return;
    }
    std::thread::scope(|scope| {
        for worker in workers.iter_mut() {
            scope.spawn(move || worker.run(until, share, phase));
        }
    });
}

fn share_best(workers: &mut [Worker]) {
    let best = workers.iter().min_by(|a, b| a.best.end.total_cmp(&b.best.end)).map(|worker| worker.best.clone());
    if let Some(best) = best {
        workers.iter_mut().for_each(|worker| worker.adopt(&best));
    }
}

/// A lay from the board back to the pieces of the instance, past the independent check.
pub fn finished(instance: &Instance, table: &Table, found: &Found) -> Result<Lay, Bad> {
    let lay = lay(instance, table, found);
    valid::check(instance, &lay).map_err(|fault| Bad(format!("the lay found is not valid, a defect: {fault}")))?;
    Ok(lay)
}

/// A lay from the board back to the pieces of the instance.
fn lay(instance: &Instance, table: &Table, found: &Found) -> Lay {
    let mut placed = Vec::with_capacity(found.places.len());
    let ids =
        instance.pieces.iter().enumerate().flat_map(|(piece, one)| (0..one.demand).map(move |copy| (piece, copy)));
    for ((piece, copy), Place { form, at }) in ids.zip(&found.places) {
        if let Some(way) = table.kinds[piece].ways.iter().find(|way| way.form == *form) {
            let at = GridPoint::new(at.x as i64 - way.shift.x, at.y as i64 - way.shift.y);
            placed.push(Placed { piece, copy, turn: way.turn, at });
        }
    }
    Lay { length: found.end as i64 + instance.fabric.end, placed }
}

//! A start for large demands: a block of some of the pieces, packed on a ring so that copies of it interlock, and repeated.

use super::board::{Board, Place};
use super::form::Spot;
use super::instance::Instance;
use super::meter::Meter;
use super::random::Random;
use super::start::{Order, leftmost, start};
use super::table::Table;
use super::worker::{Phase, Worker};

/// Pieces of a block, about, and from how many pieces on a block is tried.
const PIECES: usize = 80;
const MANY: usize = 240;
/// Share of the budget used when the block must be done.
const SHARE: f64 = 0.4;

/// How often a block is repeated, and how many of each piece are in it.
struct Block {
    times: usize,
    parts: Vec<usize>,
}

impl Block {
    /// A block that takes up most of the pieces; none for small demands.
    fn of(instance: &Instance) -> Option<Self> {
        let count = instance.count();
        if count < MANY {
            return None;
        }
        // The number of copies that leaves the least area over.
        let about = count / PIECES;
        let left = |times: &usize| -> i128 {
            instance.pieces.iter().map(|piece| piece.outline.area2().abs() * (piece.demand % times) as i128).sum()
        };
        let times =
            (about * 2 / 3..=about * 4 / 3).filter(|times| *times > 1).min_by_key(|times| (left(times), *times))?;
        let parts: Vec<usize> = instance.pieces.iter().map(|piece| piece.demand / times).collect();
        (left(&times) * 3 < instance.area2() && parts.iter().any(|part| *part > 0)).then_some(Self { times, parts })
    }
}

/// A lay of repeated blocks, what is left over behind them; none if there are too few pieces.
pub fn repeated<'a>(
    instance: &Instance,
    table: &'a Table,
    kinds: &[usize],
    random: &mut Random,
    meter: &mut Meter<'a>,
) -> Option<Board<'a>> {
    let block = Block::of(instance)?;
    let own: Vec<usize> = block.parts.iter().enumerate().flat_map(|(kind, part)| vec![kind; *part]).collect();
    let mut small = Board::new(instance, table, own);
    start(&mut small, Order::Area, random, meter);
    small.ring = true;
    small.recount();
    let bound = narrowest(&small);
    let seed = Random::new(random.bits(), 0);
    let mut worker = Worker::new(small, meter.clone(), seed, bound);
    worker.run(u64::MAX, SHARE * 0.8, Phase::Together);
    worker.run(u64::MAX, SHARE, Phase::Pressing);
    *meter = worker.meter.clone();
    Some(unrolled(instance, table, kinds, &block, &worker, random, meter))
}

/// No ring is shorter than its pieces' area needs, or its longest piece, gap included.
fn narrowest(board: &Board) -> f64 {
    let area: f64 = board.kinds.iter().map(|kind| board.table.kinds[*kind].area).sum();
    let long = |kind: &usize| {
        let forms = board.table.kinds[*kind].ways.iter().map(|way| &board.table.forms[way.form]);
        forms.map(|form| form.high.x - form.low.x).fold(f64::INFINITY, f64::min)
    };
    let longest = board.kinds.iter().map(long).fold(0.0, f64::max);
    board.room.low.x + (area / (board.room.top - board.room.low.y)).max(longest).ceil()
}

fn unrolled<'a>(
    instance: &Instance,
    table: &'a Table,
    kinds: &[usize],
    block: &Block,
    worker: &Worker,
    random: &mut Random,
    meter: &mut Meter,
) -> Board<'a> {
    let mut board = Board::new(instance, table, kinds.to_vec());
    let round = worker.best.end - board.room.low.x;
    let (mut first, mut within, mut rest) = (0, 0, Vec::new());
    for (piece, part) in instance.pieces.iter().zip(&block.parts) {
        for copy in 0..piece.demand {
            if copy >= block.times * part {
                rest.push(first + copy);
                continue;
            }
            let Place { form, at } = worker.best.places[within + copy % part];
            let x = at.x + round * (copy / part) as f64;
            board.put(first + copy, Place { form, at: Spot { x, y: at.y } });
        }
        first += piece.demand;
        within += part;
    }
    rest.sort_by(|a, b| table.kinds[kinds[*b]].area.total_cmp(&table.kinds[kinds[*a]].area).then(a.cmp(b)));
    let mut extent = (0..kinds.len()).filter(|piece| !rest.contains(piece)).fold(board.room.low.x, |far, piece| {
        let place = board.places[piece];
        far.max(place.at.x + table.forms[place.form].size.x)
    });
    for piece in rest {
        let place = leftmost(&mut board, piece, extent, random, meter);
        board.put(piece, place);
        extent = extent.max(place.at.x + table.forms[place.form].size.x);
    }
    board.end = extent;
    board
}

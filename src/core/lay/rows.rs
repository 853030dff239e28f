//! Row lays for dies: strips of one die shape, struck row by row across the roll, small pieces in the gaps between them.
//!
//! A press does not cut a tight interlocked lay: the die is set down at an even pitch. Each strike cuts one piece; the gap
//! of the fabric is the distance between strikes (2 to 4 mm for a die, *common practice*).

use super::board::{Board, Place};
use super::form::Spot;
use super::instance::{Bad, Instance};
use super::laid::{Lay, Placed};
use super::meter::{Budget, Meter};
use super::pack::finished;
use super::random::Random;
use super::start::leftmost;
use super::table::Table;
use super::worker::Found;

/// A piece goes into gaps if its area is at most this part of the largest one's.
const SMALL: f64 = 0.25;
/// Evaluations for looking for gaps, a piece.
const LOOKS: u64 = 2_000;

/// One row: a die set down again and again across the roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Which piece of the instance.
    pub piece: usize,
    /// Strikes in the row.
    pub strikes: usize,
    /// From one strike to the next, in µm.
    pub pitch: i64,
}

/// A lay in rows.
#[derive(Debug, Clone, PartialEq)]
pub struct RowLay {
    /// The lay; it has passed the same check as any other.
    pub lay: Lay,
    /// The rows from left to right.
    pub rows: Vec<Row>,
    /// Pieces struck in gaps between the rows.
    pub between: usize,
    /// Strikes in all: one a piece.
    pub strikes: usize,
}

/// Lays an instance in rows, the largest pieces first.
///
/// # Errors
/// If the instance cannot be laid, or a piece belongs on the fold, which no die can cut.
pub fn rows(instance: &Instance) -> Result<RowLay, Bad> {
    instance.check()?;
    if let Some(piece) = instance.pieces.iter().find(|piece| piece.fold) {
        return Err(Bad(format!("piece {}: a die cuts whole shapes, none on the fold", piece.id)));
    }
    let table = Table::new(instance);
    let kinds = instance.kinds();
    let mut order: Vec<usize> = (0..instance.pieces.len()).collect();
    order.sort_by(|a, b| table.kinds[*b].area.total_cmp(&table.kinds[*a].area).then(a.cmp(b)));
    let largest = order.first().map_or(0.0, |kind| table.kinds[*kind].area);
    let mut work = Work { board: Board::new(instance, &table, kinds), extent: 0.0, rows: Vec::new(), between: 0 };
    work.extent = work.board.room.low.x;
    let mut short = Vec::new();
    for kind in order {
        let mut wanted: Vec<usize> = (0..work.board.kinds.len()).filter(|one| work.board.kinds[*one] == kind).collect();
        if table.kinds[kind].area <= largest * SMALL {
            wanted.retain(|piece| !work.fits_between(*piece));
        }
        let Some(strip) = work.strip(kind, wanted.len()) else { continue };
        let left = wanted.split_off(wanted.len() - wanted.len() % strip.count);
        wanted.chunks(strip.count).for_each(|row| work.strike(kind, strip, row));
        short.push((kind, strip, left));
    }
    // What fills no row comes last, so that no full row has to stand behind it.
    for (kind, strip, mut left) in short {
        if left.len() * 2 <= strip.count {
            left.retain(|piece| !work.fits_between(*piece));
        }
        work.strike(kind, strip, &left);
    }
    let found = Found { places: work.board.places.clone(), end: work.extent };
    let lay = finished(instance, &table, &found)?;
    let strikes = lay.placed.len();
    Ok(RowLay { lay, rows: work.rows, between: work.between, strikes })
}

/// What one kind of piece takes in rows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullRow {
    /// Pieces of it in the instance.
    pub pieces: u64,
    /// Strikes in a full row.
    pub strikes: u64,
    /// Length of a row, µm.
    pub length: f64,
}

/// The row of each kind of piece, as [`rows`] strikes it; none of a piece that has no row across the roll.
///
/// # Errors
/// If the instance cannot be laid.
pub fn full(instance: &Instance) -> Result<Vec<FullRow>, Bad> {
    instance.check()?;
    let table = Table::new(instance);
    let kinds = instance.kinds();
    let work = Work { board: Board::new(instance, &table, kinds), extent: 0.0, rows: Vec::new(), between: 0 };
    let row = |kind: usize| {
        let pieces = work.board.kinds.iter().filter(|one| **one == kind).count();
        let strip = work.strip(kind, pieces)?;
        let length = work.board.table.forms[strip.form].size.x;
        Some(FullRow { pieces: pieces as u64, strikes: strip.count as u64, length })
    };
    Ok((0..instance.pieces.len()).filter_map(row).collect())
}

/// How many products, up to a number, take the least length of rows each: their rows are full, or nearly. Of what takes as
/// much, the most.
#[must_use]
pub fn filling(rows: &[FullRow], most: u64) -> u64 {
    let each = |products: u64| {
        let of = |row: &FullRow| row.length * (products * row.pieces).div_ceil(row.strikes.max(1)) as f64;
        rows.iter().map(of).sum::<f64>() / products as f64
    };
    (most.div_ceil(2)..=most).rev().min_by(|a, b| each(*a).total_cmp(&each(*b))).unwrap_or(most)
}

/// The rows of a lay that dies strike: strikes of one piece in one turn that stand in line across the roll. A piece struck
/// by itself is a row of one, without a pitch.
pub fn struck(lay: &Lay) -> Vec<Row> {
    let mut placed: Vec<_> = lay.placed.iter().collect();
    placed.sort_by(|a, b| {
        let turn = a.turn.degrees.total_cmp(&b.turn.degrees).then(a.turn.mirrored.cmp(&b.turn.mirrored));
        a.piece.cmp(&b.piece).then(turn).then((a.at.x, a.at.y).cmp(&(b.at.x, b.at.y)))
    });
    let rows = placed.chunk_by(|a, b| (a.piece, a.turn, a.at.x) == (b.piece, b.turn, b.at.x));
    let row = |row: &[&Placed]| {
        let pitch = row.first().zip(row.get(1)).map_or(0, |(one, next)| next.at.y - one.at.y);
        row.first().map(|one| Row { piece: one.piece, strikes: row.len(), pitch })
    };
    rows.filter_map(row).collect()
}

/// A row of one form across the roll.
#[derive(Clone, Copy)]
struct Strip {
    form: usize,
    /// From one strike to the next, in µm.
    pitch: f64,
    /// Strikes in a full row.
    count: usize,
}

struct Work<'a> {
    board: Board<'a>,
    extent: f64,
    rows: Vec<Row>,
    between: usize,
}

impl Work<'_> {
    /// Puts a piece into a gap, if one is found within what the rows take up.
    fn fits_between(&mut self, piece: usize) -> bool {
        let (never, mut random) = (|| false, Random::new(piece as u64, 0));
        let mut meter = Meter::new(Budget::Evaluations(LOOKS), 1, &never);
        let place = leftmost(&mut self.board, piece, self.extent, &mut random, &mut meter);
        let inside = place.at.x + self.board.table.forms[place.form].size.x <= self.extent;
        if inside {
            self.board.put(piece, place);
            self.between += 1;
        }
        inside
    }

    /// How a kind is struck in rows: in the way of lying that takes least length.
    fn strip(&self, kind: usize, wanted: usize) -> Option<Strip> {
        let strips = self.board.table.kinds[kind].ways.iter().map(|way| {
            let (pitch, room) = (self.pitch(way.form), self.board.room);
            let free = room.top - room.low.y - self.board.table.forms[way.form].size.y;
            Strip { form: way.form, pitch, count: (free / pitch) as usize + 1 }
        });
        let length = |one: &Strip| self.board.table.forms[one.form].size.x * wanted.div_ceil(one.count) as f64;
        strips.min_by(|a, b| length(a).total_cmp(&length(b)))
    }

    /// Strikes one row, or what is left of one.
    fn strike(&mut self, kind: usize, strip: Strip, row: &[usize]) {
        if !row.is_empty() {
            self.set_down(row, strip.form, strip.pitch);
            self.rows.push(Row { piece: kind, strikes: row.len(), pitch: strip.pitch as i64 });
        }
    }

    /// The least even pitch across the roll at which the copies are free of each other, found by halving steps down from
    /// the height of the box.
    fn pitch(&self, form: usize) -> f64 {
        let (table, height) = (self.board.table, self.board.room.top - self.board.room.low.y);
        let free = |pitch: f64| {
            let most = (height / pitch) as usize + 1;
            (1..=most).all(|times| table.depth(form, form, 0.0, pitch * times as f64) == 0.0)
        };
        let one = &table.forms[form];
        let mut pitch = one.high.y - one.low.y;
        let mut step = (pitch / 2.0).floor();
        while step >= 1.0 {
            if pitch > step && free(pitch - step) {
                pitch -= step;
            } else {
                step = (step / 2.0).floor();
            }
        }
        pitch
    }

    /// Sets a row down behind everything and moves it left as one, as far as it goes; of a straight and a half-pitch start
    /// the one that ends further left.
    fn set_down(&mut self, row: &[usize], form: usize, pitch: f64) {
        let (room, one) = (self.board.room, &self.board.table.forms[form]);
        let spare = room.top - room.low.y - one.size.y - pitch * (row.len() - 1) as f64;
        let behind = self.extent + 2.0 * (one.high.x - one.size.x) + 2.0;
        let start = if self.extent > room.low.x { behind } else { room.low.x };
        let half = (pitch / 2.0).floor();
        let mut best: Option<(f64, f64)> = None;
        for up in [0.0, half].into_iter().filter(|up| *up <= spare.max(0.0)) {
            let x = self.leftward(row, form, pitch, start, room.low.y + up);
            if best.is_none_or(|(known, _)| x < known) {
                best = Some((x, room.low.y + up));
            }
        }
        let (x, y) = best.unwrap_or((start, room.low.y));
        for (number, piece) in row.iter().enumerate() {
            self.board.put(*piece, Place { form, at: Spot { x, y: y + pitch * number as f64 } });
        }
        self.extent = self.extent.max(x + one.size.x);
    }

    fn leftward(&self, row: &[usize], form: usize, pitch: f64, start: f64, y: f64) -> f64 {
        let free = |x: f64| {
            row.iter()
                .enumerate()
                .all(|(number, piece)| self.board.free(*piece, form, Spot { x, y: y + pitch * number as f64 }))
        };
        let (mut x, low) = (start, self.board.room.low.x);
        let mut step = self.board.table.forms[form].size.x.floor();
        while step >= 1.0 {
            if x - step >= low && free(x - step) {
                x -= step;
            } else {
                step = (step / 2.0).floor();
            }
        }
        x
    }
}

//! Row lays for dies: strips of one die shape, struck row by row across the roll, small pieces in the gaps between them.
//!
//! A press does not cut a tight interlocked lay: the die is set down at an even pitch. Each strike cuts one piece; the gap
//! of the cloth is the distance between strikes (2 to 4 mm for a die, *common practice*).

use super::board::{Board, Place};
use super::form::{Spot, Table};
use super::instance::{Bad, Instance};
use super::meter::{Budget, Meter};
use super::pack::{Lay, finished};
use super::random::Random;
use super::start::leftmost;
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
    for kind in order {
        let mut wanted: Vec<usize> = (0..work.board.kinds.len()).filter(|one| work.board.kinds[*one] == kind).collect();
        if table.kinds[kind].area <= largest * SMALL {
            wanted.retain(|piece| !work.fits_between(*piece));
        }
        work.strike(kind, &wanted);
    }
    let found = Found { places: work.board.places.clone(), end: work.extent };
    let lay = finished(instance, &table, &found)?;
    let strikes = lay.placed.len();
    Ok(RowLay { lay, rows: work.rows, between: work.between, strikes })
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

    /// Strikes pieces of one kind in rows, in the way of lying that takes least length.
    fn strike(&mut self, kind: usize, wanted: &[usize]) {
        let Some(first) = wanted.first() else { return };
        let ways = self.board.table.kinds[kind].ways.iter();
        let pitched = ways.map(|way| (way.form, self.pitch(way.form)));
        let full = |(form, pitch): &(usize, f64)| {
            let (room, size) = (self.board.room, self.board.table.forms[*form].size);
            (((room.top - room.low.y - size.y) / pitch) as usize + 1, size.x)
        };
        let cost = |one: &(usize, f64)| {
            let (count, length) = full(one);
            length * wanted.len().div_ceil(count) as f64
        };
        let Some((form, pitch)) = pitched.min_by(|a, b| cost(a).total_cmp(&cost(b))) else { return };
        let (count, _) = full(&(form, pitch));
        debug_assert!(self.board.kinds[*first] == kind);
        for row in wanted.chunks(count) {
            self.set_down(row, form, pitch);
            self.rows.push(Row { piece: kind, strikes: row.len(), pitch: pitch as i64 });
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

//! The strip during the search: where each piece stands, who overlaps whom and how deep, and what that weighs.

use super::field::Facing;
use super::form::Spot;
use super::instance::Instance;
use super::near::{Area, Near};
use super::overlap;
use super::table::Table;

/// Added to every depth of overlap, in parts of the smaller piece's root of area, so that the last touch of an overlap
/// still costs something.
const FLOOR: f64 = 0.01;

/// The cost of an overlap grows with the product of both areas to this power: large pieces find room first, small ones
/// beside them.
const SHAPE: f64 = 0.375;

/// Where a piece stands: a way of its kind, and the lower left corner of its box.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Place {
    /// The form, by number.
    pub form: usize,
    /// The corner.
    pub at: Spot,
}

/// A place tried, and what it costs.
#[derive(Debug, Clone, Copy)]
pub struct Tried {
    /// The place.
    pub place: Place,
    /// Its cost.
    pub cost: f64,
}

/// The part of the strip where pieces may lie, in µm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Lowest x and y.
    pub low: Spot,
    /// Highest y.
    pub top: f64,
}

/// Two pieces that overlap: the other one, and the cost before weighing.
type Link = (u32, f64);

/// A strip with pieces on it.
#[derive(Debug, Clone)]
pub struct Board<'a> {
    /// The forms.
    pub table: &'a Table,
    /// The kind of each piece.
    pub kinds: Vec<usize>,
    /// Where each piece stands.
    pub places: Vec<Place>,
    /// The fabric.
    pub room: Room,
    /// Where the strip ends, in µm.
    pub end: f64,
    /// Whether the strip is closed to a ring: what sticks out at the end comes in at the beginning.
    pub ring: bool,
    floors: Vec<f64>,
    shapes: Vec<f64>,
    near: Near,
    links: Vec<Vec<Link>>,
    weights: Vec<Vec<(u32, f64)>>,
}

impl<'a> Board<'a> {
    /// An empty strip for the pieces of these kinds; nobody is on it until they are [`Self::put`].
    pub fn new(instance: &Instance, table: &'a Table, kinds: Vec<usize>) -> Self {
        let fabric = instance.fabric;
        let fold = table.kinds.iter().any(|kind| kind.fold);
        let low = Spot { x: fabric.end as f64, y: if fold { 0.0 } else { fabric.edge as f64 } };
        let room = Room { low, top: (fabric.width - fabric.edge) as f64 };
        let total: f64 = kinds.iter().map(|kind| table.kinds[*kind].area).sum();
        let mean = (total / kinds.len().max(1) as f64).sqrt();
        let root = |kind: &usize| table.kinds[*kind].area.sqrt();
        Self {
            table,
            floors: kinds.iter().map(|kind| root(kind) * FLOOR).collect(),
            shapes: kinds.iter().map(|kind| libm::pow(root(kind) / mean, 2.0 * SHAPE)).collect(),
            places: vec![Place::default(); kinds.len()],
            near: Near::new(kinds.len(), total, room.top),
            links: vec![Vec::new(); kinds.len()],
            weights: vec![Vec::new(); kinds.len()],
            kinds,
            room,
            end: 0.0,
            ring: false,
        }
    }

    /// Lowest and highest place of a piece in a form; none if the strip is too short for it.
    pub fn range(&self, piece: usize, form: usize) -> Option<(Spot, Spot)> {
        let size = self.table.forms[form].size;
        let low = self.room.low;
        let fold = self.table.kinds[self.kinds[piece]].fold;
        let y = if fold { low.y } else { self.room.top - size.y };
        let high = Spot { x: self.end - size.x, y };
        if high.x < low.x || high.y < low.y {
            return None;
        }
        Some((low, if self.ring { Spot { x: self.end - 1.0, y } } else { high }))
    }

    fn area(&self, form: usize, at: Spot) -> Area {
        let form = &self.table.forms[form];
        [at.x + form.low.x, at.y + form.low.y, at.x + form.high.x, at.y + form.high.y]
    }

    /// Puts a piece somewhere, from wherever it was.
    pub fn put(&mut self, piece: usize, place: Place) {
        self.take(piece);
        self.places[piece] = place;
        let area = self.area(place.form, place.at);
        self.near.put(piece, area);
        let links = self.meetings(piece, place);
        for (other, cost) in &links {
            self.links[*other as usize].push((piece as u32, *cost));
        }
        self.links[piece] = links;
    }

    /// Takes a piece off the strip.
    pub fn take(&mut self, piece: usize) {
        if !self.near.take(piece) {
            return;
        }
        for (other, _) in std::mem::take(&mut self.links[piece]) {
            self.links[other as usize].retain(|(back, _)| *back != piece as u32);
        }
    }

    /// Calls `each` with every other piece whose box meets that of a form at a place, until it says stop; on a ring also
    /// with those it meets once round, and how far that is.
    fn neighbours(&self, piece: usize, area: Area, mut each: impl FnMut(usize, f64) -> bool) {
        if !self.ring {
            self.near.each(area, &mut |other| other == piece || each(other, 0.0));
            return;
        }
        let round = self.end - self.room.low.x;
        let mut going = true;
        for shift in [0.0, -round, round] {
            let [x0, y0, x1, y1] = area;
            if going {
                self.near.each([x0 + shift, y0, x1 + shift, y1], &mut |other| {
                    going = other == piece || each(other, shift);
                    going
                });
            }
        }
    }

    fn cost(&self, piece: usize, other: usize, form: usize, at: Spot) -> f64 {
        let there = self.places[other];
        let depth = self.table.depth(there.form, form, at.x - there.at.x, at.y - there.at.y);
        if depth <= 0.0 {
            return 0.0;
        }
        (depth + self.floors[piece].min(self.floors[other])) * self.shapes[piece] * self.shapes[other]
    }

    /// Whom a piece would overlap, and the cost of each.
    fn meetings(&self, piece: usize, place: Place) -> Vec<Link> {
        let mut links = Vec::new();
        self.neighbours(piece, self.area(place.form, place.at), |other, shift| {
            let at = Spot { x: place.at.x + shift, y: place.at.y };
            let cost = self.cost(piece, other, place.form, at);
            if cost > 0.0 {
                links.push((other as u32, cost));
            }
            true
        });
        links
    }

    /// What it would cost to have a piece somewhere, weighed; given up once it is `bound` or more.
    pub fn weigh(&self, piece: usize, form: usize, at: Spot, bound: f64) -> f64 {
        let mut sum = 0.0;
        self.neighbours(piece, self.area(form, at), |other, shift| {
            let cost = self.cost(piece, other, form, Spot { x: at.x + shift, y: at.y });
            if cost > 0.0 {
                sum += cost * self.weight(piece, other);
            }
            sum < bound
        });
        sum
    }

    /// The ways out of and the distances from all pieces near a place, with the weight of each.
    pub fn facings(&self, piece: usize, form: usize, at: Spot, out: &mut Vec<(Facing, f64)>) {
        out.clear();
        self.neighbours(piece, self.area(form, at), |other, shift| {
            let there = self.places[other];
            let (dx, dy) = (at.x + shift - there.at.x, at.y - there.at.y);
            if let Some(facing) = self.table.facing(there.form, form, dx, dy) {
                out.push((facing, self.weight(piece, other)));
            }
            true
        });
    }

    /// Whether a piece would be free somewhere.
    pub fn free(&self, piece: usize, form: usize, at: Spot) -> bool {
        self.weigh(piece, form, at, f64::MIN_POSITIVE) == 0.0
    }

    /// Whether no outlines meet, looked at piece by piece instead of looked up.
    pub fn sound(&self) -> bool {
        let form = |piece: usize| &self.table.forms[self.places[piece].form].spots;
        (0..self.places.len()).all(|piece| {
            let Place { form: own, at } = self.places[piece];
            let mut free = true;
            self.neighbours(piece, self.area(own, at), |other, shift| {
                let there = self.places[other].at;
                let by = Spot { x: at.x + shift - there.x, y: at.y - there.y };
                free = other > piece || !overlap::meet(form(other), form(piece), by);
                free
            });
            free
        })
    }

    fn weight(&self, piece: usize, other: usize) -> f64 {
        let found = self.weights[piece].iter().find(|(id, _)| *id == other as u32);
        found.map_or(1.0, |(_, weight)| *weight)
    }

    /// The weighed cost of a piece where it stands.
    pub fn standing(&self, piece: usize) -> f64 {
        self.links[piece].iter().map(|(other, cost)| cost * self.weight(piece, *other as usize)).sum()
    }

    /// The cost of all overlaps, not weighed.
    pub fn total(&self) -> f64 {
        self.links.iter().flatten().map(|(_, cost)| cost).sum::<f64>() / 2.0
    }

    /// The weighed cost of all overlaps, each counted from both sides.
    pub fn weighed(&self) -> f64 {
        (0..self.places.len()).map(|piece| self.standing(piece)).sum()
    }

    /// Pieces that overlap others, in order.
    pub fn meeting(&self) -> Vec<usize> {
        self.links.iter().enumerate().filter(|(_, links)| !links.is_empty()).map(|(piece, _)| piece).collect()
    }

    /// Overlaps that stay weigh more, the deepest most; the others are slowly forgiven.
    pub fn learn(&mut self) {
        const FORGIVEN: f64 = 0.95;
        const MORE: (f64, f64) = (1.2, 2.0);
        let worst = self.links.iter().flatten().map(|(_, cost)| *cost).fold(0.0, f64::max);
        for weights in &mut self.weights {
            weights.iter_mut().for_each(|(_, weight)| *weight *= FORGIVEN);
        }
        for (links, weights) in self.links.iter().zip(&mut self.weights) {
            for (other, cost) in links {
                let factor = (MORE.0 + (MORE.1 - MORE.0) * cost / worst) / FORGIVEN;
                match weights.iter_mut().find(|(id, _)| id == other) {
                    Some((_, weight)) => *weight *= factor,
                    None => weights.push((*other, factor * FORGIVEN)),
                }
            }
            weights.retain(|(_, weight)| *weight > 1.0);
        }
    }

    /// Forgets all weights.
    pub fn forget(&mut self) {
        self.weights.iter_mut().for_each(Vec::clear);
    }

    /// Everyone to where they stood.
    pub fn restore(&mut self, places: &[Place]) {
        for (piece, place) in places.iter().enumerate() {
            if self.places[piece] != *place || !self.near.holds(piece) {
                self.put(piece, *place);
            }
        }
    }

    /// Works all overlaps out again: on a ring they depend on its length.
    pub fn recount(&mut self) {
        for piece in 0..self.places.len() {
            self.put(piece, self.places[piece]);
        }
    }

    /// Where the last piece ends, in µm; a ring ends where it closes.
    pub fn extent(&self) -> f64 {
        if self.ring {
            return self.end;
        }
        let right = |place: &Place| place.at.x + self.table.forms[place.form].size.x;
        self.places.iter().map(right).fold(self.room.low.x, f64::max)
    }
}

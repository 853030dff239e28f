//! Who is near: the pieces whose boxes may meet a given box, read off rows of bits, one bit for each piece.
//!
//! The strip is cut into sections of some dozens of pieces, and each section into bins along both axes. A bin knows which
//! boxes begin at it or before, and which end at it or behind: four rows of bits, joined, leave the boxes in question.

/// Pieces of a section, about; up to twice as many go into a single one.
const PIECES: usize = 64;
/// Bins of a section along each axis.
const BINS: usize = 64;
/// Length of the strip for its pieces' area; what lies further off counts to the last section.
const LOOSE: f64 = 1.4;
/// The box of a piece that is not on the strip.
const AWAY: Area = [f64::INFINITY; 4];
/// No piece.
const NONE: u32 = u32::MAX;

/// A box: lowest x and y, highest x and y, in µm.
pub type Area = [f64; 4];

/// The boxes of pieces on a strip.
#[derive(Debug, Clone)]
pub struct Near {
    /// The box of each piece; [`AWAY`] while it is not on the strip.
    boxes: Vec<Area>,
    sections: Vec<Section>,
    /// Length of a section, and one over it.
    length: f64,
    inverse: f64,
    /// Bins by µm, along and across.
    bins: (f64, f64),
}

/// The boxes that touch one section; each has a place of its own in the rows of bits.
#[derive(Debug, Clone)]
struct Section {
    /// The piece at each place, or [`NONE`].
    pieces: Vec<u32>,
    /// Length of a row in words of 64 bits.
    words: usize,
    /// By bin: boxes that begin there or before and that end there or behind, along x, then along y.
    rows: [Vec<u64>; 4],
}

impl Near {
    /// For so many pieces of this area on a strip from 0 to `top`; nothing is on it yet.
    pub fn new(count: usize, area: f64, top: f64) -> Self {
        let number = if count > 2 * PIECES { count.div_ceil(PIECES) } else { 1 };
        let length = (area * LOOSE / top / number as f64).max(1.0);
        let bins = (BINS as f64 / length, BINS as f64 / top);
        let (boxes, sections) = (vec![AWAY; count], vec![Section::new(); number]);
        Self { boxes, sections, length, inverse: 1.0 / length, bins }
    }

    /// The first and the last section a box touches.
    fn span(&self, area: Area) -> (usize, usize) {
        let section = |x: f64| ((x * self.inverse).max(0.0) as usize).min(self.sections.len() - 1);
        (section(area[0]), section(area[2]))
    }

    /// The bins a box begins and ends at in a section, along x and along y.
    fn bins(&self, section: usize, [x0, y0, x1, y1]: Area) -> [usize; 4] {
        let begin = section as f64 * self.length;
        let bin = |value: f64| (value.max(0.0) as usize).min(BINS - 1);
        let (along, across) = self.bins;
        [bin((x0 - begin) * along), bin((x1 - begin) * along), bin(y0 * across), bin(y1 * across)]
    }

    /// Whether a piece is on the strip.
    pub fn holds(&self, piece: usize) -> bool {
        self.boxes[piece] != AWAY
    }

    /// Puts a piece with this box on the strip; it must not be there.
    pub fn put(&mut self, piece: usize, area: Area) {
        self.boxes[piece] = area;
        let (first, last) = self.span(area);
        for number in first..=last {
            let bins = self.bins(number, area);
            let section = &mut self.sections[number];
            let place = section.place(NONE).unwrap_or_else(|| section.grow());
            section.pieces[place] = piece as u32;
            section.mark(place, bins, |word, bit| word | bit);
        }
    }

    /// Takes a piece off the strip: whether it was there.
    pub fn take(&mut self, piece: usize) -> bool {
        let area = std::mem::replace(&mut self.boxes[piece], AWAY);
        if area == AWAY {
            return false;
        }
        let (first, last) = self.span(area);
        for number in first..=last {
            let bins = self.bins(number, area);
            let section = &mut self.sections[number];
            if let Some(place) = section.place(piece as u32) {
                section.pieces[place] = NONE;
                section.mark(place, bins, |word, bit| word & !bit);
            }
        }
        true
    }

    /// Calls `each` once with every piece whose box meets this one, until it says stop.
    pub fn each(&self, area: Area, each: &mut impl FnMut(usize) -> bool) {
        let (first, last) = self.span(area);
        for number in first..=last {
            let [x0, x1, y0, y1] = self.bins(number, area);
            let section = &self.sections[number];
            let begun = section.row(0, x1).iter().zip(section.row(2, y1));
            let ended = section.row(1, x0).iter().zip(section.row(3, y0));
            for (word, ((a, b), (c, d))) in begun.zip(ended).enumerate() {
                let mut bits = a & b & c & d;
                while bits != 0 {
                    let other = section.pieces[word * 64 + bits.trailing_zeros() as usize] as usize;
                    bits &= bits - 1;
                    if self.meet(other, area, (first, number)) && !each(other) {
                        return;
                    }
                }
            }
        }
    }

    /// Whether the box of a piece meets this one, and did not in a section before.
    fn meet(&self, other: usize, [x0, y0, x1, y1]: Area, (first, number): (usize, usize)) -> bool {
        let there = self.boxes[other];
        let [p0, q0, p1, q1] = there;
        p0 < x1 && p1 > x0 && q0 < y1 && q1 > y0 && (number == first || self.span(there).0 == number)
    }
}

impl Section {
    fn new() -> Self {
        Self { pieces: Vec::new(), words: 0, rows: [const { Vec::new() }; 4] }
    }

    fn row(&self, which: usize, bin: usize) -> &[u64] {
        &self.rows[which][bin * self.words..][..self.words]
    }

    fn place(&self, piece: u32) -> Option<usize> {
        self.pieces.iter().position(|known| *known == piece)
    }

    /// Makes room for 64 more pieces: the first new place.
    fn grow(&mut self) -> usize {
        let (old, place) = (self.words, self.pieces.len());
        self.words += 1;
        self.pieces.resize(64 * self.words, NONE);
        for row in &mut self.rows {
            let mut wider = vec![0; BINS * self.words];
            for bin in 0..BINS {
                wider[bin * self.words..][..old].copy_from_slice(&row[bin * old..][..old]);
            }
            *row = wider;
        }
        place
    }

    /// Changes the bit of a place in every bin that knows its box.
    fn mark(&mut self, place: usize, [x0, x1, y0, y1]: [usize; 4], change: impl Fn(u64, u64) -> u64) {
        let (word, bit) = (place / 64, 1 << (place % 64));
        for (row, bins) in self.rows.iter_mut().zip([x0..BINS, 0..x1 + 1, y0..BINS, 0..y1 + 1]) {
            for bin in bins {
                let at = &mut row[bin * self.words + word];
                *at = change(*at, bit);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lay::random::Random;

    /// What is near is what a look at every box says, for one section and for many, and after pieces have moved.
    #[test]
    fn the_bits_say_what_the_boxes_say() {
        for count in [1, 60, 400] {
            let mut random = Random::new(5, count as u64);
            let mut near = Near::new(count, 1e6 * count as f64, 1e4);
            let long = 150.0 * count as f64;
            let mut any = |most: f64| {
                let (x, y) = (random.between(-300.0, long), random.between(-300.0, 1e4));
                [x, y, x + random.between(1.0, most), y + random.between(1.0, most)].map(f64::round)
            };
            let mut boxes: Vec<Area> = (0..count).map(|_| any(2500.0)).collect();
            boxes.iter().enumerate().for_each(|(piece, area)| near.put(piece, *area));
            for round in 0..2 * count {
                let piece = round % count;
                assert!(near.take(piece) && !near.holds(piece) && !near.take(piece));
                boxes[piece] = any(2500.0);
                near.put(piece, boxes[piece]);
                let [x0, y0, x1, y1] = any(5000.0);
                let meets = |b: &Area| b[0] < x1 && b[2] > x0 && b[1] < y1 && b[3] > y0;
                let expected: Vec<usize> = (0..count).filter(|piece| meets(&boxes[*piece])).collect();
                let mut found = Vec::new();
                near.each([x0, y0, x1, y1], &mut |piece| {
                    found.push(piece);
                    true
                });
                found.sort_unstable();
                assert_eq!(found, expected);
            }
        }
    }
}

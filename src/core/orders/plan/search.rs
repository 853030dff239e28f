//! Plans of large orders: built lay by lay, then a part taken away and rebuilt, again and again. The same input takes
//! the same steps.

use super::problem::Worth;
use super::ready::{Amounts, Ready};

/// Looks at a mix in a colour that one search may take.
const WORK: u64 = 12_000_000;

/// Buildings without a better plan after which no more are made.
const PATIENCE: u32 = 800;

/// Random numbers of a fixed beginning (SplitMix64, public domain).
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }

    /// From zero to one.
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// How one building weighs a mix.
#[derive(Clone, Copy)]
struct Taste {
    /// What a new lay costs, in products.
    lay: f64,
    /// How far chance goes.
    noise: f64,
}

struct Search<'a> {
    ready: &'a Ready<'a>,
    random: Random,
    work: u64,
    /// Length of one product in the most saving mix, µm.
    each: f64,
}

/// The best plan found from a first one, if there is one, and its worth. Stops early at what no plan can be below.
pub fn search(ready: &Ready<'_>, first: Option<Amounts>, below: (i64, u32)) -> Option<(Worth, Amounts)> {
    let each = ready.mixes.iter().map(|mix| mix.length as f64 / f64::from(mix.sets.iter().sum::<u32>().max(1)));
    let each = each.fold(f64::INFINITY, f64::min);
    let mut search = Search { ready, random: Random(1), work: 0, each };
    let mut best: Option<(Worth, Amounts)> = None;
    let keep = |best: &mut Option<(Worth, Amounts)>, amounts: Amounts| {
        // Packing rolls takes long: a plan that cannot be better is not packed.
        if best.as_ref().is_some_and(|(known, _)| ready.at_least(&amounts) > *known) {
            return;
        }
        let worth = ready.worth(&amounts);
        if best.as_ref().is_none_or(|(known, _)| worth <= *known) {
            *best = Some((worth, amounts));
        }
    };
    for lay in [0.0, 1.0, 4.0, 16.0, 64.0] {
        let mut amounts = ready.nothing();
        search.build(&mut amounts, Taste { lay, noise: 0.0 });
        keep(&mut best, amounts);
    }
    if let Some(first) = first {
        keep(&mut best, first);
    }
    let mut patience = PATIENCE;
    while search.work < WORK && patience > 0 {
        let (before, amounts) = best.as_ref()?;
        let before = *before;
        let mut amounts = amounts.clone();
        search.take_away(&mut amounts);
        let lay = [0.0, 0.5, 2.0, 8.0, 32.0, 128.0][search.random.below(6)];
        let noise = [0.0, 0.05, 0.3][search.random.below(3)];
        search.build(&mut amounts, Taste { lay, noise });
        keep(&mut best, amounts);
        let better = best.as_ref().is_some_and(|(worth, _)| *worth < before);
        patience = if better { PATIENCE } else { patience - 1 };
        // Fewer cannot be bought or spread; what is left to save is length of lays only.
        if best.as_ref().is_some_and(|(worth, _)| (worth.bought, worth.lays) <= below) && search.work > WORK / 8 {
            break;
        }
    }
    best
}

impl Search<'_> {
    /// Takes some groups away: all of a few mixes, or those of the last lay of each.
    fn take_away(&mut self, amounts: &mut Amounts) {
        let used: Vec<usize> =
            (0..amounts.len()).filter(|mix| amounts[*mix].iter().any(|groups| *groups > 0)).collect();
        let many = 1 + self.random.below(used.len().min(5));
        for _ in 0..many {
            let mix = used[self.random.below(used.len())];
            let keep = self.random.below(3);
            for groups in &mut amounts[mix] {
                *groups = match keep {
                    0 => 0,
                    1 => *groups / 2,
                    _ => groups.saturating_sub(self.ready.groups),
                };
            }
        }
    }

    /// Adds lays until everything wanted is made.
    fn build(&mut self, amounts: &mut Amounts, taste: Taste) {
        let mut made = self.ready.made(amounts);
        let mut there: Vec<u32> = amounts.iter().map(|groups| groups.iter().sum()).collect();
        let mut wishes = Vec::new();
        loop {
            self.work += (self.ready.mixes.len() * made.len()) as u64;
            let mut best: Option<(f64, usize)> = None;
            for (mix, there) in there.iter().enumerate() {
                let begun = there % self.ready.groups;
                self.wishes(mix, &made, &mut wishes);
                let (gain, total) = self.gain(mix, self.ready.groups - begun, &made, &wishes);
                if gain == 0 {
                    continue;
                }
                let length = self.ready.mixes[mix].length as f64 * f64::from(total) / self.each;
                let cost = length + if begun > 0 { 0.0 } else { taste.lay };
                let score = f64::from(gain) / cost * (1.0 + taste.noise * self.random.share());
                if best.is_none_or(|(known, _)| score > known) {
                    best = Some((score, mix));
                }
            }
            let Some((_, mix)) = best else { break };
            self.wishes(mix, &made, &mut wishes);
            let mut room = self.ready.groups - there[mix] % self.ready.groups;
            let one = &self.ready.mixes[mix];
            for (wish, colour) in &wishes {
                let groups = room.min(*wish);
                room -= groups;
                there[mix] += groups;
                amounts[mix][*colour] += groups;
                one.sizes.iter().for_each(|size| made[*colour][*size] += one.sets[*size] * groups);
            }
        }
    }

    /// Groups of a mix that each colour could take, the most first; none where nothing is wanted.
    fn wishes(&self, mix: usize, made: &[Vec<u32>], wishes: &mut Vec<(u32, usize)>) {
        let one = &self.ready.mixes[mix];
        wishes.clear();
        for (colour, made) in made.iter().enumerate() {
            let (low, high) = (&self.ready.low[colour], &self.ready.high[colour]);
            let (mut most, mut wanted) = (u32::MAX, 0);
            for size in &one.sizes {
                most = most.min(high[*size].saturating_sub(made[*size]) / one.sets[*size]);
                wanted = wanted.max(low[*size].saturating_sub(made[*size]).div_ceil(one.sets[*size]));
            }
            if most.min(wanted) > 0 {
                wishes.push((most.min(wanted), colour));
            }
        }
        wishes.sort_unstable_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    }

    /// Wanted products that one more lay of a mix, or what is left of one begun, best gives, and its groups.
    fn gain(&self, mix: usize, mut room: u32, made: &[Vec<u32>], wishes: &[(u32, usize)]) -> (u32, u32) {
        let one = &self.ready.mixes[mix];
        let (mut gain, mut total) = (0, 0);
        for (wish, colour) in wishes {
            let taken = room.min(*wish);
            if taken == 0 {
                break;
            }
            room -= taken;
            total += taken;
            let short = |size: &usize| self.ready.low[*colour][*size].saturating_sub(made[*colour][*size]);
            gain += one.sizes.iter().map(|size| short(size).min(one.sets[*size] * taken)).sum::<u32>();
        }
        (gain, total)
    }
}

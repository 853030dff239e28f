//! Random numbers that are the same everywhere: xoshiro256++ (Blackman and Vigna, public domain description), seeded by
//! splitmix64.

/// A stream of random numbers.
#[derive(Debug, Clone)]
pub struct Random {
    state: [u64; 4],
}

impl Random {
    /// The stream of a seed and a number within it.
    pub fn new(seed: u64, stream: u64) -> Self {
        let mut x = seed ^ stream.wrapping_mul(0xD1B5_4A32_D192_ED03);
        let mut next = || {
            x = x.wrapping_add(0x9E37_79B9_7F4A_7C15);
            let mut z = x;
            z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
            z ^ (z >> 31)
        };
        Self { state: [next(), next(), next(), next()] }
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        let [a, b, c, d] = self.state;
        let out = a.wrapping_add(d).rotate_left(23).wrapping_add(a);
        let (c, d) = (c ^ a, d ^ b);
        let (b2, a2) = (b ^ c, a ^ d);
        self.state = [a2, b2, c ^ (b << 17), d.rotate_left(45)];
        out
    }

    /// A number from 0 up to, but not including, 1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 * (1.0 / 9_007_199_254_740_992.0)
    }

    /// A whole number below `count`; 0 if there is none.
    pub fn below(&mut self, count: usize) -> usize {
        ((self.unit() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// A number between two, the lower if they are the wrong way round.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.unit() * (high - low).max(0.0)
    }

    /// Puts a list into a random order.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for end in (1..list.len()).rev() {
            list.swap(end, self.below(end + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first outputs of xoshiro256++ from the state 1, 2, 3, 4, as the reference implementation in C gives them
    /// (also the test vector of the Rust crate `rand_xoshiro`; *from memory*).
    #[test]
    fn the_stream_is_the_published_one() {
        let mut random = Random { state: [1, 2, 3, 4] };
        let first: Vec<u64> = (0..4).map(|_| random.bits()).collect();
        assert_eq!(first, [41_943_041, 58_720_359, 3_588_806_011_781_223, 3_591_011_842_654_386]);
    }

    #[test]
    fn numbers_stay_in_range() {
        let mut random = Random::new(7, 1);
        for _ in 0..10_000 {
            assert!((0.0..1.0).contains(&random.unit()) && random.below(3) < 3);
        }
        assert_eq!(random.below(0), 0);
    }
}

//! Numbers from a seed, so that whatever they made can be made again.

/// A seeded generator (splitmix64, Steele et al. 2014).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// A generator that gives the same numbers for the same seed.
    #[must_use]
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// A number from 0 up to, without, `most`; 0 when `most` is 0.
    pub fn below(&mut self, most: u64) -> u64 {
        self.next() % most.max(1)
    }

    /// A number from 0 up to, without, 1.
    pub fn unit(&mut self) -> f64 {
        // 53 bits are what a double holds.
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// True in so many of 100.
    pub fn chance(&mut self, percent: u64) -> bool {
        self.below(100) < percent
    }

    /// True with this probability.
    pub fn event(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// A draw from the normal distribution (Box & Muller 1958).
    pub fn normal(&mut self, mean: f64, deviation: f64) -> f64 {
        let radius = (-2.0 * (1.0 - self.unit()).ln()).sqrt();
        mean + deviation * radius * (std::f64::consts::TAU * self.unit()).cos()
    }

    /// One of these.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len() as u64) as usize]
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }
}

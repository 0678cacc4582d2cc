//! A fixed stream of numbers, the same in every run.

/// Numbers in [0, 1): multiplier and increment of Knuth's MMIX, high bits (from
/// memory).
pub struct Stream(pub u64);

impl Stream {
    /// The next number, at least 0 and under 1.
    pub fn number(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A place in a list of some length, which is at least 1.
    pub fn place(&mut self, length: usize) -> usize {
        let share = self.number() * length as f64;
        (1..length).take_while(|&next| next as f64 <= share).count()
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.number()
    }
}

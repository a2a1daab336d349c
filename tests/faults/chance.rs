//! Numbers that can be had again, and how many of something are asked for.

/// A small generator of numbers.
pub struct Numbers(pub u64);

impl Numbers {
    /// A number from 0 to below `n`.
    pub fn below(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }
}

/// The number in an environment variable, or the usual one.
pub fn asked(name: &str, usual: u32) -> u32 {
    std::env::var(name)
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(usual)
}

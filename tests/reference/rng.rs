//! A small generator of numbers, so that a failure can be had again.

/// Xorshift with a multiplied output (Vigna, 2014).
#[derive(Debug, Clone)]
pub struct Rng(u64);

impl Rng {
    pub const fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    const fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11
    }

    /// From 0 to below `n`.
    pub fn below(&mut self, n: usize) -> usize {
        let n = u64::try_from(n.max(1)).unwrap();
        usize::try_from(self.next() % n).unwrap()
    }

    /// True so many times in a hundred.
    pub fn percent(&mut self, n: usize) -> bool {
        self.below(100) < n
    }

    pub fn pick<T: Clone>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())].clone()
    }
}

//! Choices that follow from a seed.

/// A stream of choices from one seed.
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// Choices of a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number: one step of SplitMix64 (Steele, Lea and Flood, 2014).
    pub const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number from 0 to `n - 1`; 0 for none.
    pub fn below(&mut self, n: u32) -> u32 {
        let n = u64::from(n.max(1));
        u32::try_from(self.next() % n).unwrap()
    }

    /// A number within a range, ends included.
    pub fn within(&mut self, from: u8, to: u8) -> u8 {
        from + u8::try_from(self.below(u32::from(to - from) + 1)).unwrap()
    }

    /// True in so many of a hundred.
    pub fn chance(&mut self, percent: u32) -> bool {
        self.below(100) < percent
    }

    /// One of several, if there are any.
    pub fn pick<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        let n = u32::try_from(of.len()).unwrap();
        of.get(self.below(n) as usize)
    }

    /// One of several, by weight.
    pub fn weighed<T: Clone>(&mut self, of: &[(u32, T)]) -> T {
        let mut left = self.below(of.iter().map(|(w, _)| w).sum());
        for (weight, item) in of {
            if left < *weight {
                return item.clone();
            }
            left -= weight;
        }
        of[0].1.clone()
    }
}

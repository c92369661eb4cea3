//! Chance that comes out the same for the same seed.

/// A sequence of numbers in which no pattern is seen: the generator "splitmix64".
pub struct Dice(u64);

impl Dice {
    /// The sequence of this seed.
    pub fn new(seed: u64) -> Self {
        Dice(seed)
    }

    /// A number below this one, which is above 0.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ (mixed >> 31)) % limit as u64).expect("below a usize")
    }

    /// One of these.
    pub fn of<'a, T>(&mut self, choices: &'a [T]) -> &'a T {
        &choices[self.below(choices.len())]
    }
}

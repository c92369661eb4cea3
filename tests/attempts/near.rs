//! An input near those that are there: pieces of them cut, doubled, exchanged and mixed with words of the
//! notation. It must not know what is attempted.

use proptest::prelude::RngExt;
use proptest::test_runner::{RngAlgorithm, TestRng};

/// Pieces that mean something somewhere.
const PIECES: [&str; 24] = [
    "|",
    "-",
    "?",
    " rest ",
    "(",
    ")",
    "\n",
    "\n\n",
    "C4",
    "F#5",
    "Bb3",
    "B##9",
    "exercise\n",
    "species 5\n",
    "species 0\n",
    "soprano counter |",
    "alto cantus |",
    "harmony | V6/5 |",
    "allow cadence at 1 to 9\n",
    "meter 3/4\n",
    "key F# locrian\n",
    "\u{1d12b}",
    "\"",
    "%\n",
];

/// The input of a number; always the same one.
pub fn input(seeds: &[Vec<u8>], number: u64) -> Vec<u8> {
    let mut seed = [0; 32];
    seed[..8].copy_from_slice(&number.to_le_bytes());
    let mut chance = Chance(TestRng::from_seed(RngAlgorithm::ChaCha, &seed));
    let mut input = seeds[chance.below(seeds.len())].clone();
    for _ in 0..=chance.below(6) {
        let (from, to) = chance.range(input.len());
        match chance.below(4) {
            0 => drop(input.drain(from..to)),
            1 => {
                let piece = input[from..to].to_vec();
                let at = chance.below(input.len() + 1);
                input.splice(at..at, piece);
            }
            2 => {
                let other = &seeds[chance.below(seeds.len())];
                let (start, end) = chance.range(other.len());
                input.splice(from..to, other[start..end].iter().copied());
            }
            _ => drop(input.splice(from..from, PIECES[chance.below(PIECES.len())].bytes())),
        }
    }
    input
}

struct Chance(TestRng);

impl Chance {
    fn below(&mut self, end: usize) -> usize {
        self.0.random_range(0..end.max(1))
    }

    /// A short range below an end.
    fn range(&mut self, end: usize) -> (usize, usize) {
        let from = self.below(end + 1);
        (from, (from + self.below(40)).min(end))
    }
}

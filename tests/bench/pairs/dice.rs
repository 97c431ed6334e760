//! Random numbers of one case.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

/// Keeps these numbers apart from others drawn from the same number.
const KEY_TAIL: &[u8; 24] = b"rimebench pairs cases v1";

/// A stream of numbers that belongs to one case and one purpose.
pub(crate) struct Dice {
    stream: ChaCha8Rng,
}

impl Dice {
    /// The numbers of a case for a purpose; purposes are numbered so that a change in one leaves the others alone.
    pub(crate) fn new(case: u64, purpose: u64) -> Dice {
        let mut key = [0_u8; 32];
        key[..8].copy_from_slice(&case.to_le_bytes());
        key[8..].copy_from_slice(KEY_TAIL);
        let mut stream = ChaCha8Rng::from_seed(key);
        stream.set_stream(purpose);
        Dice { stream }
    }

    /// From 0 up to but not including 1.
    pub(crate) fn unit(&mut self) -> f64 {
        const STEPS: f64 = (1_u64 << 53) as f64;
        (self.stream.next_u64() >> 11) as f64 / STEPS
    }

    /// Between two numbers.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.unit() * (high - low)
    }

    /// Whether something comes about that does so with this probability.
    pub(crate) fn happens(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// One of a list; `None` if it is empty.
    pub(crate) fn one_of<'a, T>(&mut self, list: &'a [T]) -> Option<&'a T> {
        list.get((self.unit() * list.len() as f64) as usize)
    }

    /// A whole seed.
    pub(crate) fn seed(&mut self) -> u64 {
        self.stream.next_u64()
    }
}

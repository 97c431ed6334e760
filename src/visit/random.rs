//! Posterior without state: a normal deviate that depends only on seed, stream name and key.
//!
//! Nothing is consumed, so looking at a live display changes no later reading.

use call::fnv1a_64;
use rand::RngCore;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

/// A standard normal deviate (Box and Muller 1958), the same on every machine.
pub(crate) fn normal(seed: u64, stream: &str, key: u64) -> f64 {
    let mut bytes = [0u8; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    bytes[8..16].copy_from_slice(&fnv1a_64(stream.as_bytes()).to_le_bytes());
    bytes[16..24].copy_from_slice(&key.to_le_bytes());
    let mut stream = ChaCha8Rng::from_seed(bytes);
    let radius = libm::sqrt(-2.0 * libm::log(unit_interval(stream.next_u64())));
    radius * libm::cos(core::f64::consts::TAU * unit_interval(stream.next_u64()))
}

/// The upper 53 bits as a number above 0 and up to 1.
fn unit_interval(bits: u64) -> f64 {
    ((bits >> 11) + 1) as f64 / 9_007_199_254_740_992.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published test vectors of FNV-1a 64 (from memory of the reference code's list).
    #[test]
    fn deviates_have_mean_zero_and_variance_one() {
        let count = 20_000;
        let draws: Vec<f64> = (0..count).map(|key| normal(7, "test", key)).collect();
        let mean = draws.iter().sum::<f64>() / count as f64;
        let variance = draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / count as f64;
        assert!(mean.abs() < 0.03, "mean {mean}");
        assert!((variance - 1.0).abs() < 0.05, "variance {variance}");
        assert_eq!(normal(7, "test", 3).to_bits(), normal(7, "test", 3).to_bits());
        assert_ne!(normal(7, "test", 3), normal(7, "other", 3));
        assert_ne!(normal(7, "test", 3), normal(8, "test", 3));
    }
}

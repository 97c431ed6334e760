//! Exponential, logarithm and power, written out so that they are compiled into the laws that use them, and the cell of a grid.
//!
//! Sums, products and tables only: the same bits on every machine, as with `libm`, at a third of its time, and right to some
//! units of the last place. Where an argument is no ordinary number, `libm` answers.

use core::f64::consts::LN_2;

/// Pieces to an octave.
const PIECES: usize = 128;
const BITS: u32 = PIECES.ilog2();
const MANTISSA_BITS: u32 = f64::MANTISSA_DIGITS - 1;
/// What a double lacks of the logarithm of two.
const LN_2_REST: f64 = 2.319_046_813_846_299_6e-17;

/// Where the pieces of the logarithm begin: inverse and logarithm.
static LOGARITHMS: [[f64; 2]; PIECES + 1] = logarithms();
/// Bits of two to the power of the pieces.
static POWERS: [u64; PIECES] = powers();

const fn logarithms() -> [[f64; 2]; PIECES + 1] {
    let mut table = [[1.0, 0.0]; PIECES + 1];
    let mut i = 1;
    while i < PIECES {
        let base = 1.0 + i as f64 / PIECES as f64;
        // ln b = 2 artanh((b - 1)/(b + 1)), smallest terms first.
        let s = (base - 1.0) / (base + 1.0);
        let (mut sum, mut k) = (0.0, 20);
        while k > 0 {
            sum = sum * s * s + 1.0 / (2 * k - 1) as f64;
            k -= 1;
        }
        table[i] = [1.0 / base, 2.0 * s * sum];
        i += 1;
    }
    table[PIECES] = [0.5, LN_2];
    table
}

const fn powers() -> [u64; PIECES] {
    let mut table = [0; PIECES];
    let mut i = 0;
    while i < PIECES {
        let x = i as f64 / PIECES as f64 * LN_2;
        let (mut sum, mut k) = (0.0, 22);
        while k > 0 {
            sum = (1.0 + sum) * x / k as f64;
            k -= 1;
        }
        table[i] = (1.0 + sum).to_bits();
        i += 1;
    }
    table
}

/// Natural logarithm.
#[must_use]
#[inline]
pub fn ln(x: f64) -> f64 {
    if !(f64::MIN_POSITIVE..=f64::MAX).contains(&x) {
        return libm::log(x);
    }
    const ONE: u64 = 1.0_f64.to_bits();
    const HALF_A_PIECE: u64 = 1 << (MANTISSA_BITS - BITS - 1);
    let bits = x.to_bits();
    let octave = (bits >> MANTISSA_BITS) as i32 - (ONE >> MANTISSA_BITS) as i32;
    let mantissa = bits & ((1 << MANTISSA_BITS) - 1);
    let [inverse, of_piece] = LOGARITHMS[((mantissa + HALF_A_PIECE) >> (MANTISSA_BITS - BITS)) as usize];
    let r = f64::from_bits(mantissa | ONE) * inverse - 1.0;
    let square = r * r;
    let series = r + square * ((-0.5 + THIRD * r) + square * ((-0.25 + 0.2 * r) - SIXTH * square));
    f64::from(octave) * LN_2 + of_piece + series
}

const THIRD: f64 = 1.0 / 3.0;
const SIXTH: f64 = 1.0 / 6.0;

/// Exponential.
#[must_use]
#[inline]
pub fn exp(x: f64) -> f64 {
    if !(-700.0..=700.0).contains(&x) {
        return libm::exp(x);
    }
    const PIECES_PER_UNIT: f64 = PIECES as f64 / LN_2;
    /// A double so large that its last bit counts ones: adding it rounds.
    const ROUNDS: f64 = 6_755_399_441_055_744.0;
    /// Width of a piece in two parts, the first of so few bits that its multiples are exact.
    const WIDTH: f64 = f64::from_bits((LN_2 / PIECES as f64).to_bits() & !((1 << 18) - 1));
    const WIDTH_REST: f64 = (LN_2 / PIECES as f64 - WIDTH) + LN_2_REST / PIECES as f64;
    let rounded = x * PIECES_PER_UNIT + ROUNDS;
    let pieces = rounded.to_bits();
    let whole = rounded - ROUNDS;
    let r = (x - whole * WIDTH) - whole * WIDTH_REST;
    let square = r * r;
    let series = r + square * ((0.5 + SIXTH * r) + square * (1.0 / 24.0 + r * (1.0 / 120.0)));
    let octaves = (pieces >> BITS) << MANTISSA_BITS;
    let power = f64::from_bits(POWERS[pieces as usize % PIECES].wrapping_add(octaves));
    power + power * series
}

/// A number from zero on to a power.
#[must_use]
#[inline]
pub fn power(base: f64, exponent: f64) -> f64 {
    exp(exponent * ln(base))
}

/// Cell of an even grid, from 0 to `last`, and where it begins. On a border it may be either cell. A NaN gives the first cell,
/// with a beginning from which it stays a NaN.
///
/// Adding a double so large that its last bit counts ones rounds to a whole number, which then stands in its bits: half the work
/// of a conversion there and back.
#[inline]
pub(crate) fn place_on(at: f64, last: f64) -> (usize, f64) {
    const ROUNDS: f64 = 4_503_599_627_370_496.0;
    let rounded = (at - 0.5).max(0.0).min(last) + ROUNDS;
    (rounded.to_bits() as u32 as usize, rounded - ROUNDS)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers of every size, evenly in their logarithm, and others by the golden ratio.
    fn numbers(low: f64, high: f64) -> impl Iterator<Item = f64> {
        (0..200_000).map(move |i| low + (high - low) * (f64::from(i) * 0.618_033_988_749_894_9).fract())
    }

    #[test]
    fn exponential_is_right_to_rounding() {
        for x in numbers(-699.0, 699.0).chain(numbers(-2.0, 2.0)).chain(numbers(-1e-3, 1e-3)) {
            let expected = libm::exp(x);
            assert!((exp(x) - expected).abs() <= 4.0e-16 * expected, "{x}: {} {expected}", exp(x));
        }
        assert_eq!((exp(0.0), exp(-800.0), exp(800.0)), (1.0, 0.0, f64::INFINITY));
        assert!(exp(f64::NAN).is_nan());
    }

    #[test]
    fn logarithm_is_right_to_rounding() {
        let near_one = numbers(0.99, 1.01).chain([1.0 - 1e-15, 1.0 + 1e-15, 1.0 + 1e-9, 1.0]);
        for x in numbers(-690.0, 700.0).map(libm::exp).chain(numbers(0.3, 3.0)).chain(near_one) {
            let expected = libm::log(x);
            let allowed = 5.0e-16 * expected.abs().max(1.0);
            assert!((ln(x) - expected).abs() <= allowed, "{x}: {} {expected}", ln(x));
        }
        assert_eq!((ln(1.0), ln(0.0), ln(f64::INFINITY)), (0.0, f64::NEG_INFINITY, f64::INFINITY));
        assert!(ln(-1.0).is_nan() && ln(f64::NAN).is_nan());
        assert_eq!(ln(1e-310), libm::log(1e-310));
    }

    #[test]
    fn power_is_the_power() {
        for exponent in [1.0 / 3.0, 0.38, 0.4, 0.55, 0.8, 1.1] {
            assert_eq!(power(0.0, exponent), 0.0);
            assert_eq!(power(1.0, exponent), 1.0);
            for base in [1.0e-4, 0.02, 0.57, 0.999, 1.3, 3.0, 20.0] {
                let expected = libm::pow(base, exponent);
                assert!((power(base, exponent) - expected).abs() <= 2.0e-15 * expected);
            }
        }
    }
}

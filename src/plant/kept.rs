//! Powers and logarithms of what moves little from step to step, from their last value by a series.

use media::elementary::{ln, power};
use serde::{Deserialize, Serialize};

/// A power or a logarithm as it was last worked out.
///
/// Near it a series of the third degree is right to 1e-10 of the value, in a tenth of the time. It is no state of the plant: any other
/// point that it may have been worked out at gives the same to that.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Kept {
    /// Inverse of the argument.
    inverse: f64,
    value: f64,
}

/// How far an argument may be from where its function was last worked out, as a share of it.
const NEAR: f64 = 3.0e-3;
/// Smallest argument that is kept.
const LEAST: f64 = 1.0e-100;

impl Kept {
    /// A power, always of the same exponent.
    #[inline(always)]
    pub(crate) fn power(&mut self, base: f64, exponent: f64) -> f64 {
        let moved = base * self.inverse - 1.0;
        if moved.abs() < NEAR {
            let (second, third) = (0.5 * (exponent - 1.0), (exponent - 2.0) / 3.0);
            return self.value * (1.0 + exponent * moved * (1.0 + second * moved * (1.0 + third * moved)));
        }
        self.keep(base, power(base, exponent))
    }

    /// The natural logarithm.
    #[inline(always)]
    pub(crate) fn ln(&mut self, x: f64) -> f64 {
        let moved = x * self.inverse - 1.0;
        if moved.abs() < NEAR {
            return self.value + moved * (1.0 - moved * (0.5 - moved * (1.0 / 3.0)));
        }
        self.keep(x, ln(x))
    }

    #[cold]
    fn keep(&mut self, argument: f64, value: f64) -> f64 {
        if argument > LEAST && value.is_finite() {
            *self = Kept { inverse: 1.0 / argument, value };
        }
        value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// On a walk over three decades in small steps and in jumps, against the functions themselves.
    #[test]
    fn keeps_to_the_function() {
        for exponent in [-0.55, 0.12, 1.0 / 3.0, 0.38, 0.55, 0.67, 2.0 / 3.0, 0.8] {
            let (mut raised, mut logarithm) = (Kept::default(), Kept::default());
            assert_eq!(Kept::default().power(1.0, exponent), 1.0);
            let mut x = 0.02;
            for i in 0..20_000 {
                x *= if i % 500 == 0 { 0.7 } else { 1.000_37 };
                approx::assert_relative_eq!(
                    raised.power(x, exponent),
                    libm::pow(x, exponent),
                    max_relative = 1.0e-10
                );
                approx::assert_abs_diff_eq!(logarithm.ln(x), libm::log(x), epsilon = 2.0e-10);
            }
        }
        let mut film = Kept::default();
        assert_eq!(film.power(0.0, 0.8), 0.0);
        approx::assert_relative_eq!(film.power(2.0, 0.8), libm::pow(2.0, 0.8), max_relative = 1.0e-15);
    }
}

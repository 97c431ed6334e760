//! A power to rounding for the laws of films.

/// `base`, from zero to some tens, to a power of the order of one. `libm::pow` carries the logarithm in double length, for
/// exponents that stretch its last digits; here it takes twice the time for the same digits but the last.
pub(crate) fn power(base: f64, exponent: f64) -> f64 {
    libm::exp(exponent * libm::log(base))
}

#[cfg(test)]
mod tests {
    use super::power;

    #[test]
    fn is_the_power() {
        for exponent in [0.38, 0.4, 0.55, 0.8, 1.1] {
            assert_eq!(power(0.0, exponent), 0.0);
            assert_eq!(power(1.0, exponent), 1.0);
            for base in [1.0e-4, 0.02, 0.57, 0.999, 1.3, 3.0, 20.0] {
                approx::assert_relative_eq!(
                    power(base, exponent),
                    libm::pow(base, exponent),
                    max_relative = 2.0e-15
                );
            }
        }
    }
}

//! A bracketed root in a bounded number of steps.

/// Root of a function that falls from `f_low` (positive) at `low` to `f_high` (negative) at `high`, by regula falsi with
/// the Illinois change. `f` returns the function's value; at most `steps` calls, fewer once the value is within
/// `tolerance` of zero. The bracket always holds the root, so it cannot run away.
pub(crate) fn falling_root(
    (mut low, mut f_low): (f64, f64),
    (mut high, mut f_high): (f64, f64),
    start: f64,
    steps: u32,
    tolerance: f64,
    mut f: impl FnMut(f64) -> f64,
) -> f64 {
    let mut x = start;
    // +1 when the low end moved last, -1 the high end: an end that stays twice loses half its weight.
    let mut last_side = 0_i8;
    for step in 0..steps {
        let value = f(x);
        if value.abs() < tolerance || step + 1 == steps {
            break;
        }
        if value > 0.0 {
            (low, f_low) = (x, value);
            if last_side > 0 {
                f_high *= 0.5;
            }
            last_side = 1;
        } else {
            (high, f_high) = (x, value);
            if last_side < 0 {
                f_low *= 0.5;
            }
            last_side = -1;
        }
        let (left, right) = if low < high { (low, high) } else { (high, low) };
        x = (high - f_high * (high - low) / (f_high - f_low)).clamp(left, right);
    }
    x
}

#[cfg(test)]
mod tests {
    use super::falling_root;

    #[test]
    fn finds_the_root_of_a_falling_function_either_way_round() {
        let f = |x: f64| 2.0 - x * x * x;
        let expected = libm::cbrt(2.0);
        let up = falling_root((0.0, 2.0), (3.0, f(3.0)), 1.0, 40, 1e-12, f);
        approx::assert_relative_eq!(up, expected, epsilon = 1e-9);
        let down = falling_root((0.0, 2.0), (-3.0, -25.0), -1.0, 40, 1e-12, |x| f(-x));
        approx::assert_relative_eq!(down, -expected, epsilon = 1e-9);
    }
}

//! A bracketed root in a bounded number of steps.

/// A point of a function: argument and value.
pub(crate) type Point = (f64, f64);

/// Two arguments between which a function has a root. Made by [`Bracket::of`] alone, which looks at the signs: which end is
/// named first and whether the function rises or falls between them makes no difference, so a bracket cannot be
/// written the wrong way round.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bracket {
    /// Where the value is positive.
    above: Point,
    /// Where it is not.
    below: Point,
}

impl Bracket {
    /// The bracket of two points. Without a change of sign there is none; the error is the argument of the end that
    /// lies nearer to zero.
    pub(crate) fn of(a: Point, b: Point) -> Result<Bracket, f64> {
        match (a.1 > 0.0, b.1 > 0.0) {
            (true, false) => Ok(Bracket { above: a, below: b }),
            (false, true) => Ok(Bracket { above: b, below: a }),
            _ => Err(if a.1.abs() <= b.1.abs() { a.0 } else { b.0 }),
        }
    }

    /// Where the straight line between the ends crosses zero: a start where nothing better is known.
    pub(crate) fn secant(&self) -> f64 {
        let ((x_a, f_a), (x_b, f_b)) = (self.above, self.below);
        x_b - f_b * (x_b - x_a) / (f_b - f_a)
    }

    /// The root by regula falsi with the Illinois change. `f` returns the function's value; at most `steps` calls, fewer
    /// once the value is within `tolerance` of zero. The bracket always holds the root, so it cannot run away.
    pub(crate) fn root(self, start: f64, steps: u32, tolerance: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
        let Bracket { above: (mut above, mut f_above), below: (mut below, mut f_below) } = self;
        let mut x = start;
        // +1 when the end above moved last, -1 the end below: an end that stays twice loses half its weight.
        let mut last_side = 0_i8;
        for step in 0..steps {
            let value = f(x);
            if value.abs() < tolerance || step + 1 == steps {
                break;
            }
            if value > 0.0 {
                (above, f_above) = (x, value);
                if last_side > 0 {
                    f_below *= 0.5;
                }
                last_side = 1;
            } else {
                (below, f_below) = (x, value);
                if last_side < 0 {
                    f_above *= 0.5;
                }
                last_side = -1;
            }
            let (left, right) = if above < below { (above, below) } else { (below, above) };
            x = (below - f_below * (below - above) / (f_below - f_above)).clamp(left, right);
        }
        x
    }

    /// The same by Newton's method, which halves the bracket where a step would leave it; `f` returns the function's value and
    /// its slope.
    pub(crate) fn newton(
        self,
        start: f64,
        steps: u32,
        tolerance: f64,
        mut f: impl FnMut(f64) -> (f64, f64),
    ) -> f64 {
        let Bracket { above: (mut above, _), below: (mut below, _) } = self;
        let mut x = start;
        for _ in 0..steps {
            let (value, slope) = f(x);
            if value.abs() < tolerance {
                break;
            }
            if value > 0.0 {
                above = x;
            } else {
                below = x;
            }
            let (left, right) = if above < below { (above, below) } else { (below, above) };
            let next = x - value / slope;
            x = if next > left && next < right { next } else { f64::midpoint(left, right) };
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::Bracket;

    /// Rising and falling, and with the ends named in either order.
    #[test]
    fn finds_the_root_whichever_way_round_the_bracket_is_named() {
        let expected = libm::cbrt(2.0);
        let falls = |x: f64| 2.0 - x * x * x;
        let rises = |x: f64| x * x * x - 2.0;
        let functions: [fn(f64) -> f64; 2] = [falls, rises];
        for f in functions {
            for (a, b) in [(0.0, 3.0), (3.0, 0.0)] {
                let bracket = Bracket::of((a, f(a)), (b, f(b))).expect("the signs differ");
                let start = bracket.secant();
                assert!(start > 0.0 && start < 3.0);
                approx::assert_relative_eq!(bracket.root(start, 40, 1e-12, f), expected, epsilon = 1e-9);
                let with_slope = |x: f64| (f(x), (f(x + 1e-6) - f(x - 1e-6)) / 2e-6);
                approx::assert_relative_eq!(
                    bracket.newton(start, 40, 1e-12, with_slope),
                    expected,
                    epsilon = 1e-9
                );
                // From a place where the slope leads away.
                approx::assert_relative_eq!(
                    bracket.newton(1e-3, 60, 1e-12, with_slope),
                    expected,
                    epsilon = 1e-9
                );
            }
        }
    }

    #[test]
    fn without_a_change_of_sign_there_is_no_bracket_but_a_nearest_end() {
        assert_eq!(Bracket::of((1.0, 5.0), (2.0, 3.0)).err(), Some(2.0));
        assert_eq!(Bracket::of((1.0, -1.0), (2.0, -3.0)).err(), Some(1.0));
    }
}

//! Laws of several arguments that move little from step to step: from the last time that they were worked out along their
//! tangent.
//!
//! Most of the time a plant moves so slowly that its laws are worked out anew at all but the same arguments: pressures by some
//! millionths from step to step. A law that has been asked for twice at such a pace is worked out once for each argument,
//! a little further on its way, and from then on followed along the plane through these points, until an argument has moved further
//! than that. What is left out is the curvature: with the steps in the arguments stated beside each law some hundred millionths of
//! its results. Masses and energies are booked by what the laws say, so nothing is lost by it.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Slopes must be of use for this many steps for each argument.
const WORTH_STEPS: f64 = 2.0;
/// Steps after which a law is worked out again wherever it is, so that what rests does so where its law says.
const MOST_STEPS: f64 = 240.0;
/// Numbers beside those of the arrays.
const BESIDE: usize = 2;

/// A law of `N` arguments and `K` settings with `M` results, where it was last worked out. Part of a plant's state: a copy goes on
/// as the plant does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tangent<const N: usize, const M: usize, const K: usize> {
    mode: Mode,
    /// Steps since then.
    steps: f64,
    at: [f64; N],
    settings: [f64; K],
    results: [f64; M],
    /// Of the results by each argument.
    slopes: [[f64; M]; N],
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Mode {
    /// Worked out once, without slopes.
    #[default]
    Point,
    /// With slopes.
    Plane,
    /// Always worked out.
    Exact,
}

/// On which stretch of a law a result lies, so that no slope is taken across a corner; `None` where it is not to be followed.
pub(crate) type Stretch = Option<u8>;

impl<const N: usize, const M: usize, const K: usize> Default for Tangent<N, M, K> {
    fn default() -> Self {
        Tangent {
            mode: Mode::Point,
            steps: 0.0,
            at: [0.0; N],
            settings: [0.0; K],
            results: [0.0; M],
            slopes: [[0.0; M]; N],
        }
    }
}

impl<const N: usize, const M: usize, const K: usize> Tangent<N, M, K> {
    /// One that works its law out at every call.
    pub(crate) fn exact() -> Self {
        Tangent { mode: Mode::Exact, ..Tangent::default() }
    }

    /// Works its law out at the next call.
    pub(crate) fn forget(&mut self) {
        if self.mode == Mode::Plane {
            self.mode = Mode::Point;
        }
        self.at = [0.0; N];
    }

    /// The results of `law`, which is followed as long as no argument is further than `near` from where it was worked out and the
    /// settings are the same. The law may depend on nothing else that changes.
    #[inline(always)]
    pub(crate) fn follow(
        &mut self,
        settings: [f64; K],
        arguments: [f64; N],
        near: [f64; N],
        law: impl FnMut(&[f64; N]) -> ([f64; M], Stretch),
    ) -> [f64; M] {
        let moved: [f64; N] = std::array::from_fn(|n| arguments[n] - self.at[n]);
        let far = moved.iter().zip(near).map(|(by, near)| (by * (1.0 / near)).abs()).fold(0.0, f64::max);
        if self.mode == Mode::Plane && far <= 1.0 && self.steps < MOST_STEPS && self.settings == settings {
            self.steps += 1.0;
            let mut results = self.results;
            for (by, slopes) in moved.iter().zip(&self.slopes) {
                for (result, slope) in results.iter_mut().zip(slopes) {
                    *result += by * slope;
                }
            }
            return results;
        }
        self.work_out(far, settings, arguments, near, law)
    }

    #[inline(never)]
    fn work_out(
        &mut self,
        far: f64,
        settings: [f64; K],
        arguments: [f64; N],
        near: [f64; N],
        mut law: impl FnMut(&[f64; N]) -> ([f64; M], Stretch),
    ) -> [f64; M] {
        let (results, stretch) = law(&arguments);
        if self.mode == Mode::Exact {
            return results;
        }
        let is_slow = self.settings == settings && far * WORTH_STEPS * N as f64 <= self.steps + 1.0;
        let mut mode = Mode::Point;
        if is_slow && stretch.is_some() && arguments.iter().chain(&results).all(|number| number.is_finite()) {
            mode = Mode::Plane;
            self.results = results;
            for n in 0..N {
                // On its way, where it is about to go.
                let way = if arguments[n] < self.at[n] { -near[n] } else { near[n] };
                let mut further = arguments;
                further[n] += way;
                let (there, stretch_there) = law(&further);
                for m in 0..M {
                    self.slopes[n][m] = (there[m] - results[m]) * (1.0 / way);
                }
                if stretch_there != stretch || !self.slopes[n].iter().all(|slope| slope.is_finite()) {
                    (mode, self.slopes[n]) = (Mode::Point, [0.0; M]);
                    break;
                }
            }
        }
        (self.mode, self.steps, self.at, self.settings) = (mode, 0.0, arguments, settings);
        results
    }

    fn numbers(&self) -> impl Iterator<Item = f64> {
        self.at.into_iter().chain(self.settings).chain(self.results).chain(self.slopes.into_iter().flatten())
    }
}

impl<const N: usize, const M: usize, const K: usize> Serialize for Tangent<N, M, K> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mode = match self.mode {
            Mode::Point => 0.0,
            Mode::Plane => 1.0,
            Mode::Exact => 2.0,
        };
        serializer.collect_seq([mode, self.steps].into_iter().chain(self.numbers()))
    }
}

impl<'de, const N: usize, const M: usize, const K: usize> Deserialize<'de> for Tangent<N, M, K> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let numbers = Vec::<f64>::deserialize(deserializer)?;
        let wanted = BESIDE + N + K + M + N * M;
        if numbers.len() != wanted {
            return Err(D::Error::invalid_length(numbers.len(), &format!("{wanted} numbers").as_str()));
        }
        let mut rest = numbers.into_iter();
        let mut next = || rest.next().unwrap_or_default();
        let (mode, steps) = (next(), next());
        let mode = match mode {
            0.0 => Mode::Point,
            1.0 => Mode::Plane,
            2.0 => Mode::Exact,
            _ => return Err(D::Error::custom("no such mode of a followed law")),
        };
        Ok(Tangent {
            mode,
            steps,
            at: std::array::from_fn(|_| next()),
            settings: std::array::from_fn(|_| next()),
            results: std::array::from_fn(|_| next()),
            slopes: std::array::from_fn(|_| std::array::from_fn(|_| next())),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A walk at a slow pace through a curved law: right to the curvature within a step, and seldom worked out; at a quick pace
    /// worked out at each step and exact.
    #[test]
    fn a_slow_walk_is_followed_and_a_quick_one_is_not() {
        let law = |a: &[f64; 2]| ([a[0] * a[1], libm::exp(a[0]), 1.0 / a[1]], Some(0));
        for (pace, most_calls, allowed) in [(1.0e-6, 200, 4.0e-8), (1.0e-3, 10_000, 0.0)] {
            let mut kept = Tangent::<2, 3, 1>::default();
            let mut calls = 0;
            for i in 0..10_000 {
                let arguments = [1.0 + pace * f64::from(i), 2.0 - 0.5 * pace * f64::from(i).min(1000.0)];
                let found = kept.follow([1.0], arguments, [2.0e-4; 2], |a| {
                    calls += 1;
                    law(a)
                });
                for (found, expected) in found.iter().zip(law(&arguments).0) {
                    assert!((found - expected).abs() <= allowed * expected.abs(), "{found} {expected}");
                }
            }
            assert!(calls <= most_calls, "{calls}");
        }
    }

    #[test]
    fn a_setting_and_a_corner_are_never_followed_across() {
        let mut kept = Tangent::<1, 1, 1>::default();
        let corner = |a: &[f64; 1]| if a[0] < 1.0 { ([0.0], Some(0)) } else { ([a[0] - 1.0], Some(1)) };
        for _ in 0..10 {
            assert_eq!(kept.follow([0.0], [0.999_95], [1.0e-4], corner), [0.0]);
        }
        let doubled = |a: &[f64; 1]| ([2.0 * a[0]], Some(0));
        for setting in [1.0, 2.0, 2.0, 2.0] {
            let found = kept.follow([setting], [0.5], [1.0e-4], |a| ([setting * doubled(a).0[0]], Some(0)));
            assert_eq!(found, [setting]);
        }
        let mut never = Tangent::<1, 1, 0>::exact();
        let mut calls = 0;
        for _ in 0..10 {
            never.follow([], [1.0], [1.0], |a| {
                calls += 1;
                doubled(a)
            });
        }
        assert_eq!(calls, 10);
    }

    #[test]
    fn saved_and_loaded_it_is_the_same() {
        let mut kept = Tangent::<2, 2, 1>::default();
        let law = |a: &[f64; 2]| ([a[0] / 3.0, a[1] * a[0]], Some(0));
        for i in 0..5 {
            kept.follow([0.25], [1.0 + 1.0e-7 * f64::from(i), 0.1], [1.0e-3; 2], law);
            let text = ron::to_string(&kept).expect("saved");
            assert_eq!(ron::from_str::<Tangent<2, 2, 1>>(&text).expect("loaded"), kept);
        }
        assert_eq!(kept.mode, Mode::Plane);
        assert!(ron::from_str::<Tangent<2, 2, 1>>("[0.0, 0.0]").is_err());
    }
}

//! Laws of several arguments that move little from step to step: from the last time that they were worked out along their
//! tangent.
//!
//! Most of the time a plant moves so slowly that its laws are worked out anew at all but the same arguments: pressures by some
//! millionths from step to step. A law that is asked for at such a pace is worked out once for each argument, a little further on its
//! way, and from then on followed along the plane through these points, as far as the plane reaches. There it is worked out again, once, and
//! that tells by how much the plane has missed. One that missed by little more than what stands beside the law goes on from there, turned so
//! that it holds the last point too (Broyden's rule, any textbook of numerical methods); it reaches further the less it missed. One that missed by more is made
//! anew. Masses and energies are booked by what the laws say, so nothing is lost by what a plane misses.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Steps that a plane must last at the pace of the moment to be made.
const WORTH_STEPS: f64 = 2.5;
/// How much further than the last plane a new one is hoped to reach.
const HOPE: f64 = 4.0;
/// Steps for each argument that it must have lasted in all to have been worth making.
const PAYS_STEPS: f64 = 1.0;
/// Times that a law is worked out before its plane is tried again after one that was not worth it: more each time, up to the last.
const FIRST_PAUSE: f64 = 4.0;
const LONGEST_PAUSE: f64 = 64.0;
/// Steps after which a law is worked out again wherever it is, so that what rests does so where its law says.
const MOST_STEPS: f64 = 240.0;
/// Bounds of how far planes reach, in what stands beside a law as near: what is beyond a corner shows only at the end of the reach.
const REACH: (f64, f64) = (0.05, 2.0);
/// How far beyond its reach the arguments may have gone in a step for a plane still to be judged by what it says there.
const BEYOND: f64 = 4.0;
/// What a plane aims to miss by where its reach ends, and what ends it, over what stands beside the law.
const AIMED_AT: f64 = 0.4;
const ENDS_AT: f64 = 4.0;
/// Times that a plane goes on before it is made anew: turning mends it along its way alone, and all other slopes are those of where it
/// was made. A law whose slopes change evenly is then off by at most some twenty times what it aims at when it turns aside.
const MOST_TURNS: f64 = 32.0;
/// Share of an argument that may come to nothing, a flow or an amount, by which it may be off at first: laws are powers of such ones.
const SHARE_OF_LITTLE: f64 = 0.05;
/// Share of its reach from which on a plane is turned by what it missed: nearby, that is rounding.
const TURNED_FROM: f64 = 0.2;
/// Share of what a result moves in a step that it may be off as well. The step itself holds all flows for as long as it lasts, so it is off by
/// half of what they move in it: a hundredth of that is nothing beside it. What rests is as right as ever.
pub(crate) const OF_STEP: f64 = 0.006;
/// A flow and an amount that hardly count, kg/s and m³: some tenths of a watt and a drop, and far from rounding.
pub(crate) const LITTLE_KG_S: f64 = 1.0e-7;
pub(crate) const LITTLE_M3: f64 = 1.0e-9;
/// Numbers beside those of the arrays.
const BESIDE: usize = 8;

/// A law of `N` arguments and `K` settings with `M` results, where it was last worked out. Part of a plant's state: a copy goes on
/// as the plant does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tangent<const N: usize, const M: usize, const K: usize> {
    mode: Mode,
    /// Steps since then.
    steps: f64,
    /// Steps since its plane was made, until it last went on, and how often it did.
    age: f64,
    turns: f64,
    /// How far its plane reaches, see [`REACH`].
    reach: f64,
    /// Times that it is still worked out before a plane is tried, and how often that was after the last one.
    pause: [f64; 2],
    /// On which its plane lies.
    stretch: u8,
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

/// How a law may be followed.
#[derive(Clone, Copy)]
pub(crate) struct Bounds<const N: usize, const M: usize> {
    /// How far from where the law was worked out its arguments may be at first.
    pub near: [f64; N],
    /// By how much its results may be off.
    pub fine: [f64; M],
    /// Share of what they move in a step by which they may be off beside that: [`OF_STEP`] or none.
    pub of_step: f64,
}

/// How far an argument may be from where its law was worked out that may come to nothing: by `near`, by a share of it where that is less,
/// and by `least` where it hardly counts. No plane then reaches over nothing by more than twice that.
#[inline(always)]
pub(crate) fn near_nothing(near: f64, argument: f64, least: f64) -> f64 {
    (SHARE_OF_LITTLE * argument.abs()).min(near).max(least)
}

/// The largest of numbers over what stands beside each; what is no number does not count.
#[inline(always)]
fn largest<const N: usize>(numbers: &[f64; N], over: &[f64; N]) -> f64 {
    // By hand, since `f64::max` asks which of the two is no number, and two at once.
    let larger = |a: f64, b: f64| if a > b { a } else { b };
    let mut largest = [0.0; 2];
    for (n, (number, over)) in numbers.iter().zip(over).enumerate() {
        largest[n % 2] = larger((number * (1.0 / over)).abs(), largest[n % 2]);
    }
    larger(largest[0], largest[1])
}

impl<const N: usize, const M: usize, const K: usize> Default for Tangent<N, M, K> {
    fn default() -> Self {
        Tangent {
            mode: Mode::Point,
            steps: 0.0,
            age: 0.0,
            turns: 0.0,
            reach: 1.0,
            pause: [0.0; 2],
            stretch: 0,
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

    /// Works its law out at the next call, and at some more: a step may ask for it several times.
    pub(crate) fn forget(&mut self) {
        self.leave();
        self.pause[0] = LONGEST_PAUSE;
    }

    /// Works its law out at the next call.
    pub(crate) fn leave(&mut self) {
        if self.mode == Mode::Plane {
            self.mode = Mode::Point;
        }
        self.at = [0.0; N];
    }

    /// Whether results that lie beyond a corner, or not, are those of a plane on the other side of it: one of `bit` in its stretch.
    pub(crate) fn has_crossed(&self, is_beyond: bool, bit: u8) -> bool {
        self.mode == Mode::Plane && is_beyond != (self.stretch & bit != 0)
    }

    /// What the plane says of its first result, however far it reaches: a place to begin a search.
    #[inline(always)]
    pub(crate) fn foretells(&self, arguments: &[f64; N]) -> Option<f64> {
        (self.mode == Mode::Plane).then(|| {
            let moved = arguments.iter().zip(&self.at).map(|(argument, at)| argument - at);
            self.results[0] + moved.zip(&self.slopes).map(|(by, slopes)| by * slopes[0]).sum::<f64>()
        })
    }

    /// The results of `law`, which is followed as far as its plane reaches while the settings are the same. The law may depend on
    /// nothing else that changes.
    #[inline(always)]
    pub(crate) fn follow(
        &mut self,
        settings: [f64; K],
        arguments: [f64; N],
        bounds: Bounds<N, M>,
        law: impl FnMut(&[f64; N]) -> ([f64; M], Stretch),
    ) -> [f64; M] {
        let moved: [f64; N] = std::array::from_fn(|n| arguments[n] - self.at[n]);
        let far = largest(&moved, &bounds.near);
        if self.mode == Mode::Plane
            && far <= self.reach
            && self.steps < MOST_STEPS
            && self.settings == settings
        {
            self.steps += 1.0;
            return self.along(&moved);
        }
        self.work_out(far, settings, arguments, bounds, law)
    }

    /// The plane at a distance from where the law was worked out.
    #[inline(always)]
    fn along(&self, moved: &[f64; N]) -> [f64; M] {
        let mut results = self.results;
        for (by, slopes) in moved.iter().zip(&self.slopes) {
            for (result, slope) in results.iter_mut().zip(slopes) {
                *result += by * slope;
            }
        }
        results
    }

    #[inline(never)]
    fn work_out(
        &mut self,
        far: f64,
        settings: [f64; K],
        arguments: [f64; N],
        bounds: Bounds<N, M>,
        mut law: impl FnMut(&[f64; N]) -> ([f64; M], Stretch),
    ) -> [f64; M] {
        let (results, stretch) = law(&arguments);
        if self.mode == Mode::Exact {
            return results;
        }
        let is_same = self.settings == settings;
        let mut pace = far;
        if self.mode == Mode::Plane {
            let is_judged = is_same
                && stretch == Some(self.stretch)
                && far <= BEYOND * self.reach
                && self.turns < MOST_TURNS;
            if is_judged && self.goes_on(far, &arguments, &bounds, &results) {
                return results;
            }
            pace = far / (self.steps + 1.0);
            if stretch != Some(self.stretch) {
                self.reach = self.reach.min(1.0);
            }
            let [left, last] = &mut self.pause;
            let has_paid = self.age + self.steps >= PAYS_STEPS * N as f64;
            *last = if has_paid { 0.0 } else { (2.0 * *last).clamp(FIRST_PAUSE, LONGEST_PAUSE) };
            *left = *last;
        } else {
            self.pause[0] = (self.pause[0] - 1.0).max(0.0);
        }
        let is_slow =
            is_same && self.pause[0] <= 0.0 && pace * WORTH_STEPS <= (HOPE * self.reach).min(REACH.1);
        let mut mode = Mode::Point;
        if let Some(stretch) = stretch
            && is_slow
            && arguments.iter().chain(&results).all(|number| number.is_finite())
        {
            mode = Mode::Plane;
            self.results = results;
            self.reach = self.reach.max(pace * WORTH_STEPS);
            for n in 0..N {
                // On its way, where it is about to go.
                let by = bounds.near[n] * self.reach.min(1.0);
                let ahead = if arguments[n] < self.at[n] { -by } else { by };
                // Never over nothing, where there are other laws or none.
                let crosses = (arguments[n] + ahead) * arguments[n] < 0.0;
                let way = if crosses || arguments[n] == 0.0 { by.copysign(arguments[n]) } else { ahead };
                let mut further = arguments;
                further[n] += way;
                let (there, stretch_there) = law(&further);
                for (slope, (there, here)) in self.slopes[n].iter_mut().zip(there.iter().zip(&results)) {
                    *slope = (there - here) * (1.0 / way);
                }
                if stretch_there != Some(stretch) || !self.slopes[n].iter().all(|slope| slope.is_finite()) {
                    (mode, self.slopes[n]) = (Mode::Point, [0.0; M]);
                    let [left, last] = &mut self.pause;
                    *last = (2.0 * *last).clamp(FIRST_PAUSE, LONGEST_PAUSE);
                    *left = *last;
                    break;
                }
            }
            (self.stretch, self.age, self.turns) = (stretch, 0.0, 0.0);
        }
        (self.mode, self.steps, self.at, self.settings) = (mode, 0.0, arguments, settings);
        results
    }

    /// Whether a plane missed these results by so little that it may go on from here. It then does.
    fn goes_on(&mut self, far: f64, arguments: &[f64; N], bounds: &Bounds<N, M>, results: &[f64; M]) -> bool {
        let moved: [f64; N] = std::array::from_fn(|n| arguments[n] - self.at[n]);
        let said = self.along(&moved);
        let missed: [f64; M] = std::array::from_fn(|m| results[m] - said[m]);
        let per_step = bounds.of_step / (self.steps + 1.0);
        let allowed: [f64; M] =
            std::array::from_fn(|m| bounds.fine[m] + per_step * (results[m] - self.results[m]).abs());
        let worst = largest(&missed, &allowed);
        if !missed.iter().all(|by| by.is_finite()) {
            return false;
        }
        if far > TURNED_FROM * self.reach {
            // What it misses grows with the square of how far it is asked for.
            let right = far * libm::sqrt(AIMED_AT / worst.max(1.0e-9));
            self.reach = right.clamp(0.3 * self.reach, 1.5 * self.reach).clamp(REACH.0, REACH.1);
        }
        if worst > ENDS_AT {
            return false;
        }
        if far > TURNED_FROM * self.reach {
            let ways: [f64; N] = std::array::from_fn(|n| moved[n] / bounds.near[n]);
            let per_square = 1.0 / ways.iter().map(|way| way * way).sum::<f64>();
            for (slopes, (way, near)) in self.slopes.iter_mut().zip(ways.iter().zip(&bounds.near)) {
                let share = way * per_square / near;
                for (slope, missed) in slopes.iter_mut().zip(&missed) {
                    *slope += missed * share;
                }
            }
        }
        self.age += self.steps;
        self.turns += 1.0;
        (self.steps, self.at, self.results) = (0.0, *arguments, *results);
        true
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
        let [left, last] = self.pause;
        let beside: [f64; BESIDE] =
            [mode, self.steps, self.age, self.turns, self.reach, left, last, f64::from(self.stretch)];
        serializer.collect_seq(beside.into_iter().chain(self.numbers()))
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
        let [mode, steps, age, turns, reach, left, last, stretch]: [f64; BESIDE] =
            std::array::from_fn(|_| next());
        let mode = match mode {
            0.0 => Mode::Point,
            1.0 => Mode::Plane,
            2.0 => Mode::Exact,
            _ => return Err(D::Error::custom("no such mode of a followed law")),
        };
        Ok(Tangent {
            mode,
            steps,
            age,
            turns,
            reach,
            pause: [left, last],
            stretch: stretch as u8,
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

    const BOUNDS: Bounds<1, 1> = Bounds { near: [1.0e-4], fine: [1.0e-6], of_step: 0.0 };

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
                let found = kept.follow(
                    [1.0],
                    arguments,
                    Bounds { near: [2.0e-4; 2], fine: [4.0e-8; 3], of_step: 0.0 },
                    |a| {
                        calls += 1;
                        law(a)
                    },
                );
                for (found, expected) in found.iter().zip(law(&arguments).0) {
                    assert!((found - expected).abs() <= allowed * expected.abs(), "{found} {expected}");
                }
            }
            assert!(calls <= most_calls, "{calls}");
        }
    }

    /// A curved law of four arguments, walked through so quickly that a plane lasts some dozens of steps: each time it goes on by one
    /// call, and never misses by more than what ends it.
    #[test]
    fn a_plane_goes_on() {
        let law = |a: &[f64; 4]| ([a[0] * a[1] * libm::exp(a[2]) / a[3]], Some(0));
        let bounds = Bounds { near: [1.0e-3; 4], fine: [1.0e-6], of_step: 0.0 };
        let mut kept = Tangent::<4, 1, 0>::default();
        let (mut calls, mut worst) = (0, 0.0_f64);
        for i in 0..10_000 {
            let way = 2.0e-5 * f64::from(i);
            let arguments = [1.0 + way, 2.0 - 0.5 * way, 0.1 + 0.3 * way, 1.0 + 0.1 * libm::sin(way)];
            let [found] = kept.follow([], arguments, bounds, |a| {
                calls += 1;
                law(a)
            });
            worst = worst.max((found - law(&arguments).0[0]).abs());
        }
        assert!(worst <= ENDS_AT * bounds.fine[0], "{worst}");
        assert!((200..1_000).contains(&calls), "{calls}");
    }

    /// A long way along one argument turns the slope by that one only, and at last the plane is made anew: a step aside is never off by
    /// what a slope changed over the whole way.
    #[test]
    fn no_plane_goes_on_for_ever() {
        let law = |a: &[f64; 2]| ([a[0] * a[1]], Some(0));
        let bounds = Bounds { near: [1.0e-3; 2], fine: [1.0e-6], of_step: 0.0 };
        let mut kept = Tangent::<2, 1, 0>::default();
        let mut worst = 0.0_f64;
        for i in 0..100_000 {
            let along = 1.0 + 2.0e-5 * f64::from(i);
            // To and fro by less than any reach.
            let aside = 4.0e-5 * libm::sin(0.1 * f64::from(i));
            let arguments = [along, 1.0 + if i > 90_000 { aside } else { 0.0 }];
            let [found] = kept.follow([], arguments, bounds, law);
            worst = worst.max((found - law(&arguments).0[0]).abs());
        }
        // Of the 32 times with twice what is near each.
        assert!(worst <= 4.0e-5 * 2.0 * MOST_TURNS * REACH.1 * bounds.near[0], "{worst}");
    }

    /// A bent law walked through at a steady pace: what may be off by a share of what moves in a step is worked out less often, and is off
    /// by no more.
    #[test]
    fn what_moves_may_be_off_by_a_share_of_it() {
        let law = |a: &[f64; 1]| ([a[0] * a[0]], Some(0));
        let pace = 2.0e-4;
        let walk = |of_step: f64| {
            let bounds = Bounds { near: [1.0e-3], fine: [1.0e-9], of_step };
            let mut kept = Tangent::<1, 1, 0>::default();
            let (mut calls, mut worst) = (0, 0.0_f64);
            for i in 0..5_000 {
                let argument = 1.0 + pace * f64::from(i);
                let [found] = kept.follow([], [argument], bounds, |a| {
                    calls += 1;
                    law(a)
                });
                worst = worst.max((found - argument * argument).abs());
            }
            (calls, worst)
        };
        let (all, _) = walk(0.0);
        let (calls, worst) = walk(0.01);
        assert!(3 * calls < 2 * all, "{calls} {all}");
        // Up to 2 to the square: a step moves it by four times the pace.
        assert!(worst <= ENDS_AT * (1.0e-9 + 0.01 * 4.0 * pace), "{worst}");
    }

    /// What may come to nothing is never tried on the other side, and where it is nothing on the side where there is some.
    #[test]
    fn no_slope_is_taken_over_nothing() {
        for from in [1.0e-3, 3.0e-5, 0.0, -3.0e-5] {
            for pace in [1.0e-9, -1.0e-9] {
                let mut kept = Tangent::<1, 1, 0>::default();
                for i in 0..20 {
                    let argument = from + if from == 0.0 { 0.0 } else { pace * f64::from(i) };
                    kept.follow([], [argument], BOUNDS, |a| {
                        assert!(a[0] * from > 0.0 || from == 0.0 && a[0] >= 0.0, "{from} {}", a[0]);
                        ([a[0]], Some(0))
                    });
                }
                assert_eq!(kept.mode, Mode::Plane);
            }
        }
        let nears = [1.0, 1.0e-3, 1.0e-6, 0.0].map(|flow| near_nothing(1.0e-4, flow, LITTLE_KG_S));
        assert_eq!(nears[0], 1.0e-4);
        assert_eq!(nears[3], LITTLE_KG_S);
        assert!(nears[1] * REACH.1 < 0.2e-3 && nears[2] * REACH.1 < 0.3e-6, "{nears:?}");
    }

    /// A law that jumps to and fro between two stretches costs hardly more than if it were worked out at every step.
    #[test]
    fn what_chatters_is_left_alone() {
        let mut kept = Tangent::<4, 1, 0>::default();
        let bounds = Bounds { near: [1.0e-3; 4], fine: [1.0e-6], of_step: 0.0 };
        let mut calls = 0;
        for i in 0..10_000 {
            let stretch = u8::from(i % 3 == 0);
            let arguments = [1.0 + 1.0e-3 * f64::from(stretch), 1.0, 1.0, 1.0];
            kept.follow([], arguments, bounds, |a| {
                calls += 1;
                ([a[0] + 10.0 * f64::from(stretch)], Some(stretch))
            });
        }
        assert!(calls < 13_000, "{calls}");
    }

    #[test]
    fn a_setting_and_a_corner_are_never_followed_across() {
        let mut kept = Tangent::<1, 1, 1>::default();
        let corner = |a: &[f64; 1]| if a[0] < 1.0 { ([0.0], Some(0)) } else { ([a[0] - 1.0], Some(1)) };
        for _ in 0..10 {
            assert_eq!(kept.follow([0.0], [0.999_95], BOUNDS, corner), [0.0]);
        }
        let doubled = |a: &[f64; 1]| ([2.0 * a[0]], Some(0));
        for setting in [1.0, 2.0, 2.0, 2.0] {
            let found = kept.follow([setting], [0.5], BOUNDS, |a| ([setting * doubled(a).0[0]], Some(0)));
            assert_eq!(found, [setting]);
        }
        let mut never = Tangent::<1, 1, 0>::exact();
        let mut calls = 0;
        for _ in 0..10 {
            never.follow([], [1.0], BOUNDS, |a| {
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
            kept.follow(
                [0.25],
                [1.0 + 1.0e-7 * f64::from(i), 0.1],
                Bounds { near: [1.0e-3; 2], fine: [1.0e-6; 2], of_step: 0.0 },
                law,
            );
            let text = ron::to_string(&kept).expect("saved");
            assert_eq!(ron::from_str::<Tangent<2, 2, 1>>(&text).expect("loaded"), kept);
        }
        assert_eq!(kept.mode, Mode::Plane);
        assert!(ron::from_str::<Tangent<2, 2, 1>>("[0.0, 0.0]").is_err());
    }
}

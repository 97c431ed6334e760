//! Bounds by what one step may move, and how often each has acted.
//!
//! A step is explicit in what flows: a flow that took more than a share of what is there would overshoot (a share of 1/2 of the
//! difference that drives it is the most that does not change its sign, and a fifth leaves room for flows that act together).
//! A bound that acts hides physics for that step, so each is counted where it stands, and a test asks that all rest in ordinary running.

use serde::{Deserialize, Serialize};

/// Share of what a side or the line holds that its flows take in one step at most (numerical).
pub(crate) const MOST_OF_SIDE: f64 = 0.2;

/// A bound that can act.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bound {
    /// Flow through the metering device, by what the liquid line or the low side holds.
    Metering,
    /// Flow out of the condenser, by what it or the liquid line holds.
    CondenserOutlet,
    /// The same, by the largest flow that the model is meant for.
    CondenserOutletRate,
    /// Gas that does not condense, carried with what flows.
    CarriedGas,
    /// Gas that does not condense, and refrigerant against it, mixed at rest.
    MixedGas,
    /// What escapes through a leak.
    Leak,
    /// What escapes through the relief device.
    Relief,
    /// What a service port takes.
    ServicePort,
}

impl Bound {
    /// All of them.
    pub const ALL: [Bound; 8] = [
        Bound::Metering,
        Bound::CondenserOutlet,
        Bound::CondenserOutletRate,
        Bound::CarriedGas,
        Bound::MixedGas,
        Bound::Leak,
        Bound::Relief,
        Bound::ServicePort,
    ];
}

/// How often each bound has acted since the plant was made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limiter {
    acted: [u32; Bound::ALL.len()],
}

impl Limiter {
    /// How often a bound has acted: once for each time that it held a flow back.
    #[must_use]
    pub fn acted(&self, bound: Bound) -> u32 {
        self.acted[bound as usize]
    }

    /// The value, `most` at most.
    #[inline]
    pub(crate) fn at_most(&mut self, bound: Bound, value: f64, most: f64) -> f64 {
        if value > most {
            self.count(bound);
        }
        value.min(most)
    }

    /// The value between two others.
    #[inline]
    pub(crate) fn between(&mut self, bound: Bound, value: f64, least: f64, most: f64) -> f64 {
        if value < least || value > most {
            self.count(bound);
        }
        value.clamp(least, most)
    }

    /// Counts what was held back elsewhere.
    #[inline]
    pub(crate) fn has_acted(&mut self, bound: Bound, times: u32) {
        let acted = &mut self.acted[bound as usize];
        *acted = acted.saturating_add(times);
    }

    #[cold]
    fn count(&mut self, bound: Bound) {
        self.has_acted(bound, 1);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_holds_back_is_counted_and_what_lets_pass_is_not() {
        let mut limiter = Limiter::default();
        assert_eq!(limiter.at_most(Bound::Leak, 1.0, 2.0), 1.0);
        assert_eq!(limiter.between(Bound::Metering, 0.5, -1.0, 1.0), 0.5);
        assert_eq!(Bound::ALL.map(|bound| limiter.acted(bound)), [0; 8]);
        assert_eq!(limiter.at_most(Bound::Leak, 3.0, 2.0), 2.0);
        assert_eq!(limiter.between(Bound::Metering, -3.0, -1.0, 1.0), -1.0);
        assert_eq!(limiter.between(Bound::Metering, 3.0, -1.0, 1.0), 1.0);
        limiter.has_acted(Bound::ServicePort, 4);
        assert_eq!([Bound::Leak, Bound::Metering, Bound::ServicePort].map(|b| limiter.acted(b)), [1, 2, 4]);
    }
}

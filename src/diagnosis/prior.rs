//! What was likely before anything was read.

use plant::{FaultKind, LeakPlace};

use crate::hypothesis::{Cause, Hypothesis};

/// Beliefs before the first reading.
#[derive(Clone, Debug, PartialEq)]
pub enum Prior {
    /// The documented default: how often each kind stands behind a call about poor cooling or ice. Weights are in the catalogue
    /// of faults; nine in ten leaks are at the indoor coil.
    Usual,
    /// Every kind the same, leaks shared over their places; pairs and a sound plant as usual.
    Even,
    /// Weights of single kinds; kinds that are not named have the weight 1.
    Weights(Vec<(FaultKind, f64)>),
}

/// A pair is as likely as both at once by chance, times this: neglect brings faults together.
const PAIR_FACTOR: f64 = 2.0;
/// Weight of a sound plant: people rarely call about one.
const NOTHING_WEIGHT: f64 = 0.5;
/// Shares of the leaks by place (common practice, no source, for the first).
const LEAK_SHARES: [(LeakPlace, f64); 3] =
    [(LeakPlace::IndoorCoil, 0.9), (LeakPlace::SuctionServiceValve, 0.05), (LeakPlace::LiquidLine, 0.05)];

impl Prior {
    /// Probabilities of suspects, in their order; they add up to one.
    pub fn of(&self, suspects: &[Hypothesis]) -> Vec<f64> {
        let singles: f64 = suspects
            .iter()
            .filter(|suspect| suspect.causes.len() == 1)
            .flat_map(|suspect| &suspect.causes)
            .map(|cause| self.cause(*cause))
            .sum();
        let weights: Vec<f64> = suspects
            .iter()
            .map(|suspect| match suspect.causes.as_slice() {
                [] => NOTHING_WEIGHT,
                [one] => self.cause(*one),
                [first, second, ..] => {
                    PAIR_FACTOR * self.cause(*first) * self.cause(*second) / singles.max(f64::MIN_POSITIVE)
                }
            })
            .collect();
        let total: f64 = weights.iter().sum();
        weights.iter().map(|weight| weight / total.max(f64::MIN_POSITIVE)).collect()
    }

    fn cause(&self, cause: Cause) -> f64 {
        let kind = match self {
            Prior::Usual => cause.kind.row().usual,
            Prior::Even => 1.0,
            Prior::Weights(named) => {
                named.iter().find(|(kind, _)| *kind == cause.kind).map_or(1.0, |(_, weight)| *weight)
            }
        };
        let share = cause.place.map_or(1.0, |place| match self {
            Prior::Even => 1.0 / LeakPlace::ALL.len() as f64,
            _ => LEAK_SHARES.iter().find(|(known, _)| *known == place).map_or(0.0, |(_, share)| *share),
        });
        kind * share
    }
}

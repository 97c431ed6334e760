//! The drain pan under the indoor coil: what comes off the coil stands in it where its drain is plugged.
//!
//! What the air that passes takes up again out of a full pan is left out: some tenths of a kilogram a day.

use serde::{Deserialize, Serialize};

/// Water at which the float switch opens, kg: 12 mm in a pan of 0.5 m by 0.4 m (typ. of three tons; the switch stands below the
/// rim).
pub(crate) const FLOAT_OPENS_KG: f64 = 2.4;
/// Water at which it closes again, kg (typ.: some millimetres lower).
const FLOAT_CLOSES_KG: f64 = 1.8;
/// Water up to the rim, kg; more runs over it.
const HOLDS_KG: f64 = 4.0;

/// The drain of the pan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Drain {
    /// It takes more than any coil gives: a 3/4 in pipe some 100 g/s, a coil of five tons 2 g/s.
    #[default]
    Open,
    /// Nothing runs off.
    Plugged,
}

/// State of the pan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Pan {
    /// Of the water that has come off the coil since the start, what is no longer in the pan, kg.
    left_kg: f64,
    /// The float has lifted its switch open.
    float_up: bool,
}

impl Pan {
    /// A step, with all the water that has come off the coil since the start, kg.
    pub(crate) fn step(&mut self, drained_kg: f64, drain: Drain) {
        self.left_kg = match drain {
            Drain::Open => drained_kg,
            Drain::Plugged => self.left_kg.max(drained_kg - HOLDS_KG),
        };
        let from_kg = if self.float_up { FLOAT_CLOSES_KG } else { FLOAT_OPENS_KG };
        self.float_up = drained_kg - self.left_kg >= from_kg;
    }

    /// Water that stands in it, of all that has come off the coil since the start, kg.
    pub(crate) fn holds_kg(&self, drained_kg: f64) -> f64 {
        (drained_kg - self.left_kg).max(0.0)
    }

    /// Whether water has lifted the float.
    pub(crate) fn is_float_lifted(&self) -> bool {
        self.float_up
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn water_stands_where_the_drain_is_plugged_and_runs_off_where_it_is_not() {
        let mut pan = Pan::default();
        pan.step(5.0, Drain::Open);
        assert_eq!(pan, Pan { left_kg: 5.0, float_up: false });
        // Up at its mark, and over the rim no more comes in.
        pan.step(5.0 + 0.99 * FLOAT_OPENS_KG, Drain::Plugged);
        assert!(!pan.float_up);
        pan.step(5.0 + FLOAT_OPENS_KG, Drain::Plugged);
        assert!(pan.float_up);
        pan.step(15.0, Drain::Plugged);
        assert_eq!(pan, Pan { left_kg: 15.0 - HOLDS_KG, float_up: true });
        pan.step(15.0, Drain::Open);
        assert_eq!(pan, Pan { left_kg: 15.0, float_up: false });
    }
}

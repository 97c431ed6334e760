//! The charge that a hypothesis holds, and what one percent of it does to a reading.
//!
//! One percent of the charge hardly moves the pressures of a sound plant, and much those of one that is short of it or too full. So
//! a suspect that says how much charge there is has that from its own shadows, a little more and a little less charged.

use plant::Charge;
use visit::Reading;

use crate::hypothesis::Hypothesis;
use crate::member::Member;
use crate::surroundings::{CHARGE_SHARE, most};
use crate::weigh::{Prediction, difference};

/// Least distance of the shadows from which it is taken, as an amount: nearer to each other they differ by what their steps make of
/// them as well.
const LEAST_APART: f64 = 2.0 * CHARGE_SHARE;

/// Which amount of a suspect says how much charge there is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ChargeAxis {
    /// Its place among the suspect's causes.
    pub(crate) axis: usize,
    /// Whether more of it is less charge.
    says: Says,
}

/// What an amount says of the charge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Says {
    /// The share of the plate's that is missing.
    Missing,
    /// The share that is there beside the plate's.
    Excess,
}

impl ChargeAxis {
    /// That of a suspect; `None` for one that says nothing of the charge.
    pub(crate) fn of(suspect: &Hypothesis) -> Option<ChargeAxis> {
        suspect.causes.iter().enumerate().find_map(|(axis, cause)| {
            let says = match cause.kind.row().special.charge {
                Charge::Escapes | Charge::Missing => Says::Missing,
                Charge::Excess => Says::Excess,
                Charge::Untouched | Charge::Gas => return None,
            };
            Some(ChargeAxis { axis, says })
        })
    }

    /// By how much the amount is another one if one standard deviation of the charge is missing.
    pub(crate) fn one_less(self, amount: f64) -> f64 {
        match self.says {
            Says::Missing => CHARGE_SHARE * (1.0 - amount),
            Says::Excess => -CHARGE_SHARE * (1.0 + amount),
        }
    }

    /// By how much a reading moves if one standard deviation of the charge is missing, by two shadows that hold different
    /// amounts of it; `None` if no value lies between what they show.
    pub(crate) fn moves(
        self,
        taken: &Reading,
        [low, high]: [&Prediction<'_>; 2],
        [low_at, high_at]: [f64; 2],
    ) -> Option<f64> {
        let most = most(taken.quantity);
        let by = difference(low, high)? / (high_at - low_at) * self.one_less(0.5 * (low_at + high_at));
        Some(by.clamp(-most, most))
    }

    /// The same for a cell from its lowest to its highest amounts, by the nearest shadows around it that are far enough apart; of a pair the mean of both sides of the other
    /// cause.
    pub(crate) fn moves_in(
        self,
        taken: &Reading,
        [cell_low, cell_high]: [&[f64]; 2],
        shadows: &[Member],
        number: u32,
    ) -> Option<f64> {
        let sides: Vec<Option<(usize, f64)>> = match cell_low.len() {
            1 => vec![None],
            _ => {
                let other = 1 - self.axis;
                vec![Some((other, cell_low[other])), Some((other, cell_high[other]))]
            }
        };
        // What rests may have gone on elsewhere: it is left out whether it has or not.
        let there = |shadow: &&Member| shadow.follows && shadow.gave(number).is_some();
        let mut sum = 0.0;
        for side in &sides {
            let on_it = |shadow: &&Member| side.is_none_or(|(other, at)| shadow.amounts[other] == at);
            let at = |shadow: &Member| shadow.amounts[self.axis];
            let below = |shadow: &&Member| at(shadow) <= cell_low[self.axis];
            let above = |shadow: &&Member| at(shadow) >= cell_high[self.axis];
            let around = || shadows.iter().filter(there).filter(on_it);
            let pairs =
                around().filter(below).flat_map(|low| around().filter(above).map(move |high| (low, high)));
            // Those that are far enough apart before those that aren't, and of each the nearest.
            let key = |(low, high): &(&Member, &Member)| {
                let apart = at(high) - at(low);
                if apart >= LEAST_APART { apart } else { 10.0 - apart }
            };
            let (low, high) = pairs.min_by(|one, other| key(one).total_cmp(&key(other)))?;
            let gave = [Prediction::of(low, number)?, Prediction::of(high, number)?];
            sum += self.moves(taken, [&gave[0], &gave[1]], [at(low), at(high)])?;
        }
        Some(sum / sides.len() as f64)
    }
}

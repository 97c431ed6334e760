//! House, weather and charge as far as a learner can know them: somewhere in the ranges of the call's file.
//!
//! Shadows live in the middle of each range. What a reading would be elsewhere is asked of sound plants that live one standard
//! deviation off; the real one is learnt from what is read (`unknowns`). The charge of a plant that nobody suspects of
//! a wrong one was weighed in with a scale, or trimmed by a person.

use call::{Call, SurroundingShares};
use plant::StepError;
use visit::{AirPoint, Entry, Measured, Outcome, ShadowPace, Signal, Trust};

use crate::member::Member;
use crate::unknowns::{Term, Unknown};

/// One standard deviation of a range in which every value is as likely, as a share of its width.
const SHARE_OF_RANGE: f64 = 0.288_675;
/// One standard deviation of a charge that was weighed in, as a share (engineering value).
pub(crate) const CHARGE_SHARE: f64 = 0.01;
/// A difference that a quantity shows at most for one standard deviation; more is a plant in another state.
const MOST_PA: f64 = 60.0e3;
const MOST_K: f64 = 2.5;
/// Share by which the surroundings move a plant with a fault more or less than a sound one (engineering value).
const UNLIKE: f64 = 0.2;
/// What house and weather make of a plant that stands where the sound one runs, or runs where it stands: a third of a
/// kelvin, and of a pressure what that makes of saturation (engineering values).
const OTHERWISE_PA: f64 = 15.0e3;
const OTHERWISE_K: f64 = 0.4;

/// Sound plants in other surroundings, the first in the middle of all ranges.
#[derive(Clone, Debug)]
pub(crate) struct Surroundings {
    pub(crate) shadows: Vec<Member>,
}

/// A plant that is to arrive.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Elsewhere {
    shares: SurroundingShares,
    charge_share: f64,
}

/// By how much a reading moves with the surroundings, for one standard deviation of each.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Sensitivity {
    /// Of house and weather, on a sound plant.
    by: Vec<f64>,
    charge: ByCharge,
    /// Whether nobody can say in which direction: a plant that cycles on its thermostat is met in one phase here and in another
    /// there.
    cycles: bool,
    /// Whether the compressor of the sound plant stood.
    stood: bool,
}

/// By how much a reading moves with the charge.
#[derive(Clone, Copy, Debug, PartialEq)]
enum ByCharge {
    /// On a sound plant.
    OfSound(f64),
    /// On a plant with the charge that is suspected, see [`crate::charge`].
    OfItsOwn(f64),
}

impl Default for ByCharge {
    fn default() -> ByCharge {
        ByCharge::OfSound(0.0)
    }
}

impl Elsewhere {
    /// Everywhere that a call asks for: the middle first, then each quantity whose range has a width, and the charge.
    pub(crate) fn of(call: &Call) -> Vec<Elsewhere> {
        let middle = SurroundingShares::MIDDLE;
        let off = 0.5 + SHARE_OF_RANGE;
        let widths = [
            (call.house.air_k, SurroundingShares { house_air: off, ..middle }),
            (call.house.relative_humidity, SurroundingShares { house_humidity: off, ..middle }),
            (call.weather.mean_k, SurroundingShares { weather_mean: off, ..middle }),
        ];
        let mut all = vec![Elsewhere { shares: middle, charge_share: 1.0 }];
        all.extend(
            widths
                .into_iter()
                .filter(|(range, _)| range.high > range.low)
                .map(|(_, shares)| Elsewhere { shares, charge_share: 1.0 }),
        );
        all.push(Elsewhere { shares: middle, charge_share: 1.0 - CHARGE_SHARE });
        all
    }

    /// The sound plant there, on arrival.
    ///
    /// # Errors
    /// If it leaves the finite numbers.
    pub(crate) fn arrive(self, call: &Call, pace: ShadowPace) -> Result<Member, StepError> {
        Member::arrive_sound(call, self.shares, self.charge_share * call.system.plate_charge_kg, pace)
    }
}

impl Surroundings {
    /// By how much what an entry read moves with each of the surroundings.
    pub(crate) fn sensitivity(&self, entry: &Entry) -> Sensitivity {
        let Outcome::Read(taken) = &entry.outcome else { return Sensitivity::default() };
        let read = |shadow: &Member| match shadow.gave(entry.number).map(|gave| &gave.outcome) {
            Some(Outcome::Read(read)) if read.quantity == taken.quantity => Some((read.value, read.trust)),
            _ => None,
        };
        let Some((middle, trust)) = self.shadows.first().and_then(read) else {
            return Sensitivity::default();
        };
        let stood = trust == Trust::CompressorStopped;
        let most = most(taken.quantity);
        let mut by: Vec<f64> = self.shadows[1..]
            .iter()
            .map(|shadow| match read(shadow) {
                Some((value, trust)) if (trust == Trust::CompressorStopped) == stood => {
                    (value - middle).clamp(-most, most)
                }
                _ => 0.0,
            })
            .collect();
        let charge = ByCharge::OfSound(by.pop().unwrap_or(0.0));
        let outdoors = matches!(taken.quantity, Measured::AirTemperature(AirPoint::Outdoor, _));
        Sensitivity { by, charge, cycles: !outdoors && self.cycle(entry), stood }
    }

    /// Whether any of them has been called for and left alone in turn lately.
    pub(crate) fn cycle(&self, entry: &Entry) -> bool {
        let called = |shadow: &Member| shadow.gave(entry.number).map(|gave| gave.running.called);
        let toggles = |shadow: &Member| {
            let cycle = shadow.visit.cycle();
            cycle.is_some_and(|cycle| cycle.toggles(Signal::Call))
        };
        self.shadows.iter().any(toggles)
            || self.shadows.windows(2).any(|pair| called(&pair[0]) != called(&pair[1]))
    }
}

impl Sensitivity {
    /// The same on a plant of which one standard deviation less of the charge that is suspected moves the reading by so much.
    pub(crate) fn with_charge(&self, moves: f64) -> Sensitivity {
        Sensitivity { charge: ByCharge::OfItsOwn(moves), ..self.clone() }
    }

    /// What moves a reading on a plant whose compressor stands or not; a sound plant in another state tells nothing of it.
    pub(crate) fn terms(&self, stands: bool) -> impl Iterator<Item = Term> + '_ {
        let charge = match self.charge {
            ByCharge::OfItsOwn(by) => by,
            ByCharge::OfSound(by) if stands == self.stood && !self.cycles => by,
            ByCharge::OfSound(_) => 0.0,
        };
        self.house_and_weather(stands).chain([(Unknown::Charge, charge)]).filter(|(_, by)| *by != 0.0)
    }

    fn house_and_weather(&self, stands: bool) -> impl Iterator<Item = Term> + '_ {
        let alike = stands == self.stood && !self.cycles;
        let numbered = self.by.iter().enumerate();
        numbered.filter(move |_| alike).map(|(index, by)| (Unknown::Surroundings(index), *by))
    }

    /// By how much the surroundings move a plant that is not sound more or less than the sound one.
    pub(crate) fn unlike(&self, stands: bool) -> f64 {
        let of_sound = match self.charge {
            ByCharge::OfSound(by) if stands == self.stood && !self.cycles => by,
            _ => 0.0,
        };
        let squares = self.house_and_weather(stands).map(|(_, by)| by * by).sum::<f64>();
        UNLIKE * libm::sqrt(squares + of_sound * of_sound)
    }

    /// What the surroundings may make of a reading of a quantity in no known direction, on a plant whose compressor stands or not.
    pub(crate) fn loose(&self, quantity: Measured, stands: bool) -> f64 {
        let in_any_direction = || {
            let of_sound = match self.charge {
                ByCharge::OfSound(by) => by,
                ByCharge::OfItsOwn(_) => 0.0,
            };
            let squares = self.by.iter().map(|by| by * by).sum::<f64>() + of_sound * of_sound;
            if self.cycles { libm::sqrt(squares) } else { 0.0 }
        };
        match quantity {
            _ if stands == self.stood => in_any_direction(),
            Measured::GaugePressure(_) => OTHERWISE_PA,
            Measured::PipeTemperature(_) | Measured::AirTemperature(AirPoint::Supply, _) => OTHERWISE_K,
            _ => in_any_direction(),
        }
    }
}

pub(crate) fn most(quantity: Measured) -> f64 {
    match quantity {
        Measured::GaugePressure(_) => MOST_PA,
        Measured::PipeTemperature(_) | Measured::AirTemperature(..) => MOST_K,
        _ => f64::MAX,
    }
}

//! How likely an outcome is if a suspect is true.
//!
//! A reading is held against what the suspect's shadows gave: normal, with the instrument's accuracy as its class
//! states it, what the model was measured to be off by, and what house and weather may be; what stays of these is learnt along
//! the way (`unknowns`). What was seen is weighed in `sight`, in which phase of its cycle a plant was met in `phase`.

use visit::{AirPoint, Entry, Measured, Outcome, Reading, Trust, instrument};

use crate::discrepancy::discrepancy;
use crate::member::Member;
use crate::phase::{Against, Fit};
use crate::surroundings::Sensitivity;
use crate::unknowns::{Term, Told, Unknown, Unknowns};

/// Between two shadows, a value may be off the straight line by this share of their difference (measured where shadows
/// were put in between: `cargo run --release -p trials --bin residuals -- --between`).
const BEND: f64 = 0.35;
/// Share of what the model is standing off by that changes from reading to reading (engineering value).
const RESTLESS: f64 = 0.3;
/// By how many times the standard deviation within a phase a reading in another cycle is off: cycles are not all alike
/// (engineering value).
const EARLIER_SWING: f64 = 1.3;
/// By how much the air of a room that a thermostat holds is off, one standard deviation, K: evenly over a thermostat's
/// differential of about one kelvin.
const ROOM_SWING_K: f64 = 0.3;
/// By which share of its resistance a winding is off of a plant that cycles on its thermostat or its protectors: copper gains 0.4 % a
/// kelvin, and it is as warm as its last runs were long.
const WINDING_SWING: f64 = 0.03;
/// How far past the values at its corners a cell may reach within, as a share of their difference (engineering value).
const PAST_CORNERS: f64 = 0.25;
/// Standard deviations between two shadows of which one stands and one runs, or shows a number where the other shows
/// none: a cliff.
const CLIFF: f64 = 6.0;

/// What a shadow gave for an entry.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Prediction<'a> {
    /// How near the shadow's severity is; 0 to 1, all of them add up to one.
    pub weight: f64,
    pub entry: &'a Entry,
    /// What it gave when the same look was made the last time.
    pub before: Option<&'a Entry>,
    pub fit: &'a Fit,
}

impl<'a> Prediction<'a> {
    /// What a shadow gave for the entry of a number, with the whole weight and nothing before it; `None` if it rested.
    pub(crate) fn of(shadow: &'a Member, number: u32) -> Option<Prediction<'a>> {
        Some(Prediction { weight: 1.0, entry: shadow.gave(number)?, before: None, fit: shadow.fit(number)? })
    }
}

/// How shadows stand for what lies between them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Between {
    /// At one place, by how near they are.
    Here,
    /// Anywhere between: as likely as it can be at all. A bound.
    Anywhere,
    /// The same in a wide cell: between plants that behave unlike each other anything may lie.
    AnywhereInWide,
}

/// Whether two plants both run or both stand when they are called for, and have ice on the coil or none. Between two that do not,
/// anything may be seen, though both show the same.
pub(crate) fn behave_alike(one: &Prediction<'_>, other: &Prediction<'_>) -> bool {
    (one.fit.stood, one.fit.iced) == (other.fit.stood, other.fit.iced)
}

/// Whether an outcome says anything about what is wrong.
pub(crate) fn is_evidence(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Read(_) => true,
        Outcome::Seen(seen) => !seen.is_empty(),
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => false,
    }
}

/// What a shadow shows in place of a reading.
#[derive(Clone, Copy, Debug)]
struct Shown {
    weight: f64,
    value: f64,
    trust: Trust,
    /// By how much it has swung lately.
    swing: f64,
}

impl Shown {
    fn stands(&self) -> bool {
        self.trust == Trust::CompressorStopped
    }
}

/// What shadows show: numbers, and the weight of those that show none where one was read.
fn shown(gave: &[Prediction<'_>]) -> (Vec<Shown>, f64) {
    let mut all = Vec::with_capacity(gave.len());
    let mut blank = 0.0;
    for one in gave {
        let weight = one.weight;
        match (one.fit.against, &one.entry.outcome) {
            (Against::Nothing, _) => {}
            (Against::Earlier(value, swing), _) => {
                let trust = if one.fit.iced { Trust::IceOnCoil } else { Trust::Unsettled };
                all.push(Shown { weight, value, trust, swing: EARLIER_SWING * swing });
            }
            (_, Outcome::Read(read)) => {
                let iced = one.fit.iced && read.trust == Trust::Sound;
                let trust = if iced { Trust::IceOnCoil } else { read.trust };
                let swing = match read.quantity {
                    Measured::AirTemperature(AirPoint::Return, _) if one.fit.cycled => ROOM_SWING_K,
                    Measured::Resistance(from, _)
                        if from.is_of_a_winding() && one.fit.is_heated_by_chance() =>
                    {
                        WINDING_SWING * read.value.abs()
                    }
                    _ => read.uncertainty,
                };
                all.push(Shown { weight, value: read.value, trust, swing });
            }
            _ => blank += weight,
        }
    }
    let total = all.iter().map(|one| one.weight).sum::<f64>() + blank;
    for one in &mut all {
        one.weight /= total.max(f64::MIN_POSITIVE);
    }
    (all, blank / total.max(f64::MIN_POSITIVE))
}

/// A reading held against an expected value: what moves it, and what is new each time.
struct Held {
    expected: f64,
    terms: Vec<Term>,
    noise: f64,
}

impl Held {
    fn new(taken: &Reading, one: &Shown, bend: f64, sensitivity: &Sensitivity) -> Held {
        let class = instrument(taken.quantity);
        if taken.quantity.shows_no_sign() && one.value.abs() < class.accuracy_at(0.0) {
            // What a meter shows wrong at nothing it can't show below nothing.
            let off = 0.5 * class.accuracy_at(0.0);
            return Held { expected: one.value, terms: Vec::new(), noise: off * off };
        }
        let off = discrepancy(taken.quantity, one.value, worse(taken.shown, one.trust));
        let unlike = match taken.quantity {
            Measured::AirTemperature(AirPoint::Outdoor, _) => 0.0,
            _ => sensitivity.unlike(one.stands()),
        };
        let standing = libm::sqrt(off.standing * off.standing + bend * bend + unlike * unlike);
        let loose = sensitivity.loose(taken.quantity, one.stands());
        let passing = libm::sqrt(off.passing * off.passing + one.swing * one.swing + loose * loose);
        let mut terms = vec![
            (Unknown::Piece(taken.piece), class.calibration_uncertainty_at(one.value)),
            (Unknown::Standing(taken.quantity), standing),
        ];
        if passing > 0.0 {
            terms.push((Unknown::Passing(taken.quantity), passing));
        }
        terms.extend(sensitivity.terms(one.stands()));
        let repeat = class.repeat_uncertainty_at(one.value);
        let restless = RESTLESS * off.standing;
        Held { expected: one.value, terms, noise: repeat * repeat + restless * restless }
    }

    fn density(&self, taken: &Reading, at_s: f64, unknowns: &mut Unknowns) -> (f64, f64) {
        unknowns.weigh(Told {
            value: taken.value,
            at_s,
            expected: self.expected,
            terms: &self.terms,
            noise: self.noise,
            flat: flat(taken.quantity),
        })
    }

    /// One standard deviation, of everything that moves the reading.
    fn spread(&self) -> f64 {
        libm::sqrt(self.noise + self.terms.iter().map(|(_, by)| by * by).sum::<f64>())
    }
}

/// Of two trusts the one that says less.
fn worse(one: Trust, other: Trust) -> Trust {
    let rank = |trust: Trust| match trust {
        Trust::Sound => 0,
        Trust::CompressorStopped => 1,
        Trust::Unsettled => 2,
        Trust::IceOnCoil => 3,
    };
    if rank(one) >= rank(other) { one } else { other }
}

/// Log-likelihood (natural) of a reading, given what the shadows around a severity gave. Learns what stays on the way. `None` if
/// the shadows say nothing: the move was not possible on them, or they have not been in the phase in which the plant was met.
pub(crate) fn of_reading(
    entry: &Entry,
    taken: &Reading,
    gave: &[Prediction<'_>],
    between: Between,
    sensitivity: &Sensitivity,
    unknowns: &mut Unknowns,
) -> Option<f64> {
    let (all, blank) = shown(gave);
    if all.is_empty() && blank <= 0.0 {
        return None;
    }
    let at_s = entry.finished_s;
    let nothing = flat(taken.quantity) * SLIP_TO_A_NUMBER;
    let unlike = gave.iter().any(|one| one.fit.against == Against::Nothing)
        || gave.windows(2).any(|pair| !behave_alike(&pair[0], &pair[1]));
    let alike = all.windows(2).all(|pair| pair[0].stands() == pair[1].stands());
    if between != Between::Here && !all.is_empty() {
        let open = unlike && between == Between::AnywhereInWide;
        return Some(libm::log(anywhere(taken, at_s, &all, open, sensitivity, unknowns).max(nothing)));
    }
    if alike && blank <= 0.0 {
        let held = Held::new(taken, &mean(&all), BEND * width(&all), sensitivity);
        return Some(libm::log(held.density(taken, at_s, unknowns).0));
    }
    // The plant runs on one side and stands on the other, or shows nothing there: no value lies between. The likelier side
    // teaches.
    let mut best: Option<(f64, Unknowns)> = None;
    let mut sum = blank * nothing;
    for one in &all {
        let mut learnt = unknowns.clone();
        let held = Held::new(taken, one, 0.0, sensitivity);
        let density = one.weight * held.density(taken, at_s, &mut learnt).0;
        if best.as_ref().is_none_or(|(most, _)| density > *most) {
            best = Some((density, learnt));
        }
        sum += density;
    }
    if let Some((_, learnt)) = best {
        *unknowns = learnt;
    }
    Some(libm::log(sum.max(1.0e-300)))
}

/// Posterior of a sight where it is to be seen (engineering value).
const SEEN_AS_A_RULE: f64 = 0.9;
/// Posterior that a meter shows a number where the shadow says that it shows none.
const SLIP_TO_A_NUMBER: f64 = 0.003;

/// The density at the best place between the shadows; `open` if anything may lie between.
fn anywhere(
    taken: &Reading,
    at_s: f64,
    all: &[Shown],
    open: bool,
    sensitivity: &Sensitivity,
    unknowns: &mut Unknowns,
) -> f64 {
    let mut held = Held::new(taken, &mean(all), 0.0, sensitivity);
    let low = all.iter().map(|one| one.value).fold(f64::MAX, f64::min);
    let high = all.iter().map(|one| one.value).fold(f64::MIN, f64::max);
    let past = PAST_CORNERS * (high - low);
    let target = taken.value - unknowns.shift(&held.terms);
    held.expected = if open { target } else { target.clamp(low - past, high + past) };
    held.density(taken, at_s, unknowns).0
}

/// What is expected between shadows: on the straight line, in doubt as the worst of them, swinging as they do on the mean.
fn mean(all: &[Shown]) -> Shown {
    let mut mean = Shown { weight: 1.0, value: 0.0, trust: all[0].trust, swing: 0.0 };
    let total: f64 = all.iter().map(|one| one.weight).sum();
    for one in all {
        mean.value += one.weight / total * one.value;
        mean.swing += one.weight / total * one.swing;
        mean.trust = worse(mean.trust, one.trust);
    }
    mean
}

/// Standard deviation of the values of shadows by their weights: half their difference in the middle between two, nothing
/// at either.
fn width(all: &[Shown]) -> f64 {
    let mean = mean(all);
    let square = |one: &Shown| one.weight * (one.value - mean.value) * (one.value - mean.value);
    libm::sqrt(all.iter().map(square).sum())
}

/// By how much more the second of two shadows shows for a reading than the first; `None` if no value lies between what they show.
pub(crate) fn difference(one: &Prediction<'_>, other: &Prediction<'_>) -> Option<f64> {
    let (all, blank) = shown(&[Prediction { weight: 0.5, ..*one }, Prediction { weight: 0.5, ..*other }]);
    match all.as_slice() {
        [here, there] if blank <= 0.0 && here.stands() == there.stands() => Some(there.value - here.value),
        _ => None,
    }
}

/// How far apart two shadows are in what they gave for a reading, in standard deviations of the reading.
pub(crate) fn apart(
    taken: &Reading,
    one: &Prediction<'_>,
    other: &Prediction<'_>,
    sensitivity: &Sensitivity,
) -> f64 {
    let (all, blank) = shown(&[Prediction { weight: 0.5, ..*one }, Prediction { weight: 0.5, ..*other }]);
    let silent = |one: &Prediction<'_>| one.fit.against == Against::Nothing;
    match all.as_slice() {
        _ if silent(one) != silent(other) => CLIFF,
        [here, there] if here.stands() == there.stands() => {
            let held = Held::new(taken, &mean(&all), 0.0, sensitivity);
            (here.value - there.value).abs() / held.spread()
        }
        [_, _] => CLIFF,
        [_] if blank > 0.0 => CLIFF,
        _ => 0.0,
    }
}

/// How many standard deviations a reading is off what one shadow gave, and by how much, in the quantity's unit; `None` if
/// the shadow says nothing.
pub(crate) fn off(
    entry: &Entry,
    taken: &Reading,
    gave: &Prediction<'_>,
    sensitivity: &Sensitivity,
    unknowns: &mut Unknowns,
) -> Option<(f64, f64)> {
    let (all, _) = shown(std::slice::from_ref(gave));
    let held = Held::new(taken, all.first()?, 0.0, sensitivity);
    let off = taken.value - held.expected;
    Some((held.density(taken, entry.finished_s, unknowns).1, off))
}

/// One standard deviation of a predicted reading: instrument, model, and doubt. `apart`: see [`crate::phase::apart_in_cycle`].
pub(crate) fn spread(predicted: &Reading, apart: bool) -> f64 {
    let trust = if apart { worse(predicted.trust, Trust::Unsettled) } else { predicted.trust };
    let one = Shown { weight: 1.0, value: predicted.value, trust, swing: predicted.uncertainty };
    let taken = Reading { shown: trust, ..predicted.clone() };
    Held::new(&taken, &one, 0.0, &Sensitivity::default()).spread()
}

/// Log-likelihood (natural) of an outcome in the mean if the suspect is right: of a reading that of a normal distribution, -ln(s) -
/// ln(2 pi e)/2; of a sight, which is seen as a rule where it is to be seen, next to nothing.
pub(crate) fn usual(outcome: &Outcome, sensitivity: &Sensitivity) -> f64 {
    let Outcome::Read(taken) = outcome else { return libm::log(SEEN_AS_A_RULE) };
    let one = Shown { weight: 1.0, value: taken.value, trust: taken.trust, swing: taken.uncertainty };
    let spread = Held::new(taken, &one, 0.0, sensitivity).spread();
    -libm::log(spread) - 0.5 * libm::log(2.0 * core::f64::consts::PI * core::f64::consts::E)
}

/// Density of a meaningless value, over the range in which it may lie, in the quantity's SI unit.
fn flat(quantity: Measured) -> f64 {
    1.0 / quantity.row().range
}

#[cfg(test)]
mod tests {
    use visit::{Bulb, Move, Running};

    use super::*;

    fn entry(value: f64) -> Entry {
        let quantity = Measured::AirTemperature(AirPoint::Return, Bulb::Dry);
        let reading = Reading {
            quantity,
            value,
            uncertainty: 0.1,
            trust: Trust::Sound,
            shown: Trust::Sound,
            piece: 32,
        };
        Entry {
            number: 1,
            action: Move::ReadAir(AirPoint::Return, Bulb::Dry),
            started_s: 0.0,
            finished_s: 15.0,
            running: Running::default(),
            outcome: Outcome::Read(reading),
            notes: Vec::new(),
        }
    }

    fn fit(against: Against) -> Fit {
        Fit {
            chances: [1.0; 3],
            against,
            outdoor_fan_turned: true,
            blower_turned: true,
            iced: false,
            stood: false,
            cycled: false,
            compressor_cycled: false,
        }
    }

    /// Between a plant that was never in the phase in which the real one was met and one that was, far off in another house, lie
    /// plants that fit: the bound of the cell must let them be found.
    #[test]
    fn beside_a_silent_corner_anything_may_lie() {
        let (taken, far) = (entry(298.0), entry(302.6));
        let Outcome::Read(reading) = taken.outcome.clone() else { unreachable!("it was read") };
        let (silent, says) = (fit(Against::Nothing), fit(Against::Entry));
        let corner = |entry, fit| Prediction { weight: 0.5, entry, before: None, fit };
        let bound = |gave: &[Prediction<'_>]| {
            let (sensitivity, mut unknowns) = (Sensitivity::default(), Unknowns::default());
            of_reading(&taken, &reading, gave, Between::AnywhereInWide, &sensitivity, &mut unknowns)
        };
        let at_its_best = bound(&[corner(&taken, &says), corner(&taken, &says)]).expect("both say something");
        let beside = bound(&[corner(&taken, &silent), corner(&far, &says)]).expect("one says something");
        assert!((beside - at_its_best).abs() < 0.1, "{beside} {at_its_best}");
        let both_far = bound(&[corner(&far, &says), corner(&far, &says)]).expect("both say something");
        assert!(both_far < at_its_best - 5.0, "{both_far} {at_its_best}");
        let width = apart(&reading, &corner(&taken, &silent), &corner(&far, &says), &Sensitivity::default());
        assert_eq!(width, CLIFF, "such a cell is halved");
    }
}

//! What a case number stands for: a system, two faults, a house and its weather, written as a call file.

use std::fmt::Write as _;

use plant::{FaultKind, LeakPlace, Metering, System};

use super::dice::Dice;

/// A fault that a plant can have: a kind, and a place for the kinds that have one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hypothesis {
    /// Kind.
    pub kind: FaultKind,
    /// Place, for leaks.
    pub place: Option<LeakPlace>,
}

impl std::fmt::Display for Hypothesis {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}", self.kind)?;
        self.place.map_or(Ok(()), |place| write!(f, " ({place:?})"))
    }
}

/// One made-up call and what is needed to live through it.
#[derive(Clone, Debug)]
pub struct Case {
    /// Its number.
    pub number: u64,
    /// Name of the built-in system.
    pub system: &'static str,
    /// The two faults.
    pub pair: (Hypothesis, Hypothesis),
    /// Text of the call file.
    pub call_text: String,
    /// Seed of the visit.
    pub seed: u64,
}

/// Every unordered pair of faults, places told apart: two leaks at two places are a pair.
#[must_use]
pub fn every_pair() -> Vec<(Hypothesis, Hypothesis)> {
    let mut suspects = Vec::new();
    for kind in FaultKind::ALL {
        if kind.needs_place() {
            suspects.extend(LeakPlace::ALL.map(|place| Hypothesis { kind, place: Some(place) }));
        } else {
            suspects.push(Hypothesis { kind, place: None });
        }
    }
    let mut pairs = Vec::new();
    for (at, first) in suspects.iter().enumerate() {
        pairs.extend(suspects[at + 1..].iter().map(|second| (*first, *second)));
    }
    pairs
}

impl Case {
    /// The case of a number, with a day of `day_s` seconds for onsets and history. Numbers that follow one another take
    /// pairs far apart; after all pairs the next round takes each on another system.
    #[must_use]
    pub fn of(number: u64, day_s: f64) -> Case {
        let pairs = every_pair();
        let count = pairs.len() as u64;
        let round = number / count;
        let stride = stride(count);
        let at = (number % count) * stride % count;
        let pair = pairs[at as usize];
        let systems = systems_for(pair);
        let system = systems[((round + at) % systems.len() as u64) as usize];
        let mut dice = Dice::new(number, 0);
        let seed = dice.seed();
        Case { number, system, pair, call_text: call_text(system, pair, day_s, &mut dice), seed }
    }
}

/// A step through the pairs that meets every one: near the golden section of their number, without a common divisor.
fn stride(count: u64) -> u64 {
    let from = (count as f64 * 0.618) as u64;
    (from..count).find(|step| divisor(*step, count) == 1).unwrap_or(1)
}

fn divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { divisor(b, a % b) }
}

/// Systems on which both faults do something; if there is none, those whose call files may name both.
fn systems_for(pair: (Hypothesis, Hypothesis)) -> Vec<&'static str> {
    let those = |fits: fn(FaultKind, &System) -> bool| -> Vec<&'static str> {
        System::names()
            .into_iter()
            .filter(|name| {
                System::built_in(name).is_some_and(|s| fits(pair.0.kind, &s) && fits(pair.1.kind, &s))
            })
            .collect()
    };
    let bitten = those(FaultKind::is_possible_in);
    if bitten.is_empty() { those(may_be_named) } else { bitten }
}

/// Whether a call file may name a kind for a system.
fn may_be_named(kind: FaultKind, system: &System) -> bool {
    matches!(system.metering, Metering::Txv { .. }) || !kind.needs_valve()
}

/// The call file of a case.
fn call_text(system: &str, pair: (Hypothesis, Hypothesis), day_s: f64, dice: &mut Dice) -> String {
    let mean_c = dice.between(8.0, 42.0);
    let swing_k = dice.between(0.0, 12.0);
    // Dry to foggy: at the highest the coldest hour is saturated.
    let dew_point_c = (mean_c - swing_k - dice.between(0.1, 20.0)).clamp(-19.9, 29.9);
    let history_s = *dice.one_of(&[0.0, 600.0, 3600.0]).unwrap_or(&0.0);
    let charge_share = if dice.happens(0.2) { dice.between(0.3, 1.5) } else { dice.between(0.9, 1.05) };
    let mut faults = String::new();
    for suspect in [pair.0, pair.1] {
        let severity = match dice.unit() {
            share if share < 0.2 => 1.0,
            share if share < 0.25 => 0.0,
            _ => dice.unit(),
        };
        let later = !suspect.kind.holds_from_the_start() && dice.happens(0.5);
        let onset_s = if later { dice.between(0.0, day_s) } else { 0.0 };
        let places = suspect.place.map_or(String::new(), |place| format!("places: [{place:?}], "));
        let _ = writeln!(
            faults,
            "        (kind: {:?}, {places}severity: ({severity:?}, {severity:?}), onset: (Seconds({onset_s:?}), Seconds({onset_s:?}))),",
            suspect.kind,
        );
    }
    let cleared = if pair.0.kind == pair.1.kind {
        format!("{:?}", pair.0.kind)
    } else {
        format!("{:?}, {:?}", pair.0.kind, pair.1.kind)
    };
    let (air_c, humidity) = (dice.between(16.0, 36.0), dice.between(0.2, 0.85));
    let mode = if dice.happens(0.85) { "Cool" } else { "Off" };
    let fan = if dice.happens(0.8) { "Auto" } else { "On" };
    let set_point_c = dice.between(12.0, 27.0);
    let (start_hour, sun_w_m2) = (dice.between(0.0, 24.0), dice.between(0.0, 1000.0));
    format!(
        "(
    version: 1,
    title: \"A made-up call\",
    complaint: \"Something is wrong with it, and something else as well.\",
    answers: [(WhenItStarted, \"This week.\")],
    system: \"{system}\",
    house: (air: (Celsius({air_c:?}), Celsius({air_c:?})), relative_humidity: ({humidity:?}, {humidity:?})),
    weather: (
        mean: (Celsius({mean_c:?}), Celsius({mean_c:?})),
        swing: CelsiusDifference({swing_k:?}),
        dew_point: Celsius({dew_point_c:?}),
        start_hour: {start_hour:?},
        solar_peak_w_m2: {sun_w_m2:?},
    ),
    thermostat: (mode: {mode}, fan: {fan}, set_point: Celsius({set_point_c:?})),
    charge_share: ({charge_share:?}, {charge_share:?}),
    faults: [
{faults}    ],
    history: Seconds({history_s:?}),
    prerequisites: [],
    rivals: [],
    solved: (cleared: [{cleared}], charge_share: (0.95, 1.05), frost_mass_max: Grams(20), proven_for: Minutes(15)),
    par_time: Minutes(240),
)
"
    )
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// One round takes every pair once, and the next ones take it to other systems.
    #[test]
    fn every_pair_comes_up_in_each_round_on_other_systems() {
        let pairs = every_pair();
        let count = pairs.len() as u64;
        let mut seen = BTreeSet::new();
        for number in 0..count {
            assert!(seen.insert(Case::of(number, 3600.0).pair), "case {number} repeats a pair");
        }
        assert_eq!(seen.len(), pairs.len());
        for number in 0..20 {
            let systems: BTreeSet<&str> =
                (0..5).map(|round| Case::of(number + round * count, 3600.0).system).collect();
            let possible = systems_for(Case::of(number, 3600.0).pair).len();
            assert_eq!(systems.len(), possible.min(5), "case {number}");
        }
    }

    #[test]
    fn every_system_comes_up() {
        let systems: BTreeSet<&str> = (0..200).map(|number| Case::of(number, 3600.0).system).collect();
        assert_eq!(systems.len(), System::names().len());
    }
}

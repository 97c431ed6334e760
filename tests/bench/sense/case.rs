//! What a case is: a system, one fault or two, a weather.

use std::fmt;

use media::moist_air::{STANDARD_PRESSURE_PA, humidity_ratio_from_wet_bulb};
use media::units::{celsius_from_fahrenheit, kelvin_from_fahrenheit};
use plant::{Fault, FaultKind, LeakPlace, Plant, Room, System, Weather};

use crate::pairs::{Dice, Hypothesis, every_pair};

/// A fault and how bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OneFault {
    /// Kind and place.
    pub suspect: Hypothesis,
    /// Severity in hundredths.
    pub percent: u32,
}

/// Held air, °F: outdoors, return dry bulb, return wet bulb.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    outdoor_f: f64,
    dry_bulb_f: f64,
    wet_bulb_f: f64,
}

const fn air(outdoor_f: f64, dry_bulb_f: f64, wet_bulb_f: f64) -> Air {
    Air { outdoor_f, dry_bulb_f, wet_bulb_f }
}

/// From the coldest day on which anyone cools a house to the hottest, in dry, usual and damp air (rating points A, B and C of
/// AHRI 210/240 among them).
const AIRS: [Air; 12] = [
    air(55.0, 65.0, 54.0),
    air(55.0, 75.0, 63.0),
    air(65.0, 70.0, 58.0),
    air(65.0, 80.0, 67.0),
    air(75.0, 72.0, 60.0),
    air(75.0, 85.0, 75.0),
    air(82.0, 80.0, 67.0),
    air(82.0, 80.0, 57.0),
    air(95.0, 75.0, 63.0),
    air(95.0, 80.0, 67.0),
    air(105.0, 85.0, 71.0),
    air(115.0, 78.0, 64.0),
];

/// One made-up machine in its weather.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// Name of the built-in system.
    pub system: &'static str,
    /// One fault or two; none for the sound machine.
    pub faults: Vec<OneFault>,
    air: Air,
}

impl Case {
    /// The plant at rest.
    ///
    /// # Panics
    /// Never: the system is one of the built-in ones.
    #[must_use]
    pub fn plant(&self) -> Plant {
        let system = System::built_in(self.system).expect("a built-in system");
        let dry_bulb_k = kelvin_from_fahrenheit(self.air.dry_bulb_f);
        let humidity_ratio = humidity_ratio_from_wet_bulb(
            celsius_from_fahrenheit(self.air.dry_bulb_f),
            celsius_from_fahrenheit(self.air.wet_bulb_f),
            STANDARD_PRESSURE_PA,
        );
        let faults: Vec<Fault> = self.faults.iter().map(|one| one.fault()).collect();
        Plant::new(
            &system,
            Room::Held { dry_bulb_k, humidity_ratio },
            Weather::held(kelvin_from_fahrenheit(self.air.outdoor_f)),
            system.plate_charge_kg,
            &faults,
        )
    }

    /// A machine without a fault at rating point A of AHRI 210/240.
    #[cfg(test)]
    pub(super) fn sound_at_rating_point_a() -> Case {
        Case { system: "split-3-ton-r410a-txv", faults: vec![], air: air(95.0, 80.0, 67.0) }
    }

    /// Whether a fault of this kind is among its faults.
    #[must_use]
    pub fn has(&self, kind: FaultKind) -> bool {
        self.severity(kind) > 0.0
    }

    /// Severity of a fault, 0 to 1; 0 if it is not there.
    #[must_use]
    pub fn severity(&self, kind: FaultKind) -> f64 {
        let of_kind = self.faults.iter().filter(|one| one.suspect.kind == kind);
        of_kind.map(|one| f64::from(one.percent) / 100.0).fold(0.0, f64::max)
    }
}

/// The command that shows it.
impl fmt::Display for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Air { outdoor_f, dry_bulb_f, wet_bulb_f } = self.air;
        write!(
            f,
            "rimebench steady --system {} --outdoor {outdoor_f}F --indoor {dry_bulb_f}F/{wet_bulb_f}F",
            self.system
        )?;
        self.faults.iter().try_for_each(|one| write!(f, " --fault {one}"))
    }
}

impl OneFault {
    fn fault(self) -> Fault {
        let Hypothesis { kind, place } = self.suspect;
        Fault { kind, place, severity: f64::from(self.percent) / 100.0, onset_s: 0.0 }
    }
}

/// As the command line writes it.
impl fmt::Display for OneFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", hyphened(&format!("{:?}", self.suspect.kind)))?;
        if let Some(place) = self.suspect.place {
            write!(f, "@{}", hyphened(&format!("{place:?}")))?;
        }
        write!(f, "={}", f64::from(self.percent) / 100.0)
    }
}

/// `LoadedFilter` as `loaded-filter`.
fn hyphened(name: &str) -> String {
    let mut text = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !text.is_empty() {
            text.push('-');
        }
        text.extend(letter.to_lowercase());
    }
    text
}

/// The sound machine, and every fault that a system can have at ten severities (at one, where it is all or nothing), on every
/// system in every weather. The order scatters them, so that the first few are a fair sample.
#[must_use]
pub fn singles() -> Vec<Case> {
    let mut cases = Vec::new();
    for name in System::names() {
        let Some(system) = System::built_in(name) else { continue };
        let mut faults = vec![vec![]];
        for kind in FaultKind::ALL.into_iter().filter(|kind| kind.is_possible_in(&system)) {
            let suspect = Hypothesis { kind, place: kind.needs_place().then_some(LeakPlace::IndoorCoil) };
            let lowest = if kind.is_all_or_nothing() { 10 } else { 1 };
            faults.extend((lowest..=10).map(|tenth| vec![OneFault { suspect, percent: 10 * tenth }]));
        }
        for faults in faults {
            cases.extend(AIRS.map(|air| Case { system: name, faults: faults.clone(), air }));
        }
    }
    // A prime step that does not divide their number meets every one.
    const STEP: usize = 7919;
    assert!(cases.len() % STEP != 0, "the step would come back to the first too soon");
    (0..cases.len()).map(|at| cases[at * STEP % cases.len()].clone()).collect()
}

/// Pair number `number`: the same faults, severities, system and weather everywhere.
#[must_use]
pub fn random_pair(number: u64) -> Case {
    let mut dice = Dice::new(number, SENSE_PURPOSE);
    let pairs = every_pair();
    loop {
        let (Some((first, second)), Some(air)) = (dice.one_of(&pairs).copied(), dice.one_of(&AIRS).copied())
        else {
            unreachable!("neither list is empty")
        };
        let systems: Vec<&'static str> = System::names()
            .into_iter()
            .filter(|name| {
                System::built_in(name).is_some_and(|system| {
                    first.kind.is_possible_in(&system) && second.kind.is_possible_in(&system)
                })
            })
            .collect();
        // Some pairs fit no system: the next draw.
        let Some(system) = dice.one_of(&systems).copied() else { continue };
        let mut fault = |suspect: Hypothesis| {
            let percent =
                if suspect.kind.is_all_or_nothing() { 100 } else { dice.between(1.0, 101.0) as u32 };
            OneFault { suspect, percent }
        };
        return Case { system, faults: vec![fault(first), fault(second)], air };
    }
}

/// Keeps these numbers apart from those of other purposes.
const SENSE_PURPOSE: u64 = 100;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn singles_are_all_different_and_hold_every_kind() {
        let cases = singles();
        for kind in FaultKind::ALL {
            let mut percents: Vec<u32> = cases
                .iter()
                .flat_map(|case| &case.faults)
                .filter(|one| one.suspect.kind == kind)
                .map(|one| one.percent)
                .collect();
            percents.sort_unstable();
            percents.dedup();
            assert_eq!(percents.len(), if kind.is_all_or_nothing() { 1 } else { 10 }, "{kind:?}");
        }
        let mut commands: Vec<String> = cases.iter().map(Case::to_string).collect();
        commands.sort_unstable();
        commands.dedup();
        assert_eq!(commands.len(), cases.len());
    }

    #[test]
    fn a_case_tells_its_command() {
        let suspect = Hypothesis { kind: FaultKind::RefrigerantLeak, place: Some(LeakPlace::LiquidLine) };
        let faults = vec![OneFault { suspect, percent: 70 }];
        let case = Case { system: "split-3-ton-r22-txv", faults, air: AIRS[9] };
        assert_eq!(
            case.to_string(),
            "rimebench steady --system split-3-ton-r22-txv --outdoor 95F --indoor 80F/67F \
             --fault refrigerant-leak@liquid-line=0.7"
        );
        assert_eq!(random_pair(3), random_pair(3));
    }
}

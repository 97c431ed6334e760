//! Calls by number: a system, a fault with a severity, weather and house, all drawn from the number.

use call::Call;
use plant::{Fault, FaultKind, LeakPlace, System};

/// A generated call with the truth about it.
#[derive(Clone, Debug)]
pub struct Case {
    /// The number it was drawn from; also the visit's seed.
    pub number: u64,
    /// The call.
    pub call: Call,
    /// What is wrong.
    pub fault: Fault,
}

/// Systems by name, in turn.
const SYSTEMS: [&str; 8] = [
    "split-3-ton-r410a-txv",
    "split-2-ton-r410a-orifice",
    "split-3-ton-r32-txv-ecm",
    "split-3-ton-r22-orifice",
    "split-5-ton-r410a-txv-ecm",
    "split-2-ton-r32-txv",
    "split-3-ton-r454b-txv",
    "split-3-ton-r22-txv",
];

/// The case of a number. Kinds come in turn, so that any run of consecutive numbers covers the catalogue evenly.
///
/// # Panics
/// If the call that it writes is not valid: a mistake of this file.
pub fn case(number: u64) -> Case {
    let count = FaultKind::ALL.len() as u64;
    let kind = FaultKind::ALL[(number % count) as usize];
    let mut draw = Draw::new(number);
    let start = draw.below(SYSTEMS.len() as u64) as usize;
    let system = (0..SYSTEMS.len())
        .map(|step| SYSTEMS[(start + step) % SYSTEMS.len()])
        .find(|name| System::built_in(name).is_some_and(|system| kind.is_possible_in(&system)))
        .expect("some system can have every kind");
    let place = kind.needs_place().then(|| match draw.below(10) {
        0 => LeakPlace::SuctionServiceValve,
        1 => LeakPlace::LiquidLine,
        _ => LeakPlace::IndoorCoil,
    });
    let (low, high) = severities(kind);
    let severity = (100.0 * draw.between(low, high)).round() / 100.0;
    // Of a leak what is left; a charge that nobody got wrong is right to two in a hundred.
    let (least_charge, most_charge) = match kind {
        FaultKind::RefrigerantLeak => {
            let left = (1000.0 * (1.0 - draw.between(0.15, 0.5))).round() / 1000.0;
            (left, left)
        }
        FaultKind::Undercharged | FaultKind::Overcharged => (1.0, 1.0),
        _ => (0.98, 1.02),
    };
    let mean_f = draw.between(76.0, 88.0).round();
    let places = place.map_or(String::new(), |place| format!("places: [{place:?}], "));
    let air = draw.between(76.0, 80.0).round();
    let humidity = draw.between(0.45, 0.6);
    let hour = draw.between(8.0, 14.0).round();
    let text = format!(
        "(version: 1, title: \"Trial {number}\", complaint: \"It does not cool as it should. Please come.\", \
         system: \"{system}\", \
         house: (air: (Fahrenheit({}), Fahrenheit({})), relative_humidity: ({:.2}, {:.2})), \
         weather: (mean: (Fahrenheit({}), Fahrenheit({})), swing: FahrenheitDifference(8), \
         dew_point: Fahrenheit(62), start_hour: {hour}, solar_peak_w_m2: 600), \
         thermostat: (mode: Cool, fan: Auto, set_point: Fahrenheit(70)), \
         charge_share: ({least_charge}, {most_charge}), \
         faults: [(kind: {kind:?}, {places}severity: ({severity}, {severity}), onset: (Hours(0), Hours(0)))], \
         history: Hours(3), prerequisites: [], rivals: [], \
         solved: (cleared: [{kind:?}], charge_share: (0.9, 1.1), frost_mass_max: Grams(50), proven_for: Minutes(15)), \
         par_time: Minutes(240))",
        air - 1.0,
        air + 1.0,
        humidity - 0.04,
        humidity + 0.04,
        mean_f - 1.5,
        mean_f + 1.5,
    );
    let call = call::read(&text, &format!("trial-{number}.ron"))
        .unwrap_or_else(|problems| panic!("trial {number}: {problems:#?}\n{text}"));
    let fault = Fault { kind, place, severity, onset_s: 0.0 };
    Case { number, call, fault }
}

/// Severities that somebody would call about.
fn severities(kind: FaultKind) -> (f64, f64) {
    match kind {
        FaultKind::RefrigerantLeak => (0.08, 0.2),
        FaultKind::Undercharged => (0.15, 0.45),
        FaultKind::Overcharged => (0.15, 0.4),
        FaultKind::CompressorInternalLeak => (0.2, 0.5),
        FaultKind::OrificeTooSmall | FaultKind::OrificeTooLarge => (0.2, 0.6),
        FaultKind::FouledCondenser => (0.3, 0.8),
        kind if kind.is_all_or_nothing() => (1.0, 1.0),
        _ => (0.35, 0.9),
    }
}

/// SplitMix64 (Steele, Lea and Flood 2014; constants from memory).
pub struct Draw {
    state: u64,
}

impl Draw {
    /// Numbers that follow from one.
    pub fn new(number: u64) -> Draw {
        Draw { state: number.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number below `count`.
    pub fn below(&mut self, count: u64) -> u64 {
        self.next() % count
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.next() >> 11) as f64 / 9_007_199_254_740_992.0)
    }
}

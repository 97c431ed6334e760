//! A call file as it is written, before it is checked.

use plant::{FanSetting, FaultKind, HouseModel, LeakPlace, Mode};
use quantity::{Duration, Mass, Temperature, TemperatureDifference};
use ron_file::TextOrTexts;
use serde::Deserialize;

use crate::spec::{Hints, Milestone, Question};

/// The only version of the format so far.
pub(crate) const VERSION: u32 = 1;

/// A low-high pair.
pub(crate) type Pair<T> = (T, T);

/// The whole file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCall {
    pub version: u32,
    pub title: TextOrTexts,
    pub complaint: TextOrTexts,
    #[serde(default)]
    pub answers: Vec<(Question, TextOrTexts)>,
    pub system: String,
    pub house: RawHouse,
    pub weather: RawWeather,
    pub thermostat: RawThermostat,
    pub charge_share: Pair<f64>,
    pub faults: Vec<RawFault>,
    pub history: Duration,
    pub prerequisites: Vec<RawPrerequisite>,
    pub rivals: Vec<FaultKind>,
    #[serde(default)]
    pub priors: Vec<(FaultKind, f64)>,
    #[serde(default)]
    pub hints: Hints,
    pub solved: RawSolved,
    pub par_time: Duration,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawHouse {
    pub air: Pair<Temperature>,
    pub relative_humidity: Pair<f64>,
    #[serde(default)]
    pub model: HouseModel,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawWeather {
    pub mean: Pair<Temperature>,
    pub swing: TemperatureDifference,
    pub dew_point: Temperature,
    pub start_hour: f64,
    pub solar_peak_w_m2: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawThermostat {
    pub mode: Mode,
    pub fan: FanSetting,
    pub set_point: Temperature,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawFault {
    pub kind: FaultKind,
    #[serde(default)]
    pub places: Vec<LeakPlace>,
    pub severity: Pair<f64>,
    pub onset: Pair<Duration>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPrerequisite {
    pub before: Milestone,
    pub one_of: Vec<Milestone>,
    pub why: TextOrTexts,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawSolved {
    pub cleared: Vec<FaultKind>,
    pub charge_share: Pair<f64>,
    pub frost_mass_max: Mass,
    pub proven_for: Duration,
}

/// For each key a value that could stand there: the example in hints.
pub(crate) const EXAMPLES: &[(&str, &str)] = &[
    ("version", "1"),
    ("title", "\"Ice on the line\""),
    ("complaint", "\"It does not cool.\""),
    ("answers", "[(NoisesAndWater, \"None.\")]"),
    ("system", "\"split-3-ton-r410a-txv\""),
    ("house", "(air: (Fahrenheit(74), Fahrenheit(76)), relative_humidity: (0.5, 0.6))"),
    ("air", "(Fahrenheit(74), Fahrenheit(76))"),
    ("relative_humidity", "(0.5, 0.6)"),
    ("model", "(internal_gain_w: 700)"),
    (
        "weather",
        "(mean: (Fahrenheit(72), Fahrenheit(74)), swing: FahrenheitDifference(8), \
         dew_point: Fahrenheit(60), start_hour: 20, solar_peak_w_m2: 600)",
    ),
    ("mean", "(Fahrenheit(72), Fahrenheit(74))"),
    ("swing", "FahrenheitDifference(8)"),
    ("dew_point", "Fahrenheit(60)"),
    ("start_hour", "20"),
    ("solar_peak_w_m2", "600"),
    ("thermostat", "(mode: Cool, fan: Auto, set_point: Fahrenheit(69))"),
    ("mode", "Cool"),
    ("fan", "Auto"),
    ("set_point", "Fahrenheit(69)"),
    ("charge_share", "(0.98, 1.02)"),
    ("faults", "[(kind: LoadedFilter, severity: (0.8, 0.9), onset: (Hours(0), Hours(0)))]"),
    ("kind", "LoadedFilter"),
    ("places", "[IndoorCoil]"),
    ("severity", "(0.8, 0.9)"),
    ("onset", "(Hours(0), Hours(0))"),
    ("history", "Hours(10)"),
    (
        "prerequisites",
        "[(before: GaugesConnected, one_of: [FilterInspected], why: \"Airflow comes first.\")]",
    ),
    ("before", "GaugesConnected"),
    ("one_of", "[FilterInspected]"),
    ("why", "\"Airflow comes first.\""),
    ("rivals", "[MeteringRestricted]"),
    (
        "solved",
        "(cleared: [LoadedFilter], charge_share: (0.95, 1.05), frost_mass_max: Grams(20), \
         proven_for: Minutes(15))",
    ),
    ("cleared", "[LoadedFilter]"),
    ("frost_mass_max", "Grams(20)"),
    ("proven_for", "Minutes(15)"),
    ("par_time", "Minutes(180)"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_guide_names_every_key() {
        let guide = include_str!("../../docs/calls.md");
        for (key, _) in EXAMPLES {
            assert!(guide.contains(&format!("`{key}`")), "docs/calls.md does not explain `{key}`");
        }
        let model = format!("{:?}", HouseModel::default());
        for key in model.split(['{', ',', ':', ' ']).filter(|word| word.contains('_')) {
            assert!(guide.contains(&format!("`{key}`")), "docs/calls.md does not explain `{key}`");
        }
    }

    #[test]
    fn the_example_in_the_guide_is_a_sound_call() {
        let guide = include_str!("../../docs/calls.md");
        let (_, rest) = guide.split_once("```ron\n").unwrap();
        let (example, _) = rest.split_once("```").unwrap();
        let call = crate::read(example, "example.ron").unwrap_or_else(|problems| panic!("{problems:#?}"));
        assert_eq!(call.faults.len(), 2);
    }
}

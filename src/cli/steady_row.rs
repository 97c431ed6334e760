//! One value of the settled state: label, JSON key with its unit, value.

use media::units;
use serde_json::Value;
use words::Words;

use super::arguments::UnitSystem;

/// One value of the settled state in the units asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    /// Key of its label.
    label: &'static str,
    name: &'static str,
    key_suffix: &'static str,
    unit: &'static str,
    decimals: usize,
    /// `None`: there is no such value in this state.
    pub(super) value: Option<f64>,
}

/// What a value is, and so in which unit it is written.
#[derive(Clone, Copy)]
pub(crate) enum Quantity {
    /// Pa absolute in.
    GaugePressure,
    /// K in.
    Temperature,
    /// K in.
    TemperatureDifference,
    /// m³/s in.
    Airflow,
    /// Pa against the room in.
    StaticPressure,
    /// W in; heat moved.
    Heat,
    /// W in; electric.
    Power,
    /// kg in.
    Mass,
    /// 0 to 1.
    Share,
}

impl Quantity {
    /// Key suffix, unit, decimals, value.
    fn written(self, value: f64, system: UnitSystem) -> (&'static str, &'static str, usize, f64) {
        let atmosphere_pa = units::STANDARD_ATMOSPHERE_PA;
        match (self, system) {
            (Quantity::GaugePressure, UnitSystem::Ip) => {
                ("psi", "psig", 1, units::psig_from_pa(value, atmosphere_pa))
            }
            (Quantity::GaugePressure, UnitSystem::Si) => {
                ("pa", "Pa gauge", 0, units::gauge_pa_from_absolute_pa(value, atmosphere_pa))
            }
            (Quantity::Temperature, UnitSystem::Ip) => ("f", "°F", 1, units::fahrenheit_from_kelvin(value)),
            (Quantity::Temperature, UnitSystem::Si) => ("c", "°C", 1, units::celsius_from_kelvin(value)),
            (Quantity::TemperatureDifference, UnitSystem::Ip) => {
                ("f", "°F", 1, units::fahrenheit_difference_from_kelvin_difference(value))
            }
            (Quantity::TemperatureDifference, UnitSystem::Si) => ("k", "K", 1, value),
            (Quantity::Airflow, UnitSystem::Ip) => ("cfm", "cfm", 0, units::cfm_from_m3_s(value)),
            (Quantity::Airflow, UnitSystem::Si) => ("m3_s", "m³/s", 3, value),
            (Quantity::StaticPressure, UnitSystem::Ip) => {
                ("in_wc", "in. w.c.", 2, units::inches_of_water_from_pa(value))
            }
            (Quantity::StaticPressure, UnitSystem::Si) => ("pa", "Pa", 1, value),
            (Quantity::Heat, UnitSystem::Ip) => ("btu_h", "Btu/h", 0, units::btu_h_from_w(value)),
            (Quantity::Heat, UnitSystem::Si) | (Quantity::Power, _) => ("w", "W", 0, value),
            (Quantity::Mass, UnitSystem::Ip) => ("lb", "lb", 3, units::lb_from_kg(value)),
            (Quantity::Mass, UnitSystem::Si) => ("kg", "kg", 4, value),
            (Quantity::Share, _) => ("share", "of 1", 3, value),
        }
    }
}

/// Stands for a value that does not exist.
const NO_VALUE: &str = "-";

impl Row {
    /// A row in the units asked for; the value in SI.
    pub(crate) fn of(
        label: &'static str,
        name: &'static str,
        quantity: Quantity,
        value: Option<f64>,
        system: UnitSystem,
    ) -> Row {
        // The unit is the same for every value.
        let (key_suffix, unit, decimals, _) = quantity.written(0.0, system);
        // Nothing that is written as zero is written with a sign.
        let least = 0.5 * 0.1_f64.powi(decimals as i32);
        let value = value
            .map(|value| quantity.written(value, system).3)
            .map(|value| if value.abs() < least { 0.0 } else { value });
        Row { label, name, key_suffix, unit, decimals, value }
    }

    /// Key in JSON: what it is, then its unit.
    pub(crate) fn key(&self) -> String {
        format!("{}_{}", self.name, self.key_suffix)
    }

    /// Value in JSON; null where there is none.
    pub(crate) fn json(&self) -> Value {
        self.value.and_then(serde_json::Number::from_f64).map_or(Value::Null, Value::Number)
    }

    /// Line for people.
    pub(crate) fn text(&self, words: Words) -> String {
        let label = words.label(self.label);
        match self.value {
            Some(value) => format!("{label:<34}{:>12.*} {}", self.decimals, value, self.unit),
            None => format!("{label:<34}{NO_VALUE:>12}"),
        }
    }

    /// Value and unit within a sentence.
    pub(crate) fn value_text(&self) -> String {
        match self.value {
            Some(value) => format!("{:.*} {}", self.decimals, value, self.unit),
            None => NO_VALUE.to_owned(),
        }
    }
}

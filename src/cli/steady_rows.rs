//! Rows of the settled state: label, JSON key with its unit, value.

use media::units;
use plant::SteadyState;
use serde_json::Value;
use visit::Margin;
use words::Words;

use super::UnitSystem;
use super::steady_course::{Averaged, averaged, runs_too_short};

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
    value: Option<f64>,
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

/// All rows, in the order in which a technician reads them.
pub(crate) fn rows(settled: &SteadyState, system: UnitSystem) -> Vec<Row> {
    use Quantity::{
        Airflow, GaugePressure, Heat, Mass, Power, Share, StaticPressure, Temperature, TemperatureDifference,
    };
    let (truth, saturated) = (&settled.readout, &settled.saturated);
    // A mean over starts is none, nor is one that lies below zero by more than instruments err.
    let margin = |value_k: Option<f64>| {
        value_k
            .filter(|_| !runs_too_short(&settled.course))
            .and_then(|value_k| Margin::shown(value_k).kelvin())
    };
    let label = |always: &'static str, while_running: &'static str| match averaged(settled) {
        Averaged::Running => while_running,
        Averaged::TenMinutes | Averaged::AtRest => always,
    };
    let total_power_w = truth.compressor_power_w + truth.outdoor_fan_power_w + truth.blower_power_w;
    let drier_drop_k = truth.liquid_before_drier_k - truth.liquid_after_drier_k;
    let split_k = truth.return_dry_bulb_k - truth.supply_dry_bulb_k;
    [
        ("cli-row-outdoor-air", "outdoor_temperature", Temperature, Some(truth.outdoor_k)),
        ("cli-row-return-dry-bulb", "return_dry_bulb", Temperature, Some(truth.return_dry_bulb_k)),
        ("cli-row-return-wet-bulb", "return_wet_bulb", Temperature, Some(truth.return_wet_bulb_k)),
        ("cli-row-supply-dry-bulb", "supply_dry_bulb", Temperature, Some(truth.supply_dry_bulb_k)),
        ("cli-row-supply-wet-bulb", "supply_wet_bulb", Temperature, Some(truth.supply_wet_bulb_k)),
        ("cli-row-temperature-split", "temperature_split", TemperatureDifference, Some(split_k)),
        ("cli-row-indoor-airflow", "airflow", Airflow, Some(truth.airflow_m3_s)),
        (
            "cli-row-static-return-before-the-filter",
            "return_static",
            StaticPressure,
            Some(truth.return_static_pa),
        ),
        (
            "cli-row-static-behind-the-filter",
            "coil_inlet_static",
            StaticPressure,
            Some(truth.coil_inlet_static_pa),
        ),
        (
            "cli-row-static-behind-the-coil",
            "coil_outlet_static",
            StaticPressure,
            Some(truth.coil_outlet_static_pa),
        ),
        ("cli-row-static-supply", "supply_static", StaticPressure, Some(truth.supply_static_pa)),
        (
            "cli-row-static-drop-over-the-filter",
            "filter_static_drop",
            StaticPressure,
            Some(truth.filter_drop_pa()),
        ),
        ("cli-row-static-drop-over-the-coil", "coil_static_drop", StaticPressure, Some(truth.coil_drop_pa())),
        (
            "cli-row-static-total-external",
            "total_external_static",
            StaticPressure,
            Some(truth.external_static_pa()),
        ),
        (
            "cli-row-suction-pressure",
            "suction_gauge_pressure",
            GaugePressure,
            Some(truth.suction_pressure_pa),
        ),
        ("cli-row-liquid-pressure", "liquid_gauge_pressure", GaugePressure, Some(truth.liquid_pressure_pa)),
        (
            "cli-row-evaporating-temperature-dew",
            "evaporating_temperature",
            Temperature,
            saturated.evaporating_k,
        ),
        ("cli-row-condensing-temperature-dew", "condensing_temperature", Temperature, saturated.condensing_k),
        ("cli-row-superheat", "superheat", TemperatureDifference, margin(saturated.superheat_k)),
        ("cli-row-subcooling", "subcooling", TemperatureDifference, margin(saturated.subcooling_k)),
        (
            "cli-row-suction-line-at-the-bulb",
            "suction_line_at_bulb",
            Temperature,
            Some(truth.suction_line_indoor_k),
        ),
        (
            "cli-row-suction-line-at-the-service-valve",
            "suction_line_at_service_valve",
            Temperature,
            Some(truth.suction_line_outdoor_k),
        ),
        (
            "cli-row-evaporator-pressure",
            "evaporator_gauge_pressure",
            GaugePressure,
            Some(truth.evaporator_pressure_pa),
        ),
        (
            "cli-row-liquid-line-at-the-service-valve",
            "liquid_line_at_service_valve",
            Temperature,
            Some(truth.liquid_service_valve_k),
        ),
        (
            "cli-row-liquid-line-at-the-drier-inlet",
            "liquid_line_before_drier",
            Temperature,
            Some(truth.liquid_before_drier_k),
        ),
        (
            "cli-row-liquid-line-at-the-drier-outlet",
            "liquid_line_after_drier",
            Temperature,
            Some(truth.liquid_after_drier_k),
        ),
        (
            "cli-row-liquid-line-at-the-metering-device",
            "liquid_line_at_metering_device",
            Temperature,
            Some(truth.liquid_indoor_k),
        ),
        ("cli-row-discharge-temperature", "discharge_temperature", Temperature, Some(truth.discharge_k)),
        (
            "cli-row-temperature-drop-over-the-drier",
            "drier_temperature_drop",
            TemperatureDifference,
            Some(drier_drop_k),
        ),
        ("cli-row-metering-device-opening", "metering_opening", Share, Some(truth.metering_opening)),
        (
            label("cli-row-capacity-gross", "cli-row-capacity-while-running-gross"),
            "gross_capacity",
            Heat,
            Some(truth.gross_cooling_w),
        ),
        (
            label("cli-row-capacity-net-of-blower-heat", "cli-row-capacity-while-running-net"),
            "net_capacity",
            Heat,
            Some(truth.net_cooling_w),
        ),
        (
            label("cli-row-capacity-gross-sensible", "cli-row-capacity-while-running-sensible"),
            "sensible_capacity",
            Heat,
            Some(truth.sensible_cooling_w),
        ),
        (
            label("cli-row-compressor-power", "cli-row-compressor-power-while-running"),
            "compressor_power",
            Power,
            Some(truth.compressor_power_w),
        ),
        (
            label("cli-row-outdoor-fan-power", "cli-row-outdoor-fan-power-while-running"),
            "outdoor_fan_power",
            Power,
            Some(truth.outdoor_fan_power_w),
        ),
        (
            label("cli-row-blower-power", "cli-row-blower-power-while-running"),
            "blower_power",
            Power,
            Some(truth.blower_power_w),
        ),
        (
            label("cli-row-power-total", "cli-row-power-while-running-total"),
            "total_power",
            Power,
            Some(total_power_w),
        ),
        ("cli-row-frost-on-the-indoor-coil", "frost_mass", Mass, Some(truth.frost_mass_kg)),
        ("cli-row-charge-condenser", "charge_condenser", Mass, Some(truth.charge_condenser_kg)),
        ("cli-row-charge-liquid-line", "charge_liquid_line", Mass, Some(truth.charge_liquid_line_kg)),
        ("cli-row-charge-evaporator", "charge_evaporator", Mass, Some(truth.charge_evaporator_kg)),
        ("cli-row-charge-suction-line-and-shell", "charge_suction", Mass, Some(truth.charge_suction_kg)),
        ("cli-row-charge-total", "charge_total", Mass, Some(truth.charge_total_kg)),
    ]
    .into_iter()
    .map(|(label, name, quantity, value)| Row::of(label, name, quantity, value, system))
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled() -> SteadyState {
        let system = plant::System::built_in("split-3-ton-r410a-txv").expect("built in");
        let conditions = plant::SteadyConditions {
            outdoor_k: 308.15,
            indoor_dry_bulb_k: 299.8,
            indoor_humidity_ratio: 0.011,
            charge_share: 1.0,
            faults: vec![],
            time_max_s: 900.0,
        };
        plant::solve_steady_state(&system, &conditions).expect("finite")
    }

    #[test]
    fn the_same_state_reads_the_same_in_both_systems() {
        let mut settled = settled();
        settled.readout.suction_pressure_pa = 915_000.0;
        settled.readout.charge_total_kg = 3.0;
        settled.saturated.superheat_k = Some(10.0);
        let value = |system, key: &str| {
            let rows = rows(&settled, system);
            rows.iter().find(|row| row.key() == key).and_then(|row| row.value).expect(key)
        };
        let psi = value(UnitSystem::Ip, "suction_gauge_pressure_psi");
        let pa = value(UnitSystem::Si, "suction_gauge_pressure_pa");
        assert!((units::pa_from_psi(psi) - pa).abs() < 1e-6);
        assert!((value(UnitSystem::Ip, "superheat_f") - 18.0).abs() < 1e-9);
        assert!((value(UnitSystem::Ip, "charge_total_lb") - 6.613_868).abs() < 1e-5);
    }

    #[test]
    fn what_does_not_exist_is_null_and_a_dash() {
        let mut settled = settled();
        settled.saturated.subcooling_k = None;
        let rows = rows(&settled, UnitSystem::Ip);
        let row = rows.iter().find(|row| row.key() == "subcooling_f").expect("a row");
        assert_eq!(row.json(), Value::Null);
        let text = row.text(Words::default());
        assert!(text.ends_with(" -"), "{text}");
    }

    #[test]
    fn keys_are_unique() {
        let settled = settled();
        for system in [UnitSystem::Ip, UnitSystem::Si] {
            let mut keys: Vec<String> = rows(&settled, system).iter().map(Row::key).collect();
            let count = keys.len();
            keys.sort();
            keys.dedup();
            assert_eq!(keys.len(), count);
        }
    }
}

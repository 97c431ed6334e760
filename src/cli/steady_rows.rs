//! Rows of the settled state.

use plant::SteadyState;
use visit::Margin;

use super::arguments::UnitSystem;
use super::steady_course::{Averaged, averaged, runs_too_short};
use super::steady_row::{Quantity, Row};

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
    use media::units;
    use serde_json::Value;
    use words::Words;

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

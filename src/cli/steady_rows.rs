//! Rows of the settled state: label, JSON key with its unit, value.

use media::units;
use plant::Readout;
use serde_json::Value;

use super::UnitSystem;

/// One value of the settled state in the units asked for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Row {
    label: &'static str,
    name: &'static str,
    key_suffix: &'static str,
    unit: &'static str,
    decimals: usize,
    value: f64,
}

/// What a value is, and so in which unit it is written.
#[derive(Clone, Copy)]
enum Quantity {
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

impl Row {
    /// Key in JSON: what it is, then its unit.
    pub(crate) fn key(&self) -> String {
        format!("{}_{}", self.name, self.key_suffix)
    }

    /// Value in JSON; null where it is not a number.
    pub(crate) fn json(&self) -> Value {
        serde_json::Number::from_f64(self.value).map_or(Value::Null, Value::Number)
    }

    /// Line for people.
    pub(crate) fn text(&self) -> String {
        format!("{:<34}{:>12.*} {}", self.label, self.decimals, self.value, self.unit)
    }
}

/// All rows, in the order in which a technician reads them.
pub(crate) fn rows(truth: &Readout, system: UnitSystem) -> Vec<Row> {
    use Quantity::{
        Airflow, GaugePressure, Heat, Mass, Power, Share, StaticPressure, Temperature, TemperatureDifference,
    };
    let total_power_w = truth.compressor_power_w + truth.outdoor_fan_power_w + truth.blower_power_w;
    let drier_drop_k = truth.liquid_before_drier_k - truth.liquid_after_drier_k;
    let split_k = truth.return_dry_bulb_k - truth.supply_dry_bulb_k;
    [
        ("Outdoor air", "outdoor_temperature", Temperature, truth.outdoor_k),
        ("Return dry bulb", "return_dry_bulb", Temperature, truth.return_dry_bulb_k),
        ("Return wet bulb", "return_wet_bulb", Temperature, truth.return_wet_bulb_k),
        ("Supply dry bulb", "supply_dry_bulb", Temperature, truth.supply_dry_bulb_k),
        ("Supply wet bulb", "supply_wet_bulb", Temperature, truth.supply_wet_bulb_k),
        ("Temperature split", "temperature_split", TemperatureDifference, split_k),
        ("Indoor airflow", "airflow", Airflow, truth.airflow_m3_s),
        ("Static, return before the filter", "return_static", StaticPressure, truth.return_static_pa),
        ("Static, behind the filter", "coil_inlet_static", StaticPressure, truth.coil_inlet_static_pa),
        ("Static, behind the coil", "coil_outlet_static", StaticPressure, truth.coil_outlet_static_pa),
        ("Static, supply", "supply_static", StaticPressure, truth.supply_static_pa),
        ("Static drop over the filter", "filter_static_drop", StaticPressure, truth.filter_drop_pa()),
        ("Static drop over the coil", "coil_static_drop", StaticPressure, truth.coil_drop_pa()),
        ("Static, total external", "total_external_static", StaticPressure, truth.external_static_pa()),
        ("Suction pressure", "suction_gauge_pressure", GaugePressure, truth.suction_pressure_pa),
        ("Liquid pressure", "liquid_gauge_pressure", GaugePressure, truth.liquid_pressure_pa),
        ("Evaporating temperature (dew)", "evaporating_temperature", Temperature, truth.evaporating_k),
        ("Condensing temperature (dew)", "condensing_temperature", Temperature, truth.condensing_k),
        ("Superheat", "superheat", TemperatureDifference, truth.superheat_k),
        ("Subcooling", "subcooling", TemperatureDifference, truth.subcooling_k),
        ("Suction line at the bulb", "suction_line_at_bulb", Temperature, truth.suction_line_indoor_k),
        (
            "Suction line at the service valve",
            "suction_line_at_service_valve",
            Temperature,
            truth.suction_line_outdoor_k,
        ),
        ("Evaporator pressure", "evaporator_gauge_pressure", GaugePressure, truth.evaporator_pressure_pa),
        (
            "Liquid line at the service valve",
            "liquid_line_at_service_valve",
            Temperature,
            truth.liquid_service_valve_k,
        ),
        (
            "Liquid line at the drier's inlet",
            "liquid_line_before_drier",
            Temperature,
            truth.liquid_before_drier_k,
        ),
        (
            "Liquid line at the drier's outlet",
            "liquid_line_after_drier",
            Temperature,
            truth.liquid_after_drier_k,
        ),
        (
            "Liquid line at the metering device",
            "liquid_line_at_metering_device",
            Temperature,
            truth.liquid_indoor_k,
        ),
        ("Discharge temperature", "discharge_temperature", Temperature, truth.discharge_k),
        ("Temperature drop over the drier", "drier_temperature_drop", TemperatureDifference, drier_drop_k),
        ("Metering device opening", "metering_opening", Share, truth.metering_opening),
        ("Capacity, gross", "gross_capacity", Heat, truth.gross_cooling_w),
        ("Capacity, net of blower heat", "net_capacity", Heat, truth.net_cooling_w),
        ("Capacity, gross sensible", "sensible_capacity", Heat, truth.sensible_cooling_w),
        ("Compressor power", "compressor_power", Power, truth.compressor_power_w),
        ("Outdoor fan power", "outdoor_fan_power", Power, truth.outdoor_fan_power_w),
        ("Blower power", "blower_power", Power, truth.blower_power_w),
        ("Power, total", "total_power", Power, total_power_w),
        ("Frost on the indoor coil", "frost_mass", Mass, truth.frost_mass_kg),
        ("Charge, condenser", "charge_condenser", Mass, truth.charge_condenser_kg),
        ("Charge, liquid line", "charge_liquid_line", Mass, truth.charge_liquid_line_kg),
        ("Charge, evaporator", "charge_evaporator", Mass, truth.charge_evaporator_kg),
        ("Charge, suction line and shell", "charge_suction", Mass, truth.charge_suction_kg),
        ("Charge, total", "charge_total", Mass, truth.charge_total_kg),
    ]
    .into_iter()
    .map(|(label, name, quantity, value)| {
        let (key_suffix, unit, decimals, value) = quantity.written(value, system);
        Row { label, name, key_suffix, unit, decimals, value }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_state_reads_the_same_in_both_systems() {
        let truth = Readout {
            suction_pressure_pa: 915_000.0,
            superheat_k: 10.0,
            charge_total_kg: 3.0,
            ..Readout::default()
        };
        let value = |system, key: &str| {
            rows(&truth, system).iter().find(|row| row.key() == key).map(|row| row.value).expect(key)
        };
        let psi = value(UnitSystem::Ip, "suction_gauge_pressure_psi");
        let pa = value(UnitSystem::Si, "suction_gauge_pressure_pa");
        assert!((units::pa_from_psi(psi) - pa).abs() < 1e-6);
        assert!((value(UnitSystem::Ip, "superheat_f") - 18.0).abs() < 1e-9);
        assert!((value(UnitSystem::Ip, "charge_total_lb") - 6.613_868).abs() < 1e-5);
    }

    #[test]
    fn keys_are_unique() {
        for system in [UnitSystem::Ip, UnitSystem::Si] {
            let mut keys: Vec<String> = rows(&Readout::default(), system).iter().map(Row::key).collect();
            let count = keys.len();
            keys.sort();
            keys.dedup();
            assert_eq!(keys.len(), count);
        }
    }
}

//! Units of the reader: values in SI go in, words come out.

use media::units as convert;
use serde::{Deserialize, Serialize};

/// In which units values are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Units {
    /// Inch-pound, as the trade's gauges and plates read in North America.
    #[default]
    Ip,
    /// SI with °C.
    Si,
}

/// Below this gauge pressure a gauge shows a vacuum, Pa.
const VACUUM_BELOW_PA: f64 = -500.0;

impl Units {
    /// Gauge pressure from Pa; below the atmosphere, a vacuum as compound gauges read it.
    pub fn gauge_pressure(self, pressure_pa: f64) -> String {
        match self {
            Units::Ip if pressure_pa < VACUUM_BELOW_PA => {
                format!("{:.1} inHg vacuum", convert::inches_of_mercury_from_pa(-pressure_pa))
            }
            Units::Ip => format!("{:.1} psig", convert::psi_from_pa(pressure_pa)),
            Units::Si => format!("{:.0} kPa gauge", pressure_pa / 1000.0),
        }
    }

    /// Temperature from K.
    pub fn temperature(self, temperature_k: f64) -> String {
        match self {
            Units::Ip => format!("{:.1} °F", convert::fahrenheit_from_kelvin(temperature_k)),
            Units::Si => format!("{:.1} °C", convert::celsius_from_kelvin(temperature_k)),
        }
    }

    /// Difference of two temperatures from K.
    pub fn temperature_difference(self, difference_k: f64) -> String {
        match self {
            Units::Ip => {
                format!("{:.1} °F", convert::fahrenheit_difference_from_kelvin_difference(difference_k))
            }
            Units::Si => format!("{difference_k:.1} K"),
        }
    }

    /// Mass from kg: pounds and ounces, or kilograms.
    pub fn mass(self, mass_kg: f64) -> String {
        match self {
            Units::Ip if convert::lb_from_kg(mass_kg).abs() < 1.0 => {
                format!("{:.1} oz", convert::oz_from_kg(mass_kg))
            }
            Units::Ip => format!("{:.2} lb", convert::lb_from_kg(mass_kg)),
            Units::Si => format!("{mass_kg:.3} kg"),
        }
    }

    /// What a charging scale shows, from kg.
    pub fn weighed(self, mass_kg: f64) -> String {
        if visit::scale_tells(mass_kg) {
            self.mass(mass_kg)
        } else {
            "nothing that the scale shows".to_owned()
        }
    }

    /// Gauge pressure from Pa as a bare number, for axes.
    pub fn pressure_number(self, gauge_pressure_pa: f64) -> f64 {
        match self {
            Units::Ip => convert::psi_from_pa(gauge_pressure_pa),
            Units::Si => gauge_pressure_pa / 1000.0,
        }
    }

    /// Unit of [`Units::pressure_number`].
    pub fn pressure_unit(self) -> &'static str {
        match self {
            Units::Ip => "psig",
            Units::Si => "kPa gauge",
        }
    }

    /// Temperature from K as a bare number.
    pub fn temperature_number(self, temperature_k: f64) -> f64 {
        match self {
            Units::Ip => convert::fahrenheit_from_kelvin(temperature_k),
            Units::Si => convert::celsius_from_kelvin(temperature_k),
        }
    }

    /// Unit of [`Units::temperature_number`].
    pub fn temperature_unit(self) -> &'static str {
        match self {
            Units::Ip => "°F",
            Units::Si => "°C",
        }
    }

    /// Mass from kg as a bare number of ounces or grams.
    pub fn small_mass_number(self, mass_kg: f64) -> f64 {
        match self {
            Units::Ip => convert::oz_from_kg(mass_kg),
            Units::Si => mass_kg * 1000.0,
        }
    }

    /// Unit of [`Units::small_mass_number`].
    pub fn small_mass_unit(self) -> &'static str {
        match self {
            Units::Ip => "oz",
            Units::Si => "g",
        }
    }

    /// Specific enthalpy from J/kg as a bare number.
    pub fn enthalpy_number(self, enthalpy_j_kg: f64) -> f64 {
        match self {
            Units::Ip => convert::btu_h_from_w(enthalpy_j_kg) / 3600.0 / convert::lb_from_kg(1.0),
            Units::Si => enthalpy_j_kg / 1000.0,
        }
    }

    /// Unit of [`Units::enthalpy_number`].
    pub fn enthalpy_unit(self) -> &'static str {
        match self {
            Units::Ip => "Btu/lb",
            Units::Si => "kJ/kg",
        }
    }

    /// Rate of heat from W: to the hundred Btu/h or the tenth of a kilowatt.
    pub fn heat_rate(self, rate_w: f64) -> String {
        match self {
            Units::Ip => format!("{:.0} Btu/h", 100.0 * libm::round(convert::btu_h_from_w(rate_w) / 100.0)),
            Units::Si => format!("{:.1} kW", rate_w / 1000.0),
        }
    }

    /// Vacuum from Pa absolute.
    pub fn vacuum(self, pressure_pa: f64) -> String {
        match self {
            Units::Ip => format!("{:.0} micron", convert::micron_from_pa(pressure_pa)),
            Units::Si => format!("{pressure_pa:.0} Pa absolute"),
        }
    }
}

/// Resistance with its unit.
pub(crate) fn resistance(value_ohm: f64) -> String {
    format!("{value_ohm:.1} ohm")
}

/// Capacitance with its unit.
pub(crate) fn capacitance(value_f: f64) -> String {
    format!("{:.1} microfarad", value_f * 1.0e6)
}

/// Current with its unit.
pub(crate) fn current(value_a: f64) -> String {
    format!("{value_a:.2} A")
}

/// Voltage, the same everywhere.
pub(crate) fn voltage(value_v: f64) -> String {
    format!("{value_v:.1} V")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_written_with_their_unit() {
        // 118 psig is 813.6 kPa gauge; 40 °F is 277.59 K; 1 lb is 0.4536 kg; 500 micron is 66.7 Pa. NIST SP 811.
        assert_eq!(Units::Ip.gauge_pressure(813_581.0), "118.0 psig");
        assert_eq!(Units::Si.gauge_pressure(813_581.0), "814 kPa gauge");
        // 101 325 Pa is 29.92 inHg (NIST SP 811, conventional mercury).
        assert_eq!(Units::Ip.gauge_pressure(-101_325.0), "29.9 inHg vacuum");
        assert_eq!(Units::Ip.temperature(277.594), "40.0 °F");
        assert_eq!(Units::Si.temperature(277.594), "4.4 °C");
        assert_eq!(Units::Ip.temperature_difference(10.0), "18.0 °F");
        assert_eq!(Units::Ip.mass(0.453_592_37), "1.00 lb");
        assert_eq!(Units::Ip.mass(0.1), "3.5 oz");
        assert_eq!(Units::Ip.weighed(0.1), "3.5 oz");
        assert_eq!(Units::Ip.weighed(-0.004), "nothing that the scale shows");
        // One ton of cooling is 3516.85 W and 12,000 Btu/h.
        assert_eq!(Units::Ip.heat_rate(3516.85), "12000 Btu/h");
        assert_eq!(Units::Si.heat_rate(3516.85), "3.5 kW");
        assert_eq!(Units::Ip.vacuum(66.661), "500 micron");
        // 1 Btu/lb is 2.326 kJ/kg (NIST SP 811, International Table).
        assert!((Units::Ip.enthalpy_number(2326.0) - 1.0).abs() < 1.0e-9);
    }
}

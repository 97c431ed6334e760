//! Units of the reader: values in SI go in, words come out.

use media::units as convert;
use serde::{Deserialize, Serialize};

/// What a number is, so that it can be written in the reader's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    GaugePressure,
    PressureDifference,
    StaticPressure,
    Vacuum,
    Temperature,
    WallTemperature,
    TemperatureDifference,
    Mass,
    Weighed,
    Line,
    ChargePerLength,
    Share,
    /// A share whose tenths of a percent count.
    FineShare,
    /// A share whose hundredths of a percent count.
    FinestShare,
    Probability,
    Span,
    Hours,
    Money,
    /// A number as somebody wrote it, with as many digits.
    Written,
    /// A time of the plant, to the second.
    PlantTime,
}

/// How a name ends that carries a quantity, the longer ends first. A name without such an end carries a count.
const ENDS: [(&str, Kind); 24] = [
    ("static_pa", Kind::StaticPressure),
    ("gauge_pa", Kind::GaugePressure),
    ("vacuum_pa", Kind::Vacuum),
    ("difference_pa", Kind::PressureDifference),
    ("difference_k", Kind::TemperatureDifference),
    ("weighed_kg", Kind::Weighed),
    ("_kg_m", Kind::ChargePerLength),
    ("_kg", Kind::Mass),
    ("set_point_k", Kind::WallTemperature),
    ("wall_k", Kind::WallTemperature),
    ("length_m", Kind::Line),
    ("charge_share", Kind::FineShare),
    ("worn_share", Kind::FinestShare),
    ("share", Kind::Share),
    ("probability", Kind::Probability),
    ("cost", Kind::Money),
    ("_h", Kind::Hours),
    ("after_s", Kind::Span),
    ("for_s", Kind::Span),
    ("written", Kind::Written),
    ("at_s", Kind::PlantTime),
    ("earliest_s", Kind::PlantTime),
    ("_k", Kind::Temperature),
    ("_s", Kind::Span),
];

impl Kind {
    /// What a field's number is, by the end of its name.
    pub(crate) fn of_field(name: &str) -> Option<Kind> {
        ENDS.iter().find(|(end, _)| name.ends_with(end)).map(|(_, kind)| *kind)
    }
}

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
            Units::Ip => format!("{} psig", decimal(convert::psi_from_pa(pressure_pa), 1)),
            Units::Si => format!("{} kPa gauge", decimal(pressure_pa / 1000.0, 0)),
        }
    }

    /// Static pressure of air from Pa: inches of water to the hundredth, small ones to the thousandth, as manometers of the trade tell them.
    pub fn static_pressure(self, pressure_pa: f64) -> String {
        match self {
            Units::Ip => {
                let inches = convert::inches_of_water_from_pa(pressure_pa);
                // A manometer tells thousandths, and what small drops are off by is some of them.
                let digits = if inches.abs() < 0.1 { 3 } else { 2 };
                format!("{} in. w.c.", decimal(inches, digits))
            }
            Units::Si => format!("{} Pa", decimal(pressure_pa, 0)),
        }
    }

    /// Temperature from K.
    pub fn temperature(self, temperature_k: f64) -> String {
        match self {
            Units::Ip => format!("{} °F", decimal(convert::fahrenheit_from_kelvin(temperature_k), 1)),
            Units::Si => format!("{} °C", decimal(convert::celsius_from_kelvin(temperature_k), 1)),
        }
    }

    /// Difference of two temperatures from K.
    pub fn temperature_difference(self, difference_k: f64) -> String {
        match self {
            Units::Ip => {
                format!(
                    "{} °F",
                    decimal(convert::fahrenheit_difference_from_kelvin_difference(difference_k), 1)
                )
            }
            Units::Si => format!("{} K", decimal(difference_k, 1)),
        }
    }

    /// Mass from kg: pounds and ounces as on a data plate, or kilograms.
    pub fn mass(self, mass_kg: f64) -> String {
        match self {
            Units::Ip => {
                let tenths_oz = libm::round(10.0 * convert::oz_from_kg(mass_kg));
                if tenths_oz.abs() < 160.0 {
                    return format!("{:.1} oz", unsigned_zero(tenths_oz / 10.0));
                }
                let pounds = libm::trunc(tenths_oz / 160.0);
                format!("{pounds:.0} lb {:.1} oz", (tenths_oz - 160.0 * pounds).abs() / 10.0)
            }
            Units::Si => format!("{} kg", decimal(mass_kg, 3)),
        }
    }

    /// What a charging scale shows, from kg: less than it tells is nothing, whatever its display drifts to.
    pub fn weighed(self, mass_kg: f64) -> String {
        self.mass(if visit::scale_tells(mass_kg) { mass_kg } else { 0.0 })
    }

    /// A quantity of a kind, in SI.
    pub(crate) fn text(self, kind: Kind, value: f64) -> String {
        match kind {
            Kind::GaugePressure => self.gauge_pressure(value),
            Kind::PressureDifference => self.pressure_difference(value),
            Kind::StaticPressure => self.static_pressure(value),
            Kind::Vacuum => self.vacuum(value),
            Kind::Temperature => self.temperature(value),
            Kind::WallTemperature => self.wall_temperature(value),
            Kind::TemperatureDifference => self.temperature_difference(value),
            Kind::Mass => self.mass(value),
            Kind::Weighed => self.weighed(value),
            Kind::Line => self.line_length(value),
            Kind::ChargePerLength => self.charge_per_length(value),
            Kind::Share => share(value),
            // Near 0 and 1 it is said by `Words::probability`.
            Kind::Probability => percent(value, 0),
            Kind::FineShare => percent(value, 1),
            Kind::FinestShare => percent(value, 2),
            Kind::Hours => format!("{value:.1} h"),
            Kind::Money => money(value),
            Kind::Span => span(value),
            Kind::Written => as_written(value),
            Kind::PlantTime => format!("{} s", as_written(value)),
        }
    }

    /// Length of line from m.
    pub fn line_length(self, length_m: f64) -> String {
        match self {
            Units::Ip => format!("{:.0} ft", convert::ft_from_m(length_m)),
            Units::Si => format!("{length_m:.1} m"),
        }
    }

    /// Charge for each length of line from kg/m.
    pub fn charge_per_length(self, charge_kg_m: f64) -> String {
        match self {
            Units::Ip => format!("{:.2} oz/ft", convert::oz_from_kg(charge_kg_m) * convert::m_from_ft(1.0)),
            Units::Si => format!("{:.0} g/m", 1000.0 * charge_kg_m),
        }
    }

    /// Difference of two pressures from Pa.
    pub fn pressure_difference(self, difference_pa: f64) -> String {
        match self {
            Units::Ip => {
                let tenths = libm::round(10.0 * convert::psi_from_pa(difference_pa)) / 10.0;
                format!("{:.1} psi", unsigned_zero(tenths))
            }
            Units::Si => format!("{} kPa", decimal(libm::round(difference_pa / 1000.0), 0)),
        }
    }

    /// The other system.
    pub fn other(self) -> Units {
        match self {
            Units::Ip => Units::Si,
            Units::Si => Units::Ip,
        }
    }

    /// Name for a button.
    pub fn label(self) -> &'static str {
        match self {
            Units::Ip => "°F, psig",
            Units::Si => "°C, kPa",
        }
    }

    /// A temperature from K as a thermostat on a wall shows it: whole degrees Fahrenheit, or tenths of a degree Celsius.
    pub fn wall_temperature(self, temperature_k: f64) -> String {
        match self {
            Units::Ip => format!("{} °F", decimal(convert::fahrenheit_from_kelvin(temperature_k), 0)),
            Units::Si => self.temperature(temperature_k),
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
            Units::Ip => {
                format!("{} Btu/h", decimal(100.0 * libm::round(convert::btu_h_from_w(rate_w) / 100.0), 0))
            }
            Units::Si => format!("{} kW", decimal(rate_w / 1000.0, 1)),
        }
    }

    /// Vacuum from Pa absolute.
    pub fn vacuum(self, pressure_pa: f64) -> String {
        match self {
            Units::Ip => format!("{} microns", decimal(convert::micron_from_pa(pressure_pa), 0)),
            Units::Si => format!("{} Pa absolute", decimal(pressure_pa, 0)),
        }
    }
}

/// A number to so many decimals; what rounds to nothing has no sign.
fn decimal(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.chars().all(|digit| matches!(digit, '0' | '.')) => digits.to_owned(),
        _ => text,
    }
}

/// A share in percent with so many decimals; number and sign stay on one line.
pub(crate) fn percent(share: f64, decimals: usize) -> String {
    format!("{}\u{a0}%", decimal(100.0 * share, decimals))
}

/// Money without its smaller coins.
pub fn money(amount: f64) -> String {
    format!("${}", decimal(amount, 0))
}

/// A negative zero without its sign.
fn unsigned_zero(value: f64) -> f64 {
    value + 0.0
}

/// Up to two decimals, none that are zero.
pub(crate) fn plain(value: f64) -> String {
    let text = format!("{:.2}", unsigned_zero(libm::round(100.0 * value) / 100.0));
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A number as a person writes it: to the thousandth, very large and very small ones by powers of ten.
fn as_written(value: f64) -> String {
    if value != 0.0 && !(1.0e-3..1.0e9).contains(&value.abs()) {
        return format!("{value:e}");
    }
    let text = decimal(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A share from 0 to 1 in whole percent.
pub fn share(share: f64) -> String {
    format!("{} %", decimal(libm::round(100.0 * share), 0))
}

/// A span of time from s: "45 s", "12 min", "2 h 05 min".
pub fn span(seconds: f64) -> String {
    let seconds = seconds.max(0.0);
    if seconds < 59.5 {
        return format!("{seconds:.0} s");
    }
    let minutes = libm::round(seconds / 60.0);
    if minutes < 60.0 {
        format!("{minutes:.0} min")
    } else if minutes % 60.0 == 0.0 {
        format!("{:.0} h", minutes / 60.0)
    } else {
        format!("{:.0} h {:02.0} min", libm::floor(minutes / 60.0), minutes % 60.0)
    }
}

/// A time as somebody asked for it, by the key of its unit; `None` if the key is none of a time's.
pub(crate) fn asked_for(key: &str, value: f64) -> Option<String> {
    Some(match key {
        // A wait that was stopped is recorded to the second; nobody reads thousands of them.
        "duration-seconds" if value >= 60.0 => span(value),
        "duration-seconds" => format!("{} s", plain(value)),
        "duration-minutes" if value >= 120.0 => span(60.0 * value),
        "duration-minutes" => format!("{} min", plain(value)),
        "duration-hours" => format!("{} h", plain(value)),
        _ => return None,
    })
}

/// Resistance with its unit.
pub fn resistance(value_ohm: f64) -> String {
    format!("{} Ω", decimal(value_ohm, 1))
}

/// Capacitance with its unit.
pub fn capacitance(value_f: f64) -> String {
    format!("{} µF", decimal(value_f * 1.0e6, 1))
}

/// Current with its unit.
pub fn current(value_a: f64) -> String {
    format!("{} A", decimal(value_a, 1))
}

/// Voltage, the same everywhere.
pub fn voltage(value_v: f64) -> String {
    format!("{} V", decimal(value_v, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_written_as_people_say_it() {
        for (key, value, text) in [
            ("duration-seconds", 45.0, "45 s"),
            ("duration-seconds", 5_154.5, "1 h 26 min"),
            ("duration-seconds", 61.0, "1 min"),
            ("duration-minutes", 45.0, "45 min"),
            ("duration-minutes", 120.0, "2 h"),
            ("duration-hours", 0.5, "0.5 h"),
        ] {
            assert_eq!(asked_for(key, value).as_deref(), Some(text));
        }
        assert_eq!(asked_for("mass-ounces", 2.0), None);
    }

    #[test]
    fn what_somebody_wrote_is_repeated_with_its_digits() {
        for (value, text) in [
            (1.4, "1.4"),
            (-0.1, "-0.1"),
            (0.0, "0"),
            (20_000.0, "20000"),
            (0.002, "0.002"),
            (1.0e-5, "1e-5"),
            (5.0e7, "50000000"),
            (1.0e308, "1e308"),
        ] {
            assert_eq!(as_written(value), text);
        }
    }

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
        assert_eq!(Units::Ip.temperature_difference(-0.01), "0.0 °F");
        assert_eq!(Units::Si.temperature_difference(-0.04), "0.0 K");
        assert_eq!(Units::Ip.mass(0.453_592_37), "1 lb 0.0 oz");
        // 1 inH2O (conventional) is 249.089 Pa (NIST SP 811).
        assert_eq!(Units::Ip.static_pressure(124.544), "0.50 in. w.c.");
        assert_eq!(Units::Ip.static_pressure(1.0), "0.004 in. w.c.");
        assert_eq!(Units::Si.static_pressure(-0.4), "0 Pa");
        // One tenth of an ounce below two pounds, and so little below that it rounds to them.
        assert_eq!(Units::Ip.mass(0.904_35), "1 lb 15.9 oz");
        assert_eq!(Units::Ip.mass(0.907_18), "2 lb 0.0 oz");
        assert_eq!(Units::Ip.mass(0.1), "3.5 oz");
        assert_eq!(Units::Ip.weighed(0.1), "3.5 oz");
        assert_eq!(Units::Ip.weighed(-0.004), "0.0 oz");
        // One ton of cooling is 3516.85 W and 12,000 Btu/h.
        assert_eq!(Units::Ip.heat_rate(3516.85), "12000 Btu/h");
        assert_eq!(Units::Si.heat_rate(3516.85), "3.5 kW");
        assert_eq!(Units::Ip.vacuum(66.661), "500 microns");
        // 1 Btu/lb is 2.326 kJ/kg (NIST SP 811, International Table).
        assert!((Units::Ip.enthalpy_number(2326.0) - 1.0).abs() < 1.0e-9);
    }
}

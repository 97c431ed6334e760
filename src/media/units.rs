//! Conversions between SI and the units of the trade. Exact where the unit is defined exactly.
//!
//! Names read "result from argument". Constants after NIST SP 811 (2008), appendix B, unless a line says otherwise.

/// Standard atmosphere, Pa: 14.696 psi. NIST SP 811.
pub const STANDARD_ATMOSPHERE_PA: f64 = 101_325.0;

const ZERO_CELSIUS_K: f64 = 273.15;
const FAHRENHEIT_A_KELVIN: f64 = 1.8;
const PA_A_PSI: f64 = 6_894.757_293_168_361;
const PA_AN_INCH_OF_WATER: f64 = 249.088_908_333; // conventional water, 4 °C
const PA_AN_INCH_OF_MERCURY: f64 = 3_386.389; // conventional mercury, 0 °C
const PA_A_MICRON: f64 = 0.133_322_387_415; // a thousandth of a millimetre of conventional mercury
const M3_A_CUBIC_FOOT: f64 = 0.028_316_846_592;
const S_A_MINUTE: f64 = 60.0;
const S_AN_HOUR: f64 = 3_600.0;
const J_A_BTU: f64 = 1_055.055_852_62; // International Table
const KG_A_POUND: f64 = 0.453_592_37;
const OUNCES_A_POUND: f64 = 16.0;
const BTU_H_A_TON: f64 = 12_000.0;
const M_AN_INCH: f64 = 0.025_4;
const M_A_FOOT: f64 = 0.304_8;

/// K from °C.
#[must_use]
pub fn kelvin_from_celsius(t_c: f64) -> f64 {
    t_c + ZERO_CELSIUS_K
}
/// °C from K.
#[must_use]
pub fn celsius_from_kelvin(t_k: f64) -> f64 {
    t_k - ZERO_CELSIUS_K
}
/// °F from °C.
#[must_use]
pub fn fahrenheit_from_celsius(t_c: f64) -> f64 {
    t_c * FAHRENHEIT_A_KELVIN + 32.0
}
/// °C from °F.
#[must_use]
pub fn celsius_from_fahrenheit(t_f: f64) -> f64 {
    (t_f - 32.0) / FAHRENHEIT_A_KELVIN
}
/// °F from K.
#[must_use]
pub fn fahrenheit_from_kelvin(t_k: f64) -> f64 {
    fahrenheit_from_celsius(celsius_from_kelvin(t_k))
}
/// K from °F.
#[must_use]
pub fn kelvin_from_fahrenheit(t_f: f64) -> f64 {
    kelvin_from_celsius(celsius_from_fahrenheit(t_f))
}
/// A temperature difference in °F from one in K.
#[must_use]
pub fn fahrenheit_difference_from_kelvin_difference(difference_k: f64) -> f64 {
    difference_k * FAHRENHEIT_A_KELVIN
}
/// A temperature difference in K from one in °F.
#[must_use]
pub fn kelvin_difference_from_fahrenheit_difference(difference_f: f64) -> f64 {
    difference_f / FAHRENHEIT_A_KELVIN
}

/// Pa from psi; both absolute or both differences.
#[must_use]
pub fn pa_from_psi(pressure_psi: f64) -> f64 {
    pressure_psi * PA_A_PSI
}
/// psi from Pa; both absolute or both differences.
#[must_use]
pub fn psi_from_pa(pressure_pa: f64) -> f64 {
    pressure_pa / PA_A_PSI
}
/// Gauge pressure, psi over the given atmosphere, from absolute pressure in Pa. Negative in a vacuum.
#[must_use]
pub fn psig_from_pa(absolute_pressure_pa: f64, atmosphere_pa: f64) -> f64 {
    psi_from_pa(gauge_pa_from_absolute_pa(absolute_pressure_pa, atmosphere_pa))
}
/// Absolute pressure, Pa, from gauge pressure in psi over the given atmosphere.
#[must_use]
pub fn pa_from_psig(gauge_pressure_psi: f64, atmosphere_pa: f64) -> f64 {
    absolute_pa_from_gauge_pa(pa_from_psi(gauge_pressure_psi), atmosphere_pa)
}
/// Gauge pressure, Pa over the given atmosphere, from absolute pressure in Pa.
#[must_use]
pub fn gauge_pa_from_absolute_pa(absolute_pressure_pa: f64, atmosphere_pa: f64) -> f64 {
    absolute_pressure_pa - atmosphere_pa
}
/// Absolute pressure, Pa, from gauge pressure in Pa over the given atmosphere.
#[must_use]
pub fn absolute_pa_from_gauge_pa(gauge_pressure_pa: f64, atmosphere_pa: f64) -> f64 {
    gauge_pressure_pa + atmosphere_pa
}
/// Inches of water column from Pa.
#[must_use]
pub fn inches_of_water_from_pa(pressure_pa: f64) -> f64 {
    pressure_pa / PA_AN_INCH_OF_WATER
}
/// Pa from inches of water column.
#[must_use]
pub fn pa_from_inches_of_water(pressure_in_wc: f64) -> f64 {
    pressure_in_wc * PA_AN_INCH_OF_WATER
}
/// Inches of mercury from Pa.
#[must_use]
pub fn inches_of_mercury_from_pa(pressure_pa: f64) -> f64 {
    pressure_pa / PA_AN_INCH_OF_MERCURY
}
/// Pa from inches of mercury.
#[must_use]
pub fn pa_from_inches_of_mercury(pressure_in_hg: f64) -> f64 {
    pressure_in_hg * PA_AN_INCH_OF_MERCURY
}
/// Microns of mercury (absolute) from Pa.
#[must_use]
pub fn micron_from_pa(pressure_pa: f64) -> f64 {
    pressure_pa / PA_A_MICRON
}
/// Pa from microns of mercury (absolute).
#[must_use]
pub fn pa_from_micron(pressure_micron: f64) -> f64 {
    pressure_micron * PA_A_MICRON
}

/// Cubic feet per minute from m³/s.
#[must_use]
pub fn cfm_from_m3_s(flow_m3_s: f64) -> f64 {
    flow_m3_s / M3_A_CUBIC_FOOT * S_A_MINUTE
}
/// m³/s from cubic feet per minute.
#[must_use]
pub fn m3_s_from_cfm(flow_cfm: f64) -> f64 {
    flow_cfm * M3_A_CUBIC_FOOT / S_A_MINUTE
}
/// Btu/h from W.
#[must_use]
pub fn btu_h_from_w(power_w: f64) -> f64 {
    power_w * S_AN_HOUR / J_A_BTU
}
/// W from Btu/h.
#[must_use]
pub fn w_from_btu_h(power_btu_h: f64) -> f64 {
    power_btu_h * J_A_BTU / S_AN_HOUR
}
/// Tons of refrigeration (12 000 Btu/h) from W.
#[must_use]
pub fn tons_of_refrigeration_from_w(power_w: f64) -> f64 {
    btu_h_from_w(power_w) / BTU_H_A_TON
}
/// W from tons of refrigeration (12 000 Btu/h).
#[must_use]
pub fn w_from_tons_of_refrigeration(power_tons: f64) -> f64 {
    w_from_btu_h(power_tons * BTU_H_A_TON)
}
/// Pounds from kg.
#[must_use]
pub fn lb_from_kg(mass_kg: f64) -> f64 {
    mass_kg / KG_A_POUND
}
/// kg from pounds.
#[must_use]
pub fn kg_from_lb(mass_lb: f64) -> f64 {
    mass_lb * KG_A_POUND
}
/// Ounces from kg.
#[must_use]
pub fn oz_from_kg(mass_kg: f64) -> f64 {
    lb_from_kg(mass_kg) * OUNCES_A_POUND
}
/// kg from ounces.
#[must_use]
pub fn kg_from_oz(mass_oz: f64) -> f64 {
    kg_from_lb(mass_oz / OUNCES_A_POUND)
}
/// Feet from m.
#[must_use]
pub fn ft_from_m(length_m: f64) -> f64 {
    length_m / M_A_FOOT
}
/// m from feet.
#[must_use]
pub fn m_from_ft(length_ft: f64) -> f64 {
    length_ft * M_A_FOOT
}
/// Inches from m.
#[must_use]
pub fn inches_from_m(length_m: f64) -> f64 {
    length_m / M_AN_INCH
}
/// m from inches.
#[must_use]
pub fn m_from_inches(length_in: f64) -> f64 {
    length_in * M_AN_INCH
}

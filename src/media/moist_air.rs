//! Moist air: the psychrometric equations of the ASHRAE Handbook, Fundamentals (2017), chapter 1.
//!
//! Temperatures in °C from -100 to 200, pressures absolute in Pa, humidity ratio in kg of water per kg of dry air,
//! enthalpy and volume per kg of dry air. The enthalpy of dry air and of liquid water is zero at 0 °C.
//! Saturation pressure after Hyland & Wexler (1983), as printed there: over ice below the triple point, over liquid
//! water above it. Air is an ideal gas here; against real-gas humid air this costs under 0.7 % in the humidity ratio
//! of saturation.
//! Humidity ratios below zero and relative humidities outside 0 to 1 are not checked; they give what the equations give.

use crate::elementary::ln;
use crate::steam;

/// Standard sea-level pressure, Pa.
pub const STANDARD_PRESSURE_PA: f64 = 101_325.0;

const ZERO_C_K: f64 = 273.15;
/// Ratio of the molar masses of water and dry air, handbook equation 20.
const WATER_TO_AIR_MOLAR_MASS: f64 = 0.621_945;
/// Gas constant of dry air, J/(kg K), handbook equation 1.
const DRY_AIR_GAS_CONSTANT_J_KG_K: f64 = 287.042;
/// Heat capacity of dry air, J/(kg K), handbook equation 30.
const DRY_AIR_CP_J_KG_K: f64 = 1_006.0;
/// Heat capacity of water vapour, J/(kg K), handbook equation 30.
const VAPOUR_CP_J_KG_K: f64 = 1_860.0;
/// Enthalpy of water vapour at 0 °C, J/kg, handbook equation 30.
const VAPOUR_ENTHALPY_AT_ZERO_J_KG: f64 = 2_501_000.0;

const LOWEST_C: f64 = -100.0;
const HIGHEST_C: f64 = 200.0;

/// Saturation pressure of water, Pa, at a temperature in °C: over ice up to 0.01 °C, over liquid above.
#[must_use]
#[inline]
pub fn saturation_pressure_pa(t_c: f64) -> f64 {
    steam::pressure_and_slope(t_c).0
}

/// Humidity ratio, kg/kg, of air with a partial pressure of water, Pa. Handbook equation 20.
#[inline]
fn humidity_ratio_from_vapour_pressure(vapour_pressure_pa: f64, p_pa: f64) -> f64 {
    WATER_TO_AIR_MOLAR_MASS * vapour_pressure_pa / (p_pa - vapour_pressure_pa)
}

/// Partial pressure of water, Pa, in air of a humidity ratio.
fn vapour_pressure_pa(w: f64, p_pa: f64) -> f64 {
    p_pa * w / (WATER_TO_AIR_MOLAR_MASS + w)
}

/// Humidity ratio, kg/kg, from temperature in °C, relative humidity (0 to 1) and pressure in Pa.
#[must_use]
pub fn humidity_ratio_from_relative_humidity(t_c: f64, relative_humidity: f64, p_pa: f64) -> f64 {
    humidity_ratio_from_vapour_pressure(relative_humidity * saturation_pressure_pa(t_c), p_pa)
}

/// Humidity ratio, kg/kg, of saturated air at a temperature in °C and a pressure in Pa.
#[must_use]
#[inline]
pub fn saturation_humidity_ratio(t_c: f64, p_pa: f64) -> f64 {
    humidity_ratio_from_vapour_pressure(saturation_pressure_pa(t_c), p_pa)
}

/// Relative humidity, 0 to 1 (above 1 for fog), from temperature in °C, humidity ratio and pressure in Pa.
#[must_use]
pub fn relative_humidity(t_c: f64, w: f64, p_pa: f64) -> f64 {
    vapour_pressure_pa(w, p_pa) / saturation_pressure_pa(t_c)
}

/// Humidity ratio, kg/kg, from dry and wet bulb in °C and pressure in Pa: handbook equations 33 (wet wick, wet bulb
/// from 0 °C) and 35 (iced wick, below). Never below zero: a wet bulb too low for the dry bulb counts as dry air.
#[must_use]
pub fn humidity_ratio_from_wet_bulb(t_c: f64, wet_bulb_c: f64, p_pa: f64) -> f64 {
    let w = if wet_bulb_c >= 0.0 {
        humidity_ratio_by_wet_wick(t_c, wet_bulb_c, p_pa)
    } else {
        humidity_ratio_by_iced_wick(t_c, wet_bulb_c, p_pa)
    };
    w.max(0.0)
}

fn humidity_ratio_by_wet_wick(t_c: f64, wet_bulb_c: f64, p_pa: f64) -> f64 {
    let saturated = saturation_humidity_ratio(wet_bulb_c, p_pa);
    ((2_501.0 - 2.326 * wet_bulb_c) * saturated - 1.006 * (t_c - wet_bulb_c))
        / (2_501.0 + 1.86 * t_c - 4.186 * wet_bulb_c)
}

fn humidity_ratio_by_iced_wick(t_c: f64, wet_bulb_c: f64, p_pa: f64) -> f64 {
    let saturated = saturation_humidity_ratio(wet_bulb_c, p_pa);
    ((2_830.0 - 0.24 * wet_bulb_c) * saturated - 1.006 * (t_c - wet_bulb_c))
        / (2_830.0 + 1.86 * t_c - 2.1 * wet_bulb_c)
}

/// Wet bulb, °C, from dry bulb in °C, humidity ratio and pressure in Pa: the inverse of
/// [`humidity_ratio_from_wet_bulb`]. Air at or over saturation gives its dry bulb.
///
/// Just below 0 °C a wick may be wet or iced, and the two differ by up to half a kelvin; where both a wet wick from 0 °C
/// and an iced wick below would explain the air, the wet one is given.
#[must_use]
pub fn wet_bulb_c(t_c: f64, w: f64, p_pa: f64) -> f64 {
    if t_c <= 0.0 && w >= saturation_humidity_ratio(t_c, p_pa) {
        return t_c;
    }
    wet_wick_c(t_c, w, p_pa).unwrap_or_else(|| {
        rising_root(LOWEST_C, t_c.min(0.0), |wick_c| humidity_ratio_by_iced_wick(t_c, wick_c, p_pa) - w)
    })
}

/// Temperature of a wet wick, °C, by handbook equation 33; the dry bulb in saturated air, none where it would lie below 0 °C.
///
/// Newton's method from the dry bulb: what the equation is out of balance by is convex in the temperature of the wick, so every
/// step ends above the root, and each squares what is left, to some hundredths of it in kelvin.
fn wet_wick_c(t_c: f64, w: f64, p_pa: f64) -> Option<f64> {
    if t_c <= 0.0 {
        return None;
    }
    let mut wick_c = t_c;
    for _ in 0..50 {
        let (vapour_pa, slope) = steam::pressure_and_slope(wick_c);
        let saturated = humidity_ratio_from_vapour_pressure(vapour_pa, p_pa);
        let saturated_slope = saturated * slope * p_pa / (vapour_pa * (p_pa - vapour_pa));
        let release = 2_501.0 - 2.326 * wick_c;
        let over = release * saturated - 1.006 * (t_c - wick_c) - w * (2_501.0 + 1.86 * t_c - 4.186 * wick_c);
        if wick_c <= 0.0 && over > 0.0 {
            return None;
        }
        let over_slope = release * saturated_slope - 2.326 * saturated + 1.006 + 4.186 * w;
        let next_c = (wick_c - over / over_slope).clamp(0.0, t_c);
        let moved_k = (next_c - wick_c).abs();
        wick_c = next_c;
        if moved_k < 1e-6 {
            break;
        }
    }
    Some(wick_c)
}

/// Dew point (frost point below 0.01 °C), °C, from humidity ratio and pressure in Pa. Air with less water than at
/// -100 °C gives -100 °C, so that dry air has an answer too.
#[must_use]
pub fn dew_point_c(w: f64, p_pa: f64) -> f64 {
    let pressure_pa = vapour_pressure_pa(w, p_pa);
    if pressure_pa <= saturation_pressure_pa(LOWEST_C) {
        return LOWEST_C;
    }
    // Magnus form (Alduchov & Eskridge 1996) as the start; within 1 K over the whole range of rooms and weather.
    let start = ln(pressure_pa / 610.94);
    let mut t_c = (243.04 * start / (17.625 - start)).clamp(LOWEST_C, HIGHEST_C);
    for _ in 0..20 {
        // Newton's method on the logarithm, which is nearly straight; that of a ratio close to one is its series.
        let (now_pa, slope) = steam::pressure_and_slope(t_c);
        let over = now_pa / pressure_pa - 1.0;
        let ln_over = if over.abs() < 1e-3 {
            over * (1.0 - over * (0.5 - over * (1.0 / 3.0 - over * 0.25)))
        } else {
            ln(1.0 + over)
        };
        let step = ln_over * now_pa / slope;
        t_c = (t_c - step).clamp(LOWEST_C, HIGHEST_C);
        // What is left goes with the square of the step.
        if step.abs() < 1e-5 {
            break;
        }
    }
    t_c
}

/// Enthalpy, J per kg of dry air, from temperature in °C and humidity ratio. Handbook equation 30.
#[must_use]
pub fn enthalpy_j_kg(t_c: f64, w: f64) -> f64 {
    DRY_AIR_CP_J_KG_K * t_c + w * (VAPOUR_ENTHALPY_AT_ZERO_J_KG + VAPOUR_CP_J_KG_K * t_c)
}

/// Temperature, °C, from enthalpy in J per kg of dry air and humidity ratio.
#[must_use]
pub fn temperature_from_enthalpy_c(enthalpy_j_kg: f64, w: f64) -> f64 {
    (enthalpy_j_kg - w * VAPOUR_ENTHALPY_AT_ZERO_J_KG) / cp_j_kg_k(w)
}

/// Heat capacity of moist air, J/K per kg of dry air.
#[must_use]
#[inline]
pub fn cp_j_kg_k(w: f64) -> f64 {
    DRY_AIR_CP_J_KG_K + VAPOUR_CP_J_KG_K * w
}

/// Volume, m³ per kg of dry air, from temperature in °C, humidity ratio and pressure in Pa. Handbook equation 26.
#[must_use]
#[inline]
pub fn specific_volume_m3_kg(t_c: f64, w: f64, p_pa: f64) -> f64 {
    DRY_AIR_GAS_CONSTANT_J_KG_K * (t_c + ZERO_C_K) * (1.0 + w / WATER_TO_AIR_MOLAR_MASS) / p_pa
}

/// Density of moist air (dry air and its water), kg/m³, from temperature in °C, humidity ratio and pressure in Pa.
#[must_use]
pub fn density_kg_m3(t_c: f64, w: f64, p_pa: f64) -> f64 {
    (1.0 + w) / specific_volume_m3_kg(t_c, w, p_pa)
}

/// Root of a rising function between two bounds: secant steps inside a shrinking bracket.
fn rising_root(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut at, mut before, mut before_value) = (high, f64::NAN, f64::NAN);
    for step in 0..100 {
        let value = f(at);
        if value > 0.0 {
            high = at;
        } else {
            low = at;
        }
        let mut next = match step {
            0 => 0.5 * (low + high),
            _ => at - value * (at - before) / (value - before_value),
        };
        if !(next > low && next < high) || (step > 10 && step % 2 == 0) {
            next = 0.5 * (low + high);
        }
        if (next - at).abs() < 1e-10 {
            return next;
        }
        (before, before_value, at) = (at, value, next);
    }
    at
}

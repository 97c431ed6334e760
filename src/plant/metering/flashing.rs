//! Mass flux of refrigerant that flashes in a metering device, from published laws.

use media::elementary::ln;
use media::refrigerant::Saturation;

/// Critical point of a refrigerant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Critical {
    /// Pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
}

/// Bounds of the reduced pressure. Above the upper one lie none of the data (54.4 °C with R-410A: 0.69);
/// below the lower one the fit no longer falls with quality. Beyond a bound it is held as at the bound.
pub(crate) const REDUCED_PRESSURE: [f64; 2] = [0.25, 0.7];
/// Density of vapour over that of liquid at the lower bound (0.041 with R-32 to 0.046 with R-22).
const DENSITY_RATIO_LEAST: f64 = 0.0429;
/// Length over bore in the data: 9.5 to 25.4 mm over 1.09 to 1.94 mm.
pub(crate) const LENGTH_OVER_BORE: [f64; 2] = [4.9, 23.3];

/// Flow of a two-phase inlet over that of saturated liquid at the same pressure: the two-phase part of Payne & O'Neal 2004 (A mass
/// flow rate correlation for refrigerants and refrigerant mixtures flowing through short tubes, HVAC&R Research 10(1), 73-87:
/// over 1200 points of R-12, R-134a, R-502, R-22, R-407C, R-410A), divided by its own value at no quality, which is
/// not quite one (0.94 to 1.14), so that nothing jumps where the first bubble appears.
pub(crate) fn two_phase_share(
    sat: &Saturation,
    quality: f64,
    critical: &Critical,
    length_over_bore: f64,
) -> f64 {
    let reduced = (sat.pressure_pa / critical.pressure_pa).clamp(REDUCED_PRESSURE[0], REDUCED_PRESSURE[1]);
    let ratio = (sat.vapour_density_kg_m3 / sat.liquid_density_kg_m3).max(DENSITY_RATIO_LEAST);
    let ln_room = ln(1.0 - reduced);
    let ln_tube = ln(length_over_bore);
    let part = |x: f64| {
        // Density of the mixture over that of the liquid; quality over liquid by the root of the densities.
        let mixture = 1.0 / (1.0 - x + x / ratio);
        let wetness = x / (1.0 - x) / libm::sqrt(ratio);
        let ln_mixture = ln(mixture);
        let above = 1.1831 * mixture - 1.468 * mixture * mixture - 0.152_85 * ln_mixture * ln_mixture
            + (-14.639 + 9.8401) * ln_room * ln_room
            - 0.019_798 * ln_tube * ln_tube;
        let below = 1.0 - 1.5348 * mixture - 2.0533 * wetness - 17.195 * reduced * reduced * reduced;
        above / below
    };
    // The last of the liquid would divide by zero; the equilibrium flow takes over long before.
    part(quality.clamp(0.0, 0.999)) / part(0.0)
}

/// Choked mass flux of a saturated or two-phase inlet in homogeneous equilibrium, kg/(s m²): the omega method of Leung 1986 (A
/// generalized correlation for one-component homogeneous equilibrium flashing choked flow, AIChE Journal 32(10); formula
/// from memory, held against the isentropic expansion itself in the test below: 0 to 14 % less). Vapour included.
pub(crate) fn equilibrium_flux(sat: &Saturation, quality: f64) -> f64 {
    let liquid = 1.0 / sat.liquid_density_kg_m3;
    let widening = 1.0 / sat.vapour_density_kg_m3 - liquid;
    let volume = liquid + quality * widening;
    let over_heat = widening / (sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg);
    let omega = quality * widening / volume
        + sat.liquid_cp_j_kg_k * sat.bubble_k * sat.pressure_pa / volume * over_heat * over_heat;
    let ln_omega = ln(omega);
    let critical_ratio = 0.55 + ln_omega * (0.217 + ln_omega * (-0.046 + 0.004 * ln_omega));
    critical_ratio * libm::sqrt(sat.pressure_pa / (volume * omega))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::RefrigerantName;

    /// Largest mass flux of an isentropic expansion in equilibrium, by steps of pressure.
    fn isentropic_flux(name: RefrigerantName, pressure_pa: f64, quality: f64) -> f64 {
        let fluid = name.tables();
        let s = fluid.saturation(pressure_pa);
        let mix = |liquid: f64, vapour: f64| liquid + quality * (vapour - liquid);
        let entropy = mix(s.liquid_entropy_j_kg_k, s.vapour_entropy_j_kg_k);
        let enthalpy = mix(s.liquid_enthalpy_j_kg, s.vapour_enthalpy_j_kg);
        (1..140)
            .map(|i| {
                let at = fluid.at_ps_vapour(pressure_pa * (1.0 - 0.005 * f64::from(i)), entropy);
                at.density_kg_m3 * (2.0 * (enthalpy - at.enthalpy_j_kg)).max(0.0).sqrt()
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn equilibrium_flux_is_that_of_an_isentropic_expansion() {
        for name in RefrigerantName::ALL {
            for celsius in [10.0, 30.0, 46.0] {
                for quality in [0.0, 0.02, 0.1, 0.3, 0.6, 1.0] {
                    let fluid = name.tables();
                    let pressure_pa = fluid.bubble_pressure_pa(celsius + 273.15);
                    let share = equilibrium_flux(&fluid.saturation(pressure_pa), quality)
                        / isentropic_flux(name, pressure_pa, quality);
                    assert!((0.84..1.03).contains(&share), "{name:?} {celsius} {quality}: {share}");
                }
            }
        }
    }

    /// From one at no quality it falls all the way, at every pressure, bounds included.
    #[test]
    fn two_phase_share_falls_with_quality() {
        for name in RefrigerantName::ALL {
            let (fluid, critical) = (name.tables(), name.critical());
            for pressure_pa in [0.3e6, 0.9e6, 1.5e6, 2.5e6, 3.5e6, 4.4e6] {
                let sat = fluid.saturation(pressure_pa);
                for tube in [4.9, 7.4, 23.3] {
                    let mut last = 1.0;
                    assert!((two_phase_share(&sat, 0.0, &critical, tube) - 1.0).abs() < 1e-12);
                    for i in 1..=99 {
                        let share = two_phase_share(&sat, 0.01 * f64::from(i), &critical, tube);
                        assert!(share < last && share > 0.0, "{name:?} {pressure_pa} {i} {share} {last}");
                        last = share;
                    }
                }
            }
        }
    }
}

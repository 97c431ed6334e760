//! Expansion valve: an opening without length.

use super::flashing::{Critical, LENGTH_OVER_BORE, equilibrium_flux, two_phase_share};
use super::laminar::Laminar;
use super::stream::Inlet;

/// Discharge coefficient of an expansion valve: 0.02005 times the root of the density of the liquid, kg/m³ (Wile 1935, from memory;
/// his second term, 0.634 times the volume behind the valve, m³/kg, adds less than 0.01). 0.63 at rating A.
fn discharge(liquid_kg_m3: f64) -> f64 {
    0.020_05 * libm::sqrt(liquid_kg_m3)
}

/// Flow through an open area from `inlet_pa` to `outlet_pa`, kg/s; negative against a higher outlet pressure.
///
/// Liquid passes the edge before it can flash, so it feels the whole difference of pressure. A mixture passes no more than fills the
/// opening at the density that enters, and no more than vapour lets through a short tube (Payne & O'Neal's two-phase part, as in
/// system models of RP-1173; from memory), whichever is less; and not less than it would in equilibrium.
pub(crate) fn flow_kg_s(
    area_m2: f64,
    inlet: &Inlet,
    inlet_pa: f64,
    outlet_pa: f64,
    critical: &Critical,
) -> f64 {
    let drive = Laminar::root(inlet_pa - outlet_pa);
    let liquid_kg_m3 = match inlet {
        Inlet::Liquid { density_kg_m3, .. } => *density_kg_m3,
        Inlet::Mixture { sat, .. } => sat.liquid_density_kg_m3,
    };
    let of_density = |kg_m3: f64| discharge(liquid_kg_m3) * libm::sqrt(2.0 * kg_m3) * drive;
    let filled = of_density(inlet.density_kg_m3());
    let flux = match inlet {
        Inlet::Mixture { quality, sat, .. } if drive > 0.0 => {
            let share = two_phase_share(sat, *quality, critical, LENGTH_OVER_BORE[0]);
            filled.min((share * of_density(liquid_kg_m3)).max(equilibrium_flux(sat, *quality)))
        }
        _ => filled,
    };
    area_m2 * flux
}

#[cfg(test)]
mod tests {
    use super::super::stream::Stream;
    use super::*;
    use crate::RefrigerantName;

    fn flow_g_s(pressures_pa: [f64; 2], enthalpy_j_kg: f64) -> f64 {
        let name = RefrigerantName::R410A;
        let inlet = Stream::of(name.tables(), pressures_pa[0], enthalpy_j_kg).at(pressures_pa[0]);
        1e3 * flow_kg_s(1.7e-6, &inlet, pressures_pa[0], pressures_pa[1], &name.critical())
    }

    /// Liquid: Bernoulli with Wile's coefficient and the density of the subcooled liquid, not of the saturated one.
    #[test]
    fn liquid_flows_by_its_own_density() {
        let fluid = RefrigerantName::R410A.tables();
        let liquid = fluid.at_pt_liquid(2.8e6, 312.15);
        let expected = 1e3
            * 1.7e-6
            * 0.020_05
            * libm::sqrt(liquid.density_kg_m3)
            * libm::sqrt(2.0 * liquid.density_kg_m3 * 1.8e6);
        approx::assert_relative_eq!(
            flow_g_s([2.8e6, 1.0e6], liquid.enthalpy_j_kg),
            expected,
            max_relative = 2e-3
        );
        // Half the difference of pressure, 0.71 of the flow: nothing chokes.
        let less = flow_g_s([2.8e6, 1.9e6], liquid.enthalpy_j_kg);
        approx::assert_relative_eq!(less / expected, libm::sqrt(0.5), max_relative = 3e-3);
    }

    /// From liquid to vapour at one pressure the flow falls all the way, by less than a fifth for a hundredth of quality; vapour flows as choked gas; near equal
    /// pressures all goes to zero, and back.
    #[test]
    fn flow_falls_from_liquid_to_vapour() {
        let fluid = RefrigerantName::R410A.tables();
        for inlet_pa in [1.2e6, 2.0e6, 2.8e6, 3.6e6] {
            let s = fluid.saturation(inlet_pa);
            let wide = s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg;
            let mut last = f64::INFINITY;
            for i in -20..=100 {
                let h = s.liquid_enthalpy_j_kg + 0.01 * f64::from(i) * wide;
                let flow = flow_g_s([inlet_pa, 0.6e6], h);
                assert!(flow < last && (flow > 0.8 * last || i == -20), "{inlet_pa} {i}: {last} {flow}");
                last = flow;
                assert!(flow_g_s([inlet_pa, inlet_pa], h).abs() < 1e-9);
                let back = flow_g_s([inlet_pa, inlet_pa + 1.0e5], h);
                assert!(back < 0.0 && back > -30.0, "{back}");
            }
            let ideal = 1e3 * 1.7e-6 * 0.628 * libm::sqrt(inlet_pa * s.vapour_density_kg_m3);
            assert!((0.75..1.0).contains(&(last / ideal)), "{inlet_pa}: {}", last / ideal);
        }
    }
}

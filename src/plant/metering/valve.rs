//! Expansion valve: an opening without length.

use super::Laminar;
use super::flashing::{Critical, LENGTH_OVER_BORE, equilibrium_flux, two_phase_share};
use super::stream::Inlet;

/// Discharge coefficient of an expansion valve: 0.02005 times the root of the density of the liquid, kg/m³ (Wile 1935, from memory;
/// his second term, 0.634 times the volume behind the valve, m³/kg, adds less than 0.01). 0.63 at rating A.
fn discharge(liquid_kg_m3: f64) -> f64 {
    0.020_05 * libm::sqrt(liquid_kg_m3)
}

/// Flow through an open area from `inlet_pa` to `outlet_pa`, kg/s; negative against a higher outlet pressure.
///
/// Liquid passes the edge before it can flash, so it feels the whole difference of pressure. Vapour that enters with it takes away
/// as much as it does from a short tube (Payne & O'Neal's two-phase part, as in system models of RP-1173; from memory), and no
/// mixture passes less than it would in equilibrium.
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
    // Filled with what enters: all that liquid does, and a mixture near equal pressures.
    let filled = of_density(inlet.density_kg_m3());
    let flux = match inlet {
        Inlet::Mixture { quality, sat, .. } if drive > 0.0 => {
            let share = two_phase_share(sat, *quality, critical, LENGTH_OVER_BORE[0]);
            (share * of_density(liquid_kg_m3)).max(equilibrium_flux(sat, *quality).min(filled))
        }
        _ => filled,
    };
    area_m2 * flux
}

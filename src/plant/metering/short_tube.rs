//! Fixed orifice: a short tube, after Payne & O'Neal 2004.

use super::flashing::{Critical, LENGTH_OVER_BORE, equilibrium_flux, two_phase_share};
use super::stream::Inlet;
use super::{Laminar, Stream};

/// Most subcooling in the data, K (25 °F; from memory). Beyond it the fit soon grows without bound.
const SUBCOOLING_MOST_K: f64 = 13.9;

/// A bore and its length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ShortTube {
    pub bore_m: f64,
    pub length_m: f64,
}

impl ShortTube {
    fn length_over_bore(&self) -> f64 {
        (self.length_m / self.bore_m).clamp(LENGTH_OVER_BORE[0], LENGTH_OVER_BORE[1])
    }

    /// Discharge coefficient without flashing: Lichtarowicz, Duggins & Markland 1965 (Journal of Mechanical Engineering Science 7(2),
    /// from memory), for turbulent flow and lengths of 2 to 10 bores.
    fn discharge(&self) -> f64 {
        0.827 - 0.0085 * self.length_over_bore()
    }

    /// Flow from `inlet_pa` to `outlet_pa`, kg/s; negative against a higher outlet pressure.
    ///
    /// Choked flow does not feel the outlet; near equal pressures the tube is filled with what enters, and the lesser of
    /// the two flows is the flow.
    pub(crate) fn flow_kg_s(
        &self,
        stream: &Stream<'_>,
        inlet: &Inlet,
        inlet_pa: f64,
        outlet_pa: f64,
        critical: &Critical,
    ) -> f64 {
        let area_m2 = core::f64::consts::FRAC_PI_4 * self.bore_m * self.bore_m;
        let filled =
            self.discharge() * libm::sqrt(2.0 * inlet.density_kg_m3()) * Laminar::root(inlet_pa - outlet_pa);
        let choked = match inlet {
            Inlet::Liquid { .. } => self.liquid_flux(stream, inlet, inlet_pa, critical),
            Inlet::Mixture { quality, sat, .. } => {
                let ratio = sat.vapour_density_kg_m3 / sat.liquid_density_kg_m3;
                let saturated =
                    self.group(0.0, 0.0, ratio) * libm::sqrt(sat.liquid_density_kg_m3 * critical.pressure_pa);
                let share = two_phase_share(sat, *quality, critical, self.length_over_bore());
                // No mixture passes less than it would in equilibrium; beyond the data (quality of some per cent) that is
                // the law.
                (share * saturated).max(equilibrium_flux(sat, *quality))
            }
        };
        area_m2 * filled.min(choked)
    }

    /// The single-phase part: mass flux over the root of liquid density and critical pressure, of pressure above saturation over
    /// critical pressure, subcooling over critical temperature, density of vapour over that of liquid.
    fn group(&self, over_saturation: f64, subcooling: f64, density_ratio: f64) -> f64 {
        (0.388_11 + 11.427 * over_saturation - 14.194 * subcooling + 1.0703 * density_ratio
            - 0.091_928 * libm::log(self.length_over_bore()))
            / (1.0 + 21.425 * over_saturation - 581.95 * subcooling * subcooling)
    }

    fn liquid_flux(&self, stream: &Stream<'_>, inlet: &Inlet, inlet_pa: f64, critical: &Critical) -> f64 {
        let Inlet::Liquid { temperature_k, line, .. } = inlet else { return 0.0 };
        let density = line.flash_density_kg_m3;
        let ratio = line.flash_vapour_density_kg_m3 / density;
        let flux = |flash_pa: f64, subcooling_k: f64| {
            self.group(
                (inlet_pa - flash_pa) / critical.pressure_pa,
                subcooling_k / critical.temperature_k,
                ratio,
            ) * libm::sqrt(density * critical.pressure_pa)
        };
        let bubble_k = stream.fluid.bubble_k(inlet_pa);
        let subcooling_k = bubble_k - temperature_k;
        if subcooling_k <= SUBCOOLING_MOST_K {
            return flux(line.flash_pa, subcooling_k);
        }
        // Colder than the data: the liquid flashes at the same share of its saturation pressure as at their end.
        let end_pa = stream.fluid.bubble_pressure_pa(bubble_k - SUBCOOLING_MOST_K);
        let end = flux(end_pa, SUBCOOLING_MOST_K);
        let head = 2.0 * self.discharge() * self.discharge() * density;
        let throat_share = (inlet_pa - end * end / head) / end_pa;
        libm::sqrt((head * (inlet_pa - throat_share * line.flash_pa)).max(end * end))
    }
}

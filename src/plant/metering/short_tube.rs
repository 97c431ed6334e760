//! Fixed orifice: a short tube, after Payne & O'Neal 2004.

use super::flashing::{Critical, LENGTH_OVER_BORE, REDUCED_PRESSURE, equilibrium_flux, two_phase_share};
use super::laminar::Laminar;
use super::stream::{Inlet, Stream};
use media::elementary::ln;

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
            - 0.091_928 * ln(self.length_over_bore()))
            / (1.0 + 21.425 * over_saturation - 581.95 * subcooling * subcooling)
    }

    fn liquid_flux(&self, stream: &Stream<'_>, inlet: &Inlet, inlet_pa: f64, critical: &Critical) -> f64 {
        let Inlet::Liquid { temperature_k, line, .. } = inlet else { return 0.0 };
        let density = line.flash_density_kg_m3;
        let ratio = line.flash_vapour_density_kg_m3 / density;
        // Below the data's pressures a kelvin of subcooling is less pressure than anywhere in them, and counts for less.
        let counts = (inlet_pa / (critical.pressure_pa * REDUCED_PRESSURE[0])).min(1.0);
        let flux = |saturation_pa: f64, subcooling_k: f64| {
            let over_saturation = (inlet_pa - saturation_pa) / critical.pressure_pa;
            self.group(over_saturation, counts * subcooling_k / critical.temperature_k, ratio)
                * libm::sqrt(density * critical.pressure_pa)
        };
        let bubble_k = stream.fluid.bubble_k(inlet_pa);
        let subcooling_k = bubble_k - temperature_k;
        let saturation_pa = line.flash_pa + line.pa_per_k * (temperature_k - line.flash_k);
        if subcooling_k <= SUBCOOLING_MOST_K {
            return flux(saturation_pa, subcooling_k);
        }
        // Colder than the data: the liquid flashes at the same share of its saturation pressure as at their end.
        let end_pa = stream.fluid.bubble_pressure_pa(bubble_k - SUBCOOLING_MOST_K);
        let end = flux(end_pa, SUBCOOLING_MOST_K);
        let head = 2.0 * self.discharge() * self.discharge() * density;
        let throat_share = (inlet_pa - end * end / head) / end_pa;
        libm::sqrt((head * (inlet_pa - throat_share * saturation_pa)).max(end * end))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::RefrigerantName;

    const TUBE: ShortTube = ShortTube { bore_m: 1.73e-3, length_m: 12.7e-3 };

    /// Flow at a bubble temperature, °C, with subcooling, K, or quality, in grams a second.
    fn flow_g_s(
        name: RefrigerantName,
        tube: ShortTube,
        bubble_c: f64,
        subcooling_k: f64,
        quality: f64,
        outlet_pa: f64,
    ) -> f64 {
        let fluid = name.tables();
        let inlet_pa = fluid.bubble_pressure_pa(bubble_c + 273.15);
        let enthalpy = if quality > 0.0 {
            let s = fluid.saturation(inlet_pa);
            s.liquid_enthalpy_j_kg + quality * (s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg)
        } else {
            fluid.at_pt_liquid(inlet_pa, bubble_c + 273.15 - subcooling_k).enthalpy_j_kg
        };
        let stream = Stream::of(fluid, inlet_pa * 1.02, enthalpy);
        let inlet = stream.at(inlet_pa);
        1e3 * tube.flow_kg_s(&stream, &inlet, inlet_pa, outlet_pa, &name.critical())
    }

    /// Payne & O'Neal's correlation, both parts, worked out apart with properties from CoolProp 8.0 (their two-phase part held at one
    /// where it exceeds it): bubble temperature °C, subcooling K, quality, bore and length mm, flow g/s.
    #[test]
    fn flow_is_the_published_one() {
        for (name, bubble_c, subcooling_k, quality, bore_mm, length_mm, published_g_s) in [
            (RefrigerantName::R410A, 30.0, 5.0, 0.00, 1.73, 12.7, 54.28),
            (RefrigerantName::R410A, 46.0, 0.0, 0.00, 1.73, 12.7, 55.23),
            (RefrigerantName::R410A, 46.0, 2.0, 0.00, 1.73, 12.7, 57.61),
            (RefrigerantName::R410A, 46.0, 7.0, 0.00, 1.73, 12.7, 63.58),
            (RefrigerantName::R410A, 46.0, 13.0, 0.00, 1.73, 12.7, 72.62),
            (RefrigerantName::R410A, 46.0, 7.0, 0.00, 1.34, 25.4, 34.92),
            (RefrigerantName::R410A, 46.0, 0.0, 0.05, 1.73, 12.7, 52.44),
            (RefrigerantName::R410A, 46.0, 0.0, 0.10, 1.73, 12.7, 49.65),
            (RefrigerantName::R410A, 38.0, 0.0, 0.05, 1.34, 12.7, 24.97),
            (RefrigerantName::R22, 40.0, 5.0, 0.00, 1.94, 9.5, 69.20),
            (RefrigerantName::R22, 46.0, 0.0, 0.00, 1.71, 12.7, 47.51),
            (RefrigerantName::R22, 46.0, 11.0, 0.00, 1.71, 12.7, 60.35),
            (RefrigerantName::R22, 46.0, 0.0, 0.05, 1.71, 12.7, 37.17),
            (RefrigerantName::R22, 46.0, 0.0, 0.10, 1.71, 12.7, 32.14),
        ] {
            let tube = ShortTube { bore_m: 1e-3 * bore_mm, length_m: 1e-3 * length_mm };
            let flow = flow_g_s(name, tube, bubble_c, subcooling_k, quality, 9.0e5);
            let case = (name, bubble_c, subcooling_k, quality);
            // What differs: the two-phase part is divided by its own value at no quality.
            let band = if quality > 0.0 { 0.025 } else { 0.006 };
            assert!((flow / published_g_s - 1.0).abs() < band, "{case:?}: {flow:.2}, {published_g_s}");
        }
    }

    /// Liquid chokes where it begins to flash: 0.80 to 1.0 of its saturation pressure over the data (Kim & O'Neal 1994 saw about
    /// 0.86; from memory). Below that the outlet is not felt; at equal pressures nothing flows; against a higher one it flows back.
    #[test]
    fn choked_by_the_saturation_of_what_enters() {
        let name = RefrigerantName::R410A;
        for subcooling_k in [1.0, 4.0, 7.0, 12.0, 16.0] {
            let fluid = name.tables();
            let inlet_pa = fluid.bubble_pressure_pa(319.15);
            let saturation_pa = fluid.bubble_pressure_pa(319.15 - subcooling_k);
            let flow = |outlet_pa: f64| flow_g_s(name, TUBE, 46.0, subcooling_k, 0.0, outlet_pa);
            let choked = flow(5.0e5);
            assert_eq!(choked, flow(0.75 * saturation_pa));
            let mut outlet_pa = 0.75 * saturation_pa;
            while flow(outlet_pa) == choked {
                outlet_pa += 1.0e3;
            }
            let share = outlet_pa / saturation_pa;
            assert!((0.80..1.01).contains(&share), "{subcooling_k} K: {share}");
            assert!(flow(inlet_pa).abs() < 1e-9);
            assert!(flow(inlet_pa + 1.0e5) < 0.0);
        }
    }

    /// More subcooling, more flow, from none to far beyond the data, for every refrigerant; and without a jump at its ends.
    #[test]
    fn flow_rises_with_subcooling() {
        for name in [RefrigerantName::R410A, RefrigerantName::R22] {
            for bubble_c in [25.0, 35.0, 45.0] {
                let mut last = flow_g_s(name, TUBE, bubble_c, 0.0, 0.001, 3.0e5);
                for i in 0..=100 {
                    let flow = flow_g_s(name, TUBE, bubble_c, 0.3 * f64::from(i), 0.0, 3.0e5);
                    assert!(flow > 0.99 * last, "{name:?} {bubble_c} {i}: {last} {flow}");
                    assert!(flow < 1.05 * last, "{name:?} {bubble_c} {i}: {last} {flow}");
                    last = flow;
                }
                let bernoulli = 1e3
                    * TUBE.discharge()
                    * core::f64::consts::FRAC_PI_4
                    * TUBE.bore_m.powi(2)
                    * libm::sqrt(2.0 * 1300.0 * name.tables().bubble_pressure_pa(bubble_c + 273.15));
                assert!(last < bernoulli, "{name:?} {bubble_c}: {last} {bernoulli}");
            }
        }
        // About 2 % a kelvin near rating A.
        let rise = flow_g_s(RefrigerantName::R410A, TUBE, 46.0, 8.0, 0.0, 9e5)
            / flow_g_s(RefrigerantName::R410A, TUBE, 46.0, 4.0, 0.0, 9e5);
        assert!((1.06..1.11).contains(&rise), "{rise}");
    }

    /// Vapour at the inlet is choked gas flow, whatever the orifice: within a fifth of the ideal nozzle (isentropic exponent 1.1).
    #[test]
    fn vapour_flows_as_choked_gas() {
        let fluid = RefrigerantName::R410A.tables();
        let s = fluid.saturation(2.0e6);
        let ideal = 0.628 * libm::sqrt(s.pressure_pa * s.vapour_density_kg_m3);
        let stream = Stream::of(fluid, 2.0e6, s.vapour_enthalpy_j_kg + 5.0e3);
        let flow =
            TUBE.flow_kg_s(&stream, &stream.at(2.0e6), 2.0e6, 3.0e5, &RefrigerantName::R410A.critical());
        let share = flow / (ideal * core::f64::consts::FRAC_PI_4 * TUBE.bore_m * TUBE.bore_m);
        assert!((0.8..1.0).contains(&share), "{share}");
    }
}

//! What stands before a metering device: one enthalpy, at any pressure below the condenser's.

use media::refrigerant::{Isobar, Refrigerant, Saturation};

/// Refrigerant of one enthalpy. While it is liquid its temperature and density are nearly straight in pressure, so two
/// states of it serve for all pressures between them: a search for the flow then needs no property for most of its steps.
pub(crate) struct Stream<'a> {
    pub fluid: &'a Refrigerant,
    enthalpy_j_kg: f64,
    /// Where it is liquid at the highest pressure.
    pub liquid: Option<Liquid>,
}

/// Liquid between the highest pressure and the one at which it begins to flash.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Liquid {
    /// Pressure at which this liquid flashes, Pa; its temperature and densities there.
    pub flash_pa: f64,
    pub flash_k: f64,
    pub flash_density_kg_m3: f64,
    pub flash_vapour_density_kg_m3: f64,
    /// Slope of saturation pressure there, Pa/K.
    pub pa_per_k: f64,
    k_per_pa: f64,
    density_per_pa: f64,
}

/// The state at one pressure.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Inlet {
    /// Liquid that is colder than bubble.
    Liquid { density_kg_m3: f64, temperature_k: f64, line: Liquid },
    /// Liquid and vapour; quality 1 for any vapour.
    Mixture { density_kg_m3: f64, quality: f64, sat: Saturation },
}

impl Inlet {
    pub(crate) fn density_kg_m3(&self) -> f64 {
        match *self {
            Inlet::Liquid { density_kg_m3, .. } | Inlet::Mixture { density_kg_m3, .. } => density_kg_m3,
        }
    }
}

impl<'a> Stream<'a> {
    /// The stream of an enthalpy below `highest_pa`.
    #[cfg(test)]
    pub(crate) fn of(fluid: &'a Refrigerant, highest_pa: f64, enthalpy_j_kg: f64) -> Stream<'a> {
        Stream::from(fluid, &fluid.isobar(highest_pa), enthalpy_j_kg)
    }

    /// The same with the states at the highest pressure.
    pub(crate) fn from(fluid: &'a Refrigerant, isobar: &Isobar<'_>, enthalpy_j_kg: f64) -> Stream<'a> {
        let sat = isobar.saturation();
        if enthalpy_j_kg >= sat.liquid_enthalpy_j_kg {
            return Stream { fluid, enthalpy_j_kg, liquid: None };
        }
        let highest = isobar.at_h(enthalpy_j_kg);
        // At its own bubble pressure liquid of this temperature has nearly this enthalpy. The few hundred joules that it lacks are
        // made up along the saturation line, by heat capacity and by Clausius and Clapeyron.
        let near = fluid.saturation_at_bubble(highest.temperature_k);
        let rise_k = (enthalpy_j_kg - near.liquid_enthalpy_j_kg) / near.liquid_cp_j_kg_k;
        let pa_per_k = (near.vapour_enthalpy_j_kg - near.liquid_enthalpy_j_kg)
            / (near.bubble_k * (1.0 / near.vapour_density_kg_m3 - 1.0 / near.liquid_density_kg_m3));
        let flash_pa = (near.pressure_pa + pa_per_k * rise_k).min(sat.pressure_pa);
        let share = rise_k / (sat.bubble_k - near.bubble_k).max(0.01);
        let along = |at_near: f64, at_highest: f64| at_near + share * (at_highest - at_near);
        let flash_k = near.bubble_k + rise_k;
        let flash_density = along(near.liquid_density_kg_m3, sat.liquid_density_kg_m3);
        let over_pa = (sat.pressure_pa - flash_pa).max(1.0);
        Stream {
            fluid,
            enthalpy_j_kg,
            liquid: Some(Liquid {
                flash_pa,
                flash_k,
                flash_density_kg_m3: flash_density,
                flash_vapour_density_kg_m3: along(near.vapour_density_kg_m3, sat.vapour_density_kg_m3),
                pa_per_k,
                k_per_pa: (highest.temperature_k - flash_k) / over_pa,
                density_per_pa: (highest.density_kg_m3 - flash_density) / over_pa,
            }),
        }
    }

    /// The state at a pressure not above the highest.
    pub(crate) fn at(&self, pressure_pa: f64) -> Inlet {
        match self.liquid {
            Some(line) if pressure_pa >= line.flash_pa => {
                let over_pa = pressure_pa - line.flash_pa;
                Inlet::Liquid {
                    density_kg_m3: line.flash_density_kg_m3 + line.density_per_pa * over_pa,
                    temperature_k: line.flash_k + line.k_per_pa * over_pa,
                    line,
                }
            }
            _ => {
                let sat = self.fluid.saturation(pressure_pa);
                let quality = ((self.enthalpy_j_kg - sat.liquid_enthalpy_j_kg)
                    / (sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg))
                    .clamp(0.0, 1.0);
                let volume = (1.0 - quality) / sat.liquid_density_kg_m3 + quality / sat.vapour_density_kg_m3;
                Inlet::Mixture { density_kg_m3: 1.0 / volume, quality, sat }
            }
        }
    }
}

//! The sump of the compressor: oil with the refrigerant that it holds, and liquid that the suction line throws into it.
//!
//! Refrigerant in the sump is out of circulation: what a flooded coil throws over at a start boils off over minutes, and what
//! oil takes up at rest is missing from the coils for as long (Mulroy & Didion 1985, ASHRAE Transactions 91; O'Neal &
//! Katipamula 1991, both from memory: half of the loss of a start is refrigerant that has to come out of the shell first).

use media::refrigerant::{Refrigerant, Saturation};

use crate::system::Compressor;

/// Energy booked for a kilogram in the sump, J/kg: liquid at 0 °C in the tables' reference. What really comes and goes differs
/// from it by sensible heat, which the shell gives or takes.
pub(crate) const SUMP_J_KG: f64 = 2.0e5;
/// Refrigerant for each kilogram of oil at half the saturation pressure at the oil's temperature, kg/kg: polyol ester with
/// R-410A holds some 13 % at 60 °C and 10 bar (a quarter of saturation) by published pressure-temperature-solubility charts
/// (read from memory); w/(1 - w) = k a/(1 - a) in the activity a goes through it and without bound to saturation, where
/// refrigerant condenses in the shell.
const SOLUBILITY: f64 = 0.43;
/// Largest activity that the law is used for: beyond it the shell simply fills, 1.
const MOST_ACTIVITY: f64 = 0.93;
/// Time in which the sump boils off what it holds beyond equilibrium while the rotor churns it, and at rest, s; and in which
/// oil at rest takes refrigerant up, s (typ.: two to five minutes after a flooded start; foaming under falling pressure; hours
/// of standing).
const BOILS_CHURNED_S: f64 = 90.0;
const BOILS_AT_REST_S: f64 = 300.0;
const TAKES_UP_S: f64 = 5400.0;
/// Share of the liquid in the suction stream that falls into the sump of a low-side shell; the rest goes on as mist (typ.).
const SEPARATES: f64 = 0.85;
/// Over how much of its room the sump stops taking liquid, kg (numerical).
const FILLS_OVER_KG: f64 = 0.2;

/// Refrigerant that the oil holds at equilibrium, kg, at a pressure of the refrigerant in the shell (without that of other gas)
/// and the saturation pressure at its temperature, Pa.
pub(crate) fn dissolved_kg(data: &Compressor, pressure_pa: f64, oil_saturation_pa: f64) -> f64 {
    let activity = (pressure_pa / oil_saturation_pa.max(1.0)).clamp(0.0, MOST_ACTIVITY);
    (data.oil_kg * SOLUBILITY * activity / (1.0 - activity)).min(data.sump_room_kg)
}

/// Whether the compressor turns over its sump.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Turning {
    Runs,
    Rests,
}

/// What the sump gives and takes at one instant.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sump {
    /// Vapour that boils off, kg/s; negative: that the oil takes up.
    pub boils_kg_s: f64,
    /// Share of the suction stream that falls into it as liquid.
    pub falls_share: f64,
}

impl Sump {
    /// What the sump of a compressor with so much refrigerant in it, kg, does beside a suction stream of this quality.
    pub(crate) fn of(
        data: &Compressor,
        sump_kg: f64,
        holds_kg: f64,
        turning: Turning,
        quality: f64,
        dt_s: f64,
    ) -> Sump {
        let beyond = sump_kg - holds_kg;
        let time_s = match (beyond > 0.0, turning) {
            (true, Turning::Runs) => BOILS_CHURNED_S,
            (true, Turning::Rests) => BOILS_AT_REST_S,
            (false, _) => TAKES_UP_S,
        };
        let room = ((data.sump_room_kg - sump_kg) / FILLS_OVER_KG).clamp(0.0, 1.0);
        let liquid = if turning == Turning::Runs { (1.0 - quality).clamp(0.0, 1.0) } else { 0.0 };
        Sump { boils_kg_s: beyond / time_s.max(dt_s), falls_share: liquid * SEPARATES * room }
    }

    /// Stream out of the suction line that leaves the scrolls a flow, kg/s; negative when the sump gives off more than that.
    pub(crate) fn stream_kg_s(&self, scrolls_kg_s: f64) -> f64 {
        (scrolls_kg_s - self.boils_kg_s) / (1.0 - self.falls_share)
    }

    /// Heat that the shell gets from what falls in and gives to what boils off, W, with a suction stream in kg/s.
    pub(crate) fn heat_to_shell_w(&self, sat: &Saturation, stream_kg_s: f64) -> f64 {
        self.falls_share * stream_kg_s * (sat.liquid_enthalpy_j_kg - SUMP_J_KG)
            - self.boils_kg_s * (sat.vapour_enthalpy_j_kg - SUMP_J_KG)
    }
}

/// Saturation pressure of the refrigerant at the temperature of the oil, Pa.
pub(crate) fn oil_saturation_pa(fluid: &Refrigerant, oil_k: f64) -> f64 {
    fluid.bubble_pressure_pa(oil_k)
}

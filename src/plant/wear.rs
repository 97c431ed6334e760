//! What running does to a compressor: liquid and heat leave marks that show later.

use serde::{Deserialize, Serialize};

/// Share of liquid in the suction gas that a scroll takes without harm (typ.; no source).
const TOLERATED_LIQUID_SHARE: f64 = 0.02;
/// Time after a start in which liquid does no harm, s (typ.; no source): a stream that is nearly all liquid for some ten seconds
/// is more than a sump keeps from the scrolls, but they give way to it, and machines live through tens of thousands of starts.
pub(crate) const START_GIVES_WAY_S: f64 = 30.0;

/// Damage of the compressor, which shows up later as an internal leak.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Wear {
    /// Liquid beyond what a scroll takes without harm that went through the compressor, kg.
    pub liquid_kg: f64,
    /// Time at too high a discharge temperature, weighted by how much too high, K·s.
    pub overheated_k_s: f64,
}

impl Wear {
    /// Rate at which liquid that does harm goes through the scrolls, kg/s: what is beyond a tolerated share of the mass, once the
    /// start is over. Most of what a coil throws over falls into the sump before it gets there.
    pub(crate) fn harmful_liquid_kg_s(inlet_quality: f64, flow_kg_s: f64, running_for_s: f64) -> f64 {
        if running_for_s < START_GIVES_WAY_S {
            return 0.0;
        }
        (1.0 - inlet_quality - TOLERATED_LIQUID_SHARE).max(0.0) * flow_kg_s
    }

    /// Share of the flow that leaks back because of it, 0 to 0.6. Liquid washes the oil off the scrolls and
    /// breaks their tips; heat carbonises the oil. Rates are typ.: 400 kg of liquid, or ten hours 40 K too hot, cost a
    /// tenth of the flow.
    pub fn internal_leak(&self) -> f64 {
        (0.1 * self.liquid_kg / 400.0 + 0.1 * self.overheated_k_s / (10.0 * 3600.0 * 40.0)).min(0.6)
    }
}

//! Conductance of the refrigerant that boils in the indoor coil: its film, carried by the stream or by bubbles, and behind it
//! the fins.

use crate::system::Evaporator;
use serde::{Deserialize, Serialize};

use crate::kept::Kept;
/// Part of the resistance between boiling refrigerant and the mean of the fins that is the fins', at rated flow (typ., see
/// [`Evaporator::boiling_ua_w_k`]): however little flows, the fins stay what they are.
const FINS_PART: f64 = 0.5;
/// Exponent of the film that the stream carries in the flow (Dittus and Boelter, and every law of flow boiling built on it).
const STREAM_EXPONENT: f64 = 0.8;
/// Flow over the rated one below which the stream no longer counts, and above which nothing was measured: liquid that trickles
/// and pools has the film of natural convection, about a tenth of the rated one (typ.).
const FLOW_SHARE: [f64; 2] = [0.07, 2.0];
/// Bore of the tubes, m (3/8 inch with a wall of 0.65 mm).
const BORE_M: f64 = 8.2e-3;
/// Share of pool boiling that is found in a tube. At full flow the stream suppresses two thirds of it (Gungor and Winterton 1986,
/// Re 8500 and boiling number 1.6e-4, from memory); a trickle leaves two thirds of the tube's round dry (Kattan, Thome and Favrat
/// 1998, stratified flow, from memory).
const POOL_SHARE: f64 = 1.0 / 3.0;
/// Molar mass, g/mol, between the 52 of R-32 and the 86 of R-22; its root moves the film by a tenth.
const MOLAR_MASS: f64 = 68.0;
/// Flux that no tube passes while its wall is wet, W/m² (critical heat flux in coils, from memory).
const MOST_FLUX_W_M2: f64 = 1.0e5;

/// What the boiling part of a coil does at an instant.
pub(crate) struct Boiling<'a> {
    pub data: &'a Evaporator,
    /// Share of the coil that boils.
    pub share: f64,
    /// Inlet flow over the rated one.
    pub flow_share: f64,
    /// Pressure over the critical one.
    pub reduced_pressure: f64,
    /// Heat that boiled in the last step, W.
    pub last_w: f64,
}

/// Powers of the laws of boiling as they were last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct BoilingFilms {
    stream: Kept,
    bubbles: Kept,
    both: Kept,
    ln_reduced: Kept,
    reduced: Kept,
    decades: Kept,
}

impl Boiling<'_> {
    /// Conductance between the refrigerant and the mean of the fins, W/K.
    ///
    /// A small patch of boiling liquid amid air at room temperature takes in many times its rated flux. The stream's film
    /// falls with the flow, but bubbles take over (Cooper 1984 for pool boiling; the two together by the sum of their cubes
    /// after Steiner and Taborek 1992; from memory), so that the patch is nearly as cold as what boils in it.
    pub(crate) fn conductance_w_k(&self, kept: &mut BoilingFilms) -> f64 {
        let of_all = self.data.boiling_ua_w_k * self.share;
        let [least, most] = FLOW_SHARE;
        let rated_film = of_all / (1.0 - FINS_PART);
        let stream = rated_film * kept.stream.power(self.flow_share.clamp(least, most), STREAM_EXPONENT);
        let tubes_m2 = 4.0 * self.data.volume_m3 / BORE_M * self.share;
        let flux = (self.last_w / tubes_m2.max(1.0e-6)).clamp(0.0, MOST_FLUX_W_M2);
        let bubbles = POOL_SHARE * tubes_m2 * pool_w_m2_k(kept, self.reduced_pressure, flux);
        let film = kept.both.power(stream * stream * stream + bubbles * bubbles * bubbles, 1.0 / 3.0);
        let fins = of_all / FINS_PART;
        film * fins / (film + fins).max(1.0e-9)
    }
}

/// Film of pool boiling on a drawn tube, W/(m² K): Cooper 1984, 55 p_r^0.12 (-log10 p_r)^-0.55 M^-0.5 q^0.67.
fn pool_w_m2_k(kept: &mut BoilingFilms, reduced_pressure: f64, flux_w_m2: f64) -> f64 {
    let reduced = reduced_pressure.clamp(1.0e-3, 0.9);
    let decades = -kept.ln_reduced.ln(reduced) * core::f64::consts::LOG10_E;
    55.0 / MOLAR_MASS.sqrt()
        * kept.reduced.power(reduced, 0.12)
        * kept.decades.power(decades, -0.55)
        * kept.bubbles.power(flux_w_m2.max(1.0), 0.67)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::System;

    fn conductance_w_k(share: f64, flow_share: f64, reduced_pressure: f64, flux_w_m2: f64) -> f64 {
        let system = System::built_in("split-3-ton-r410a-txv").expect("built in");
        let data = &system.evaporator;
        let last_w = flux_w_m2 * share * 4.0 * data.volume_m3 / BORE_M;
        Boiling { data, share, flow_share, reduced_pressure, last_w }
            .conductance_w_k(&mut BoilingFilms::default())
            / share
            / data.boiling_ua_w_k
    }

    /// Pool boiling of R-410A's pressures at 10 kW/m² lies at 3 to 5 kW/(m² K) at +7 °C and falls with pressure (VDI Heat Atlas,
    /// R-134a and R-22 at reduced pressures of 0.1 to 0.2: 2 to 4 kW/(m² K), from memory).
    #[test]
    fn pool_boiling_has_its_size() {
        let (warm, cold) = (
            pool_w_m2_k(&mut BoilingFilms::default(), 0.2, 1.0e4),
            pool_w_m2_k(&mut BoilingFilms::default(), 0.036, 1.0e4),
        );
        assert!((2.5e3..4.5e3).contains(&warm), "{warm}");
        assert!((1.2e3..2.5e3).contains(&cold), "{cold}");
        approx::assert_relative_eq!(
            pool_w_m2_k(&mut BoilingFilms::default(), 0.1, 2.0e4)
                / pool_w_m2_k(&mut BoilingFilms::default(), 0.1, 1.0e4),
            libm::pow(2.0, 0.67),
            max_relative = 1e-12
        );
    }

    /// At rated flow and flux bubbles add next to nothing; a trickle on a patch of a few hundredths of the coil keeps more than
    /// half of the conductance, where the stream alone would keep a fifth.
    #[test]
    fn bubbles_take_over_where_little_flows() {
        let rated = conductance_w_k(1.0, 1.0, 0.2, 8.0e3);
        assert!((1.0..1.02).contains(&rated), "{rated}");
        let trickle = conductance_w_k(0.03, 0.02, 0.036, 3.0e4);
        assert!((0.4..0.8).contains(&trickle), "{trickle}");
        let rests = conductance_w_k(0.5, 0.0, 0.25, 0.0);
        assert!((0.15..0.25).contains(&rests), "{rests}");
    }
}

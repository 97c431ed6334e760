//! Ice and water on the indoor coil: where the ice stands, what it leaves open, how it grows and melts, what stays wet.
//!
//! Ice is told along the coil, in shares of its surface from where the refrigerant enters: a part that is closed, then a
//! zone in which it thins out like a wedge, then bare fins. Growing ice fills the zone until its thick end meets the ice of
//! the next fin, and the closed part follows. Melting takes the zone through the film of the air that passes it, and the
//! closed part only from its face.

use media::moist_air;
use serde::{Deserialize, Serialize};

use crate::system::Evaporator;

/// Enthalpy of fusion of ice, J/kg (CRC Handbook; 333.6 kJ/kg): the one heat of freezing, melting and of what freezes of
/// the water on the fins.
pub(crate) const FUSION_J_KG: f64 = 3.34e5;
/// Heat of condensation on a wet coil, J/kg (water at 0 °C, 2.501 MJ/kg: steam tables, from memory).
pub(crate) const CONDENSATION_J_KG: f64 = 2.50e6;
/// Enthalpy of sublimation of ice, J/kg: what condensing and freezing give off one after the other, so that ice takes up in
/// melting what it gave off in freezing (steam tables 2.835 MJ/kg at 0 °C, from memory).
pub(crate) const SUBLIMATION_J_KG: f64 = CONDENSATION_J_KG + FUSION_J_KG;
/// Density of very young frost on a dry cold plate, kg/m³.
const YOUNG_DENSITY_KG_M3: f64 = 25.0;
/// Density of the first ice on a coil that is still wet elsewhere, kg/m³: it soaks up condensate (typ.).
const WET_COIL_DENSITY_KG_M3: f64 = 260.0;
/// Density at which ageing stops, kg/m³ (dense frost on a wet coil; typ.).
pub(crate) const OLD_DENSITY_KG_M3: f64 = 400.0;
/// Coefficient of Hermes 2014: density = 2.2 Ja^-1.5 sqrt(t), t in s (from memory).
const HERMES: f64 = 2.2;

/// Ice below this mass is a mixture of all that froze, lighter than before or not, kg.
pub(crate) const FIRST_ICE_KG: f64 = 1.0e-3;
/// Ice below this mass is gone, kg: a tenth of a gram is a few drops.
const LAST_ICE_KG: f64 = 1.0e-4;
/// Time in which ice spreads to where it is cold, s (typ.).
const SPREAD_TIME_S: f64 = 120.0;
/// Time in which the thick end of the zone closes, s (typ.; far shorter than the hours in which it grows).
const CLOSE_TIME_S: f64 = 60.0;
/// Thinnest mean layer of ice in the zone, as a share of half the gap between fins (typ., 15 micrometres: a film of
/// frozen droplets). What is thinner draws together.
pub(crate) const THINNEST_SHARE: f64 = 0.02;
/// How the closed part opens while it melts: its share of the coil goes with its mass to this power (1: slices that melt
/// away one after the other; towards 0: it thins from its face and opens all at once at the end). Chosen within that range so
/// that a block is gone in the one to two hours that the trade gives for the blower alone (shop experience, no source).
const OPENING_EXPONENT: f64 = 0.28;

/// Water that stays on wet fins, kg/m² of fin surface. It gives 0.9 kg on the 22 m² of three tons. A coil wetted at rating A takes
/// some 1000 s of its latent capacity before the first water drains (EnergyPlus, Input Output Reference, suggested value of the
/// "nominal time for condensate removal to begin", after Henderson and Rengarajan 1996; from memory): 0.9 to 1.1 kg.
/// Range of wetted samples of fins 0.03 to 0.16 kg/m² (Korte and Jacobi 2001, from memory).
const HELD_WATER_KG_M2: f64 = 0.04;
/// Time in which water beyond that runs off, s (typ.).
const DRAIN_TIME_S: f64 = 60.0;
/// Share of the water a coil can hold above which its fins look wet (typ.).
const LOOKS_WET_SHARE: f64 = 0.05;
/// Ice above which a coil is called iced, kg (typ.; what an eye sees).
const LOOKS_ICED_KG: f64 = 0.01;

/// What an eye sees on the coil.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum CoilStage {
    /// No ice, no water.
    #[default]
    Dry,
    /// Free of ice, water on the fins.
    Wet,
    /// Ice that stays or grows.
    Iced,
    /// Ice that melts.
    Melting,
}

/// Water by where it came from and went, kg. `from_air = ice + held + drained`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilWater {
    /// Taken from the air less what went back to it, since the start.
    pub from_air_kg: f64,
    /// On the coil as ice.
    pub ice_kg: f64,
    /// On the coil as water.
    pub held_kg: f64,
    /// Run off to the pan since the start.
    pub drained_kg: f64,
}

/// Density of new ice, kg/m³, beside a share `wet_share` of the wetted surface that is not freezing.
pub(crate) fn fresh_density_kg_m3(wet_share: f64) -> f64 {
    let wet = wet_share.clamp(0.0, 1.0);
    YOUNG_DENSITY_KG_M3 + (WET_COIL_DENSITY_KG_M3 - YOUNG_DENSITY_KG_M3) * wet
}

/// State of ice and water on the coil.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Frost {
    /// Ice, kg.
    pub mass_kg: f64,
    /// Share of the coil that carries it, 0 to 1.
    pub iced_share: f64,
    /// Share of the coil that it has closed, 0 to `iced_share`.
    pub closed_share: f64,
    /// Mean density, kg/m³.
    pub density_kg_m3: f64,
    /// Water on the fins, kg.
    pub water_kg: f64,
    /// Water taken from the air less what went back since the start, kg.
    pub from_air_kg: f64,
    /// Water that has drained to the pan since the start, kg.
    pub drained_kg: f64,
}

impl Default for Frost {
    fn default() -> Self {
        Frost {
            mass_kg: 0.0,
            iced_share: 0.0,
            closed_share: 0.0,
            density_kg_m3: YOUNG_DENSITY_KG_M3,
            water_kg: 0.0,
            from_air_kg: 0.0,
            drained_kg: 0.0,
        }
    }
}

/// What the ice leaves open, in shares of the coil.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shape {
    pub iced: f64,
    pub closed: f64,
    /// Of the zone between: what is left of its air passage, and of the film on its surface.
    pub zone_passage: f64,
    pub zone_film: f64,
}

impl Shape {
    /// Passage of the whole coil that is open, 0 to 1.
    pub(crate) fn open_share(&self) -> f64 {
        1.0 - self.iced + (self.iced - self.closed) * self.zone_passage
    }
}

/// What ice and water take and give at one instant.
#[derive(Clone, Copy, Debug)]
pub(crate) struct IceFlows {
    /// Vapour that becomes ice, kg/s.
    pub frozen_kg_s: f64,
    /// Vapour that becomes water on the fins, kg/s; negative where it evaporates.
    pub condensed_kg_s: f64,
    /// Heat into the melting zone and into the melting face of the closed part, W.
    pub zone_melt_w: f64,
    pub block_melt_w: f64,
    /// Share of the coil that is below freezing.
    pub cold_share: f64,
    /// Share of the wetted part that is not.
    pub wet_share: f64,
}

/// Rates of ice and water, each in its unit per second.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FrostRates {
    pub mass_kg_s: f64,
    /// What of it is new ice.
    pub grown_kg_s: f64,
    pub iced_1_s: f64,
    pub closed_1_s: f64,
    pub water_kg_s: f64,
    pub drained_kg_s: f64,
}

/// What happens to water beyond what the fins hold, kg/s.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Overflow {
    pub freezes_kg_s: f64,
    pub drains_kg_s: f64,
}

impl Frost {
    /// Ice of this density that would close the whole coil, kg.
    fn whole_block_kg(&self, data: &Evaporator) -> f64 {
        self.density_kg_m3 * data.fin_area_m2 * 0.5 * data.fin_gap_m
    }

    /// Share of all the space between the fins that is filled.
    fn fill(&self, data: &Evaporator) -> f64 {
        (self.mass_kg / self.whole_block_kg(data)).min(1.0)
    }

    /// What is left open.
    pub(crate) fn shape(&self, data: &Evaporator) -> Shape {
        let (iced, closed) = (self.iced_share, self.closed_share);
        let zone = iced - closed;
        if zone <= 1.0e-9 {
            return Shape { iced, closed, zone_passage: 0.0, zone_film: 0.0 };
        }
        // Thickness at the thick end of the wedge over half the gap; means over a wedge of the passage (slot flow falls
        // faster than the gap, with its power 1.5) and of the film (which goes with the root of what is open).
        let thick = (2.0 * (self.fill(data) - closed).max(0.0) / zone).clamp(1.0e-6, 1.0);
        let left = 1.0 - thick;
        let root = libm::sqrt(left);
        Shape {
            iced,
            closed,
            zone_passage: (1.0 - left * left * root) / (2.5 * thick),
            zone_film: (1.0 - left * root) / (1.5 * thick),
        }
    }

    /// Water that the fins can hold, kg.
    pub(crate) fn most_water_kg(data: &Evaporator) -> f64 {
        HELD_WATER_KG_M2 * data.fin_area_m2
    }

    /// Share of the fins under water from which it evaporates. Between a film that shrinks from its edges and one that
    /// keeps its surface to the end; the decay of measured coils is as gradual (Shirey and Henderson 2004).
    pub(crate) fn wet_share(&self, data: &Evaporator) -> f64 {
        let held = (self.water_kg / Self::most_water_kg(data)).clamp(0.0, 1.0);
        held * (2.0 - held)
    }

    /// Water beyond what the warm part of the coil holds runs off there and freezes where it is cold.
    pub(crate) fn overflow(&self, data: &Evaporator, cold_share: f64) -> Overflow {
        let holds = Self::most_water_kg(data) * (1.0 - cold_share);
        let excess = (self.water_kg - holds).max(0.0) / DRAIN_TIME_S;
        Overflow { freezes_kg_s: cold_share * excess, drains_kg_s: (1.0 - cold_share) * excess }
    }

    /// How ice and water change.
    pub(crate) fn rates(&self, data: &Evaporator, flows: &IceFlows) -> FrostRates {
        let overflow = self.overflow(data, flows.cold_share);
        let grown = flows.frozen_kg_s + overflow.freezes_kg_s;
        let (zone_kg_s, block_kg_s) = (flows.zone_melt_w / FUSION_J_KG, flows.block_melt_w / FUSION_J_KG);
        let whole = self.whole_block_kg(data);
        let fill = self.fill(data);
        let (iced, closed) = (self.iced_share, self.closed_share);
        let (mut zone_1_s, mut closed_1_s) = (0.0, 0.0);
        if grown > 0.0 {
            zone_1_s += (flows.cold_share - iced).max(0.0) / SPREAD_TIME_S;
            let closing = (2.0 * fill - iced - closed).max(0.0) / CLOSE_TIME_S;
            // What had thinned from its face and freezes anew draws together.
            let drawing = (closed - fill).max(0.0) / SPREAD_TIME_S;
            closed_1_s += closing - drawing;
            zone_1_s -= closing;
        }
        let zone_fill = (fill - closed).max(0.0);
        if zone_kg_s > 0.0 && zone_fill > 1.0e-9 {
            zone_1_s -= (iced - closed) * zone_kg_s / (zone_fill * whole);
        }
        let block_fill = fill.min(closed);
        if block_kg_s > 0.0 && block_fill > 1.0e-9 {
            closed_1_s -= OPENING_EXPONENT * closed * block_kg_s / (block_fill * whole);
        }
        FrostRates {
            mass_kg_s: grown - zone_kg_s - block_kg_s,
            grown_kg_s: grown,
            iced_1_s: closed_1_s + zone_1_s,
            closed_1_s,
            water_kg_s: flows.condensed_kg_s + zone_kg_s + block_kg_s
                - overflow.freezes_kg_s
                - overflow.drains_kg_s,
            drained_kg_s: overflow.drains_kg_s,
        }
    }

    /// The most of the coil that this ice can cover: closed part and thinnest zone.
    pub(crate) fn most_iced_share(&self, data: &Evaporator) -> f64 {
        self.closed_share + (self.fill(data) - self.closed_share).max(0.0) / THINNEST_SHARE
    }

    /// Go on for `dt_s` at these flows. `jakob` is asked for only where there is ice.
    pub(crate) fn advance(
        &mut self,
        data: &Evaporator,
        flows: &IceFlows,
        jakob: impl FnOnce() -> f64,
        dt_s: f64,
    ) {
        self.from_air_kg += (flows.frozen_kg_s + flows.condensed_kg_s) * dt_s;
        if self.mass_kg <= 0.0 && flows.cold_share <= 0.0 {
            // The usual coil: water only.
            let drained = self.overflow(data, 0.0).drains_kg_s * dt_s;
            self.water_kg += flows.condensed_kg_s * dt_s - drained;
            self.drained_kg += drained;
            return;
        }
        let rates = self.rates(data, flows);
        let melted = (rates.grown_kg_s - rates.mass_kg_s) * dt_s;
        self.grow(rates.grown_kg_s * dt_s, flows.wet_share);
        self.mass_kg -= melted;
        self.water_kg += rates.water_kg_s * dt_s;
        self.drained_kg += rates.drained_kg_s * dt_s;
        self.closed_share = (self.closed_share + rates.closed_1_s * dt_s).clamp(0.0, 1.0);
        let iced = self.iced_share + rates.iced_1_s * dt_s;
        self.iced_share = iced.min(self.most_iced_share(data)).clamp(self.closed_share, 1.0);
        if self.mass_kg < LAST_ICE_KG && rates.mass_kg_s <= 0.0 {
            self.water_kg += self.mass_kg;
            (self.mass_kg, self.iced_share, self.closed_share) = (0.0, 0.0, 0.0);
        } else {
            let frozen = self.frozen_share(flows.cold_share);
            self.age(self.ageing_kg_m3_s(jakob()) * frozen, dt_s);
        }
    }

    /// Shares that went on in a straight line are shares again, and the last ice did not melt twice.
    pub(crate) fn stay_within(&mut self) {
        if self.mass_kg < 0.0 {
            self.water_kg += self.mass_kg;
            self.mass_kg = 0.0;
        }
        self.closed_share = self.closed_share.clamp(0.0, 1.0);
        self.iced_share = self.iced_share.clamp(self.closed_share, 1.0);
        self.density_kg_m3 = self.density_kg_m3.clamp(YOUNG_DENSITY_KG_M3, OLD_DENSITY_KG_M3);
    }

    /// Share of the ice that is below freezing.
    pub(crate) fn frozen_share(&self, cold_share: f64) -> f64 {
        (cold_share / self.iced_share.max(1.0e-6)).min(1.0)
    }

    /// Add ice. `wet_share` is the share of the wetted surface that is not freezing: new ice beside it starts denser.
    fn grow(&mut self, added_kg: f64, wet_share: f64) {
        if added_kg <= 0.0 {
            return;
        }
        let fresh = fresh_density_kg_m3(wet_share);
        // Volumes add. The first ice is a mixture of what froze while the coil grew cold; later only soaked ice beside
        // older, lighter frost still counts.
        if fresh > self.density_kg_m3 || self.mass_kg < FIRST_ICE_KG {
            let volume = self.mass_kg / self.density_kg_m3 + added_kg / fresh;
            self.density_kg_m3 = (self.mass_kg + added_kg) / volume;
        }
        self.mass_kg += added_kg;
    }

    fn age(&mut self, rise_kg_m3_s: f64, dt_s: f64) {
        self.density_kg_m3 = (self.density_kg_m3 + rise_kg_m3_s * dt_s).min(OLD_DENSITY_KG_M3);
    }

    /// Ageing of the density, kg/(m³ s): d(rho)/dt of Hermes' square root law, by the density itself instead of by age.
    /// The air's modified Jakob number is cp (t_dew - t_surface) / (i_sub (w_air - w_surface)).
    pub(crate) fn ageing_kg_m3_s(&self, jakob: f64) -> f64 {
        // The age goes with the number to the power -1.5, its square with the power -3.
        let jakob = jakob.clamp(0.3, 3.0);
        HERMES * HERMES / (2.0 * self.density_kg_m3 * jakob * jakob * jakob)
    }

    /// What an eye sees, with the share of the ice that is below freezing.
    pub(crate) fn stage(&self, data: &Evaporator, frozen_share: f64) -> CoilStage {
        if self.mass_kg > LOOKS_ICED_KG {
            if frozen_share < 0.5 { CoilStage::Melting } else { CoilStage::Iced }
        } else if self.water_kg > LOOKS_WET_SHARE * Self::most_water_kg(data) {
            CoilStage::Wet
        } else {
            CoilStage::Dry
        }
    }

    /// Where the water of the coil came from and went.
    pub(crate) fn water(&self) -> CoilWater {
        CoilWater {
            from_air_kg: self.from_air_kg,
            ice_kg: self.mass_kg,
            held_kg: self.water_kg,
            drained_kg: self.drained_kg,
        }
    }

    /// The same coil with its ice gone, as wet as its fins can be.
    pub(crate) fn thawed(&self, data: &Evaporator) -> Frost {
        if self.mass_kg <= 0.0 {
            return *self;
        }
        Frost { water_kg: Self::most_water_kg(data), ..Frost::default() }
    }
}

/// Density of frost that has grown on a cold plate in still room conditions for `age_s`, kg/m³: the ageing of the coil's frost,
/// alone. Air in °C with its relative humidity (0 to 1), plate in °C, below freezing.
pub fn frost_density_kg_m3(air_c: f64, relative_humidity: f64, plate_c: f64, age_s: f64) -> f64 {
    let atmosphere_pa = moist_air::STANDARD_PRESSURE_PA;
    let w_air = moist_air::humidity_ratio_from_relative_humidity(air_c, relative_humidity, atmosphere_pa);
    let w_plate = moist_air::saturation_humidity_ratio(plate_c, atmosphere_pa);
    let dew_c = moist_air::dew_point_c(w_air, atmosphere_pa);
    // The modified Jakob number, with the heat capacity of dry air.
    let jakob = 1006.0 * (dew_c - plate_c) / (SUBLIMATION_J_KG * (w_air - w_plate));
    let mut frost = Frost::default();
    for _ in 0..libm::round(age_s) as u64 {
        frost.grow(1.0e-4, 0.0);
        frost.age(frost.ageing_kg_m3_s(jakob), 1.0);
    }
    frost.density_kg_m3
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Frost density against Hermes 2014: room air 75 °F 50 %, plate at -5 °C; 59 kg/m³ at 10 min and
    /// 146 kg/m³ at 60 min, band 30 % (values from memory).
    #[test]
    fn density_follows_the_published_square_root_law() {
        for (minutes, published) in [(10.0, 59.0), (60.0, 146.0)] {
            let ours = frost_density_kg_m3(23.9, 0.5, -5.0, 60.0 * minutes);
            approx::assert_relative_eq!(ours, published, max_relative = 0.30);
        }
    }

    fn coil() -> Evaporator {
        crate::System::built_in("split-3-ton-r410a-txv").expect("built in").evaporator
    }

    /// Ice that a long stride took below nothing is water that there is less of, and nothing is made of it that is no number.
    #[test]
    fn less_than_no_ice_is_none() {
        let data = coil();
        let mut frost = Frost { mass_kg: -2.0e-7, water_kg: 0.3, iced_share: 1.0e-8, ..Frost::default() };
        let all_kg = frost.mass_kg + frost.water_kg;
        frost.stay_within();
        assert_eq!(frost.mass_kg, 0.0);
        assert_eq!(frost.water_kg, all_kg);
        frost.advance(&data, &FREEZING, || 1.0, 0.25);
        assert!(
            frost.mass_kg > 0.0 && frost.iced_share.is_finite() && frost.water_kg.is_finite(),
            "{frost:?}"
        );
    }

    const FREEZING: IceFlows = IceFlows {
        frozen_kg_s: 1.0e-3,
        condensed_kg_s: 0.0,
        zone_melt_w: 0.0,
        block_melt_w: 0.0,
        cold_share: 0.4,
        wet_share: 0.5,
    };

    /// Ice on the cold part closes it from its cold end; when the cold moves on, the front moves, and what is closed stays
    /// closed. Melting from the face opens slowly at first; mass goes to water and to the pan, to the gram.
    #[test]
    fn ice_closes_moves_on_and_opens() {
        let data = coil();
        let mut frost = Frost::default();
        let mut most_closed = 0.0;
        for second in 0..14_400 {
            let cold_share = if second < 3600 { 0.4 } else { 1.0 };
            // Vapour reaches what is cold and open.
            let frozen_kg_s = 1.5e-3 * (cold_share - frost.closed_share).max(0.0);
            frost.advance(&data, &IceFlows { frozen_kg_s, cold_share, ..FREEZING }, || 0.6, 1.0);
            assert!(frost.closed_share >= most_closed - 1.0e-9, "{second} s: {frost:?}");
            most_closed = frost.closed_share;
            if second == 3599 {
                assert!((0.15..=0.4).contains(&frost.closed_share), "{frost:?}");
                approx::assert_abs_diff_eq!(frost.iced_share, 0.4, epsilon = 0.02);
            }
        }
        assert!(frost.closed_share > 0.8, "{frost:?}");
        let full_kg = frost.mass_kg;
        let mut seconds = 0;
        while frost.mass_kg > 0.5 * full_kg {
            let flows = IceFlows { frozen_kg_s: 0.0, cold_share: 0.0, block_melt_w: 400.0, ..FREEZING };
            frost.advance(&data, &flows, || 0.6, 1.0);
            seconds += 1;
        }
        assert!(frost.closed_share > 0.6, "{frost:?}");
        approx::assert_relative_eq!(
            f64::from(seconds) * 400.0,
            0.5 * full_kg * FUSION_J_KG,
            max_relative = 0.01
        );
        let water = frost.water();
        approx::assert_abs_diff_eq!(
            water.from_air_kg,
            water.ice_kg + water.held_kg + water.drained_kg,
            epsilon = 1e-9
        );
    }
}

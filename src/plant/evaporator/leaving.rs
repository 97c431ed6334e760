//! Air as it leaves the coil.

use media::moist_air;
use media::units::celsius_from_kelvin;

use super::boils::Boundary;
use crate::draught::MoistAir;
use crate::frost::CONDENSATION_J_KG;
use crate::rows::{Marched, ROWS};

/// Air behind the coil, all of it mixed.
pub(super) struct Leaving {
    pub(super) air_k: f64,
    pub(super) humidity_ratio: f64,
    pub(super) sensible_w: f64,
    /// Water that the mixture could not hold, kg/s.
    pub(super) rain_kg_s: f64,
}

impl Leaving {
    /// A straight line from moist air to a cold surface can pass above saturation, and so can a mixture of cold saturated and
    /// warm air. What is over rains out on the coil, and its heat stays in the air.
    ///
    /// While the blower runs down the draught of a coil at rest is part of the mixture, and so is the least air that can bring
    /// what comes through the cabinet: a trickle that took all of it would leave colder than the coil.
    pub(super) fn of(
        around: &Boundary<'_>,
        blown_kg_s: f64,
        drawn_kg_s: f64,
        cp: f64,
        marched: &Marched,
        superheat_w: f64,
    ) -> Leaving {
        let sensible_w = marched.sensible_w + superheat_w;
        let air_kg_s = blown_kg_s + drawn_kg_s;
        if blown_kg_s * cp <= 1.0 {
            return Leaving {
                air_k: around.room_k,
                humidity_ratio: around.room_humidity_ratio,
                sensible_w,
                rain_kg_s: 0.0,
            };
        }
        let air_k = around.room_k - sensible_w / (air_kg_s * cp);
        let water = (marched.frozen_kg_s + marched.condensed_kg_s) / air_kg_s;
        let w = (around.room_humidity_ratio - water).max(1.0e-5);
        let (wall_k, w_wall, slope) = marched.saturation;
        let steps = if w > w_wall + slope * (air_k - wall_k) { 2 } else { 0 };
        let mut rain = 0.0;
        for _ in 0..steps {
            let t_c = celsius_from_kelvin(air_k + rain * CONDENSATION_J_KG / cp);
            let saturated = moist_air::saturation_humidity_ratio(t_c, moist_air::STANDARD_PRESSURE_PA);
            let over = w - rain - saturated;
            if rain <= 0.0 && over <= 0.0 {
                break;
            }
            let slope = saturated * 4098.0 / ((t_c + 237.3) * (t_c + 237.3));
            rain += over / (1.0 + slope * CONDENSATION_J_KG / cp);
        }
        Leaving {
            air_k: air_k + rain * CONDENSATION_J_KG / cp,
            humidity_ratio: w - rain,
            sensible_w: sensible_w - rain * air_kg_s * CONDENSATION_J_KG,
            rain_kg_s: rain * air_kg_s,
        }
    }
}

/// Air that so slowly leaves the fins that it is as cold as they are: dried to their saturation, or humid from the water on them.
pub(super) fn off_fins(w_room: f64, wall_k: f64, wet_share: f64) -> MoistAir {
    let saturated =
        moist_air::saturation_humidity_ratio(celsius_from_kelvin(wall_k), moist_air::STANDARD_PRESSURE_PA);
    let follows = if saturated < w_room { 1.0 } else { wet_share };
    MoistAir { dry_bulb_k: wall_k, humidity_ratio: w_room + follows * (saturated - w_room) }
}

/// Mean temperature of the walls, K.
pub(crate) fn mean_k(walls_k: &[f64; ROWS]) -> f64 {
    walls_k.iter().sum::<f64>() / ROWS as f64
}

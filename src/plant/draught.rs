//! The draught of a coil whose blower stands: cold air falls out of an upflow air handler through filter and return grille, and
//! room air follows it down through supplies and wheel.

use media::moist_air::STANDARD_PRESSURE_PA;
use serde::{Deserialize, Serialize};

use crate::air::{Passages, Way, flow_at};
use crate::rows::ROWS;
use crate::system::System;

/// Height of the cold column from the middle of the coil down to the return grille, m (typ. of an upflow air handler on a
/// plenum); a warm column above the coil, up to the first bend of the supply, is about as high.
const COLUMN_M: f64 = 1.0;
/// Acceleration of gravity, m/s².
const GRAVITY_M_S2: f64 = 9.81;
/// Difference of pressure between return and registers that wind, doors and the house's own stack keep up, now this way, now that,
/// Pa (typ. of rooms with open doors, some tenths at most). It alone moves air through a coil whose air weighs as much as the room's:
/// one that is wet and a degree colder.
const HOUSE_PA: f64 = 0.1;
/// More than the weight that a column of air can have over the room's, Pa: 1.3 kg/m³ over 1 m, a third heavier at 90 K colder.
const MOST_PA: f64 = 5.0;
/// Viscosity of air at 10 °C, Pa s (any table of air's properties, from memory).
const VISCOSITY_PA_S: f64 = 1.8e-5;
/// Depth of a row in the direction of the air, m (typ. of tubes of 3/8 in).
const ROW_DEPTH_M: f64 = 0.022;

/// What the draught has to pass and to overcome.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Draught {
    /// Resistance of the whole way: pressure over flow, Pa s/m³, and over its square, Pa s²/m⁶.
    linear: f64,
    square: f64,
    /// Pressure of the turning wheel, Pa. What the draught cannot overcome blows it away.
    against_pa: f64,
}

impl Draught {
    /// The way that the blower's air takes too, with the wheel that stands in it. The blower's law takes the coil's drop as square,
    /// which holds at its flows; the part of it that rubs along the fins is what is left at a thirtieth of them.
    pub(crate) fn of(system: &System, passages: &Passages, wheel_pa: f64) -> Draught {
        let way = Way::of(&system.air, passages);
        let coil = &system.evaporator;
        // Between parallel plates the drop is 12 x viscosity x speed x depth over the square of the gap, and the space between
        // the fins, half their surface times the gap, over the depth is the area.
        let depth_m = ROWS as f64 * ROW_DEPTH_M;
        let gap_m = coil.fin_gap_m;
        let rubs = 24.0 * VISCOSITY_PA_S * depth_m * depth_m / (coil.fin_area_m2 * gap_m * gap_m * gap_m);
        let rated = system.air.rated_flow_m3_s;
        let rubs = rubs.min(system.air.coil_drop_pa / rated) / (passages.coil_share * passages.coil_share);
        // Together they drop at the rated flow what the coil is rated with.
        Draught { linear: way.linear() + rubs, square: way.square() - rubs / rated, against_pa: wheel_pa }
    }

    /// Whether the wheel makes more pressure than any column of cold air has weight: nothing needs to be reckoned then.
    pub(crate) fn is_blown_away(&self) -> bool {
        self.against_pa > MOST_PA
    }

    /// Flow, m³/s, without its direction: down from air that is heavier than the room's, up from lighter air. What goes around the
    /// fins stays as it is.
    pub(crate) fn flow_m3_s(&self, room: &MoistAir, off_fins: &MoistAir, through_fins: f64) -> f64 {
        if self.square <= 0.0 {
            return 0.0;
        }
        let heavier = through_fins * (room.virtual_k() / off_fins.virtual_k() - 1.0);
        let weight_pa = GRAVITY_M_S2 * COLUMN_M * room.kg_m3() * heavier;
        let pressure_pa = libm::hypot(weight_pa, HOUSE_PA) - self.against_pa;
        flow_at(pressure_pa.max(0.0), self.linear, self.square)
    }
}

/// Air by temperature, K, and humidity ratio.
#[derive(Clone, Copy, Debug)]
pub(crate) struct MoistAir {
    pub dry_bulb_k: f64,
    pub humidity_ratio: f64,
}

impl MoistAir {
    /// Temperature of dry air of the same density, K: vapour weighs 0.622 of air.
    fn virtual_k(&self) -> f64 {
        self.dry_bulb_k * (1.0 + self.humidity_ratio / 0.622) / (1.0 + self.humidity_ratio)
    }

    fn kg_m3(&self) -> f64 {
        STANDARD_PRESSURE_PA / (287.055 * self.virtual_k())
    }
}

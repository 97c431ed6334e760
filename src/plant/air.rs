//! Air side: the blower's curve met with filter, ducts and coil in closed form.
//!
//! The air handler draws through: return duct, filter, coil, blower, supply. So everything up to the blower stands below the
//! room's pressure and only the supply above it, and the heat of the blower comes after the coil.

use serde::{Deserialize, Serialize};

use crate::FilterSlot;
use crate::fault::Effects;
use crate::kept::Kept;
use crate::system::{AirSide, Evaporator};

/// Share of filter loading above which the medium collapses onto the coil.
const COLLAPSE_FROM: f64 = 0.9;
/// Share of the coil face that a wholly collapsed filter covers.
const COLLAPSE_COVERS: f64 = 0.75;

/// Result of the air path at one instant.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct AirPath {
    pub flow_m3_s: f64,
    pub statics: Statics,
    pub blower_power_w: f64,
    /// Pressure that the wheel makes without any flow, Pa.
    pub wheel_pa: f64,
}

/// Static pressures along the way of the air, against the room, Pa. Ducts end in the room, and no pressure is won back
/// from the speed of the air, so they are the sums of the drops up to there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Statics {
    /// In the return plenum, before the filter.
    pub return_pa: f64,
    /// Behind the filter, before the coil.
    pub coil_inlet_pa: f64,
    /// Behind the coil, before the blower.
    pub coil_outlet_pa: f64,
    /// Behind the blower.
    pub supply_pa: f64,
}

/// What the air has to pass.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Passages {
    /// Resistance of the filter over that of a clean one; 0 without a filter.
    pub filter_resistance: f64,
    /// The same of the medium that lies before the coil; 0 where none does.
    pub mat_resistance: f64,
    /// Share of the coil's passage that is open.
    pub coil_share: f64,
    /// Share of the area of the return duct that is open.
    pub return_share: f64,
    /// Share of the area of the supplies that is open.
    pub supply_share: f64,
    /// Air that the wheel moves at one speed against one way, over that of a clean one.
    pub wheel_share: f64,
}

/// Share of the coil face that the medium of a collapsed filter covers, 0 to 1.
fn covered_share(loading: f64) -> f64 {
    ((loading - COLLAPSE_FROM) / (1.0 - COLLAPSE_FROM)).clamp(0.0, 1.0) * COLLAPSE_COVERS
}

/// Resistance of a filter over that of a clean one, from the share of its open area that is lost. The drop at
/// one flow goes with the inverse square of what is open; a collapsed one lets air past, so it is bounded.
fn filter_factor(loading: f64) -> f64 {
    let open = (1.0 - loading.min(COLLAPSE_FROM)).max(0.05);
    1.0 / (open * open)
}

/// Filter slot and coil face, beside dirt and ice: what a fault brought and what stays there when the fault is gone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct FilterState {
    pub slot: Slot,
    /// Loading of the filter whose medium lies on the coil, 0 to 1; 0 where none does.
    pub on_coil: f64,
}

/// The filter slot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Slot {
    /// As the faults have it: a filter with their loading, or none.
    #[default]
    AsFound,
    /// A filter that was fitted since, with the loading that a fault has brought since.
    Renewed,
    /// The frame of a filter whose medium has torn off.
    Frame,
    /// Nothing.
    Empty,
}

/// What is in the filter slot.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum InFilterSlot {
    /// No filter.
    Nothing,
    /// The frame of a filter; its medium has torn off it.
    Frame,
    /// A filter.
    Filter {
        /// Share of its open area that is lost, 0 to 1.
        loading: f64,
    },
}

impl FilterState {
    /// What the slot holds under these faults.
    pub(crate) fn in_slot(&self, effects: &Effects) -> InFilterSlot {
        match self.slot {
            Slot::Empty => InFilterSlot::Nothing,
            Slot::AsFound if effects.filter_missing => InFilterSlot::Nothing,
            Slot::Frame => InFilterSlot::Frame,
            Slot::AsFound | Slot::Renewed if effects.filter_loading > COLLAPSE_FROM => InFilterSlot::Frame,
            Slot::AsFound | Slot::Renewed => InFilterSlot::Filter { loading: effects.filter_loading },
        }
    }

    /// A filter that is loaded too far tears; its medium goes onto the coil, its frame stays.
    pub(crate) fn tear(&mut self, effects: &Effects) {
        if self.slot != Slot::Frame && self.in_slot(effects) == InFilterSlot::Frame {
            self.on_coil = effects.filter_loading;
            self.slot = Slot::Frame;
        }
    }

    /// Share of the coil's face that torn medium covers, 0 to 1.
    pub(crate) fn covered_share(&self) -> f64 {
        covered_share(self.on_coil)
    }

    /// Resistance of what is in the slot, and of the medium before the coil, over that of a clean filter. The torn medium is as
    /// clogged as it was in its frame; where it is drawn tight onto the fins, nothing passes at all (the covered share).
    pub(crate) fn resistances(&self, effects: &Effects, handling: FilterSlot) -> (f64, f64) {
        let slot = match (handling, self.in_slot(effects)) {
            (FilterSlot::Fitted, InFilterSlot::Filter { loading }) => filter_factor(loading),
            _ => 0.0,
        };
        (slot, if self.on_coil > 0.0 { filter_factor(self.on_coil) } else { 0.0 })
    }
}

/// Airflow at a blower speed, filter state and coil passage.
///
/// Blower static falls with the square of the flow (typ. of a forward-curved wheel on a PSC motor); blades full of dirt
/// throw less air at less pressure, as if the wheel turned slower (fan laws; any handbook); ducts and
/// coil rise with the square, the filter with flow to the power one (laminar medium) at half its rated
/// drop and with the square for the other half. Everything is a quadratic with one positive root.
pub(crate) fn air_path(data: &AirSide, speed: f64, passages: &Passages) -> AirPath {
    if speed < 1.0e-3 {
        return AirPath::default();
    }
    let way = Way::of(data, passages);
    let turns = passages.wheel_share * speed;
    let p = data.blower_shutoff_pa * turns * turns;
    let flow = flow_at(p, way.linear(), way.square());
    let return_pa = -way.return_square * flow * flow;
    let coil_inlet_pa = return_pa - (way.filter_linear * flow + way.filter_square * flow * flow);
    AirPath {
        flow_m3_s: flow,
        statics: Statics {
            return_pa,
            coil_inlet_pa,
            coil_outlet_pa: coil_inlet_pa - (way.mat_linear * flow + way.coil_square * flow * flow),
            supply_pa: way.supply_square * flow * flow,
        },
        blower_power_w: (data.blower_power_shutoff_w + data.blower_power_slope_w_s_m3 * flow)
            * speed
            * speed
            * speed,
        wheel_pa: p,
    }
}

/// Blower speed at which [`air_path`] has a flow, m³/s.
pub(crate) fn speed_at(data: &AirSide, flow_m3_s: f64, passages: &Passages) -> f64 {
    let way = Way::of(data, passages);
    let pressure_pa = (way.linear() + way.square() * flow_m3_s) * flow_m3_s;
    libm::sqrt(pressure_pa / data.blower_shutoff_pa) / passages.wheel_share
}

/// Flow through a resistance with a linear and a square part, m³/s: the positive root.
pub(crate) fn flow_at(pressure_pa: f64, linear: f64, square: f64) -> f64 {
    (-linear + libm::sqrt(linear * linear + 4.0 * square * pressure_pa)) / (2.0 * square)
}

/// Resistances along the way of the air: pressure over flow, Pa s/m³, and over its square, Pa s²/m⁶.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Way {
    pub return_square: f64,
    pub supply_square: f64,
    pub filter_linear: f64,
    pub filter_square: f64,
    pub mat_linear: f64,
    /// Coil with the medium before it.
    pub coil_square: f64,
    /// What of the wheel's own pressure is lost in it.
    pub wheel_square: f64,
}

impl Way {
    pub(crate) fn of(data: &AirSide, passages: &Passages) -> Way {
        let rated = data.rated_flow_m3_s;
        let square = |drop: f64| drop / (rated * rated);
        let through = |share: f64| 1.0 / (share * share);
        let clean_linear = 0.5 * data.filter_drop_pa / rated;
        let clean_square = 0.5 * square(data.filter_drop_pa);
        let coil = square(data.coil_drop_pa) * through(passages.coil_share);
        Way {
            return_square: square(data.duct_drop_pa) * data.return_share * through(passages.return_share),
            supply_square: square(data.duct_drop_pa)
                * (1.0 - data.return_share)
                * through(passages.supply_share),
            filter_linear: clean_linear * passages.filter_resistance,
            filter_square: clean_square * passages.filter_resistance,
            mat_linear: clean_linear * passages.mat_resistance,
            coil_square: coil + clean_square * passages.mat_resistance,
            wheel_square: data.blower_shutoff_pa / (data.blower_free_m3_s * data.blower_free_m3_s),
        }
    }

    pub(crate) fn linear(&self) -> f64 {
        self.filter_linear + self.mat_linear
    }

    pub(crate) fn square(&self) -> f64 {
        self.wheel_square + self.coil_square + self.return_square + self.supply_square + self.filter_square
    }
}

/// What dirt and torn filter medium leave of the coil's face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Face {
    /// Its passage, as a share of the clean one.
    pub passage: f64,
    /// Its conductance to the air that passes, as a share of the clean one.
    pub film: f64,
}

impl Default for Face {
    fn default() -> Face {
        Face { passage: 1.0, film: 1.0 }
    }
}

/// Share of the conductance that a mat of lint takes at most. Fouled coils lose some per cent of it while their drop
/// of pressure doubles or trebles (Yang, Braun & Groll 2007, Int. J. Refrigeration 30, from memory).
const MAT_INSULATES: f64 = 0.15;

impl Face {
    /// Lint lies thin over all of the face: it is in the way of the air and hardly of the heat. Torn medium is drawn tight onto
    /// the share that it covers, and what lies under it meets no air.
    pub(crate) fn of(covered_share: f64, dirt_leaves: f64) -> Face {
        let bare = 1.0 - covered_share;
        Face { passage: bare * dirt_leaves, film: bare * (1.0 - MAT_INSULATES * (1.0 - dirt_leaves)) }
    }
}

/// Passage around the coil, as a share of its own clean one: slits at its edges and blank-offs, the gap above the pan (typ.:
/// 1 mm along 2 m of edges on three tons; a tight case has none, a sloppy one 0.06). What comes this way meets no fins.
const AROUND_SHARE: f64 = 0.02;

/// Passage of the coil and around it, over that of a clean coil: what frost leaves of the part that neither dirt nor a
/// collapsed filter covers. A block of ice shuts the coil; the fan then pulls what comes around it.
pub(crate) fn coil_passage(frost_open_share: f64, face: Face) -> f64 {
    (frost_open_share * face.passage + AROUND_SHARE) / (1.0 + AROUND_SHARE)
}

/// Share of the air that goes through the coil and not around it, over that of a clean coil, whose conductances were rated with
/// what passes around it.
pub(crate) fn through_share(frost_open_share: f64, face: Face) -> f64 {
    let open = frost_open_share * face.passage;
    open * (1.0 + AROUND_SHARE) / (open + AROUND_SHARE)
}

/// Film conductance between coil wall and air at an airflow, W/K.
pub(crate) fn air_film_w_k(
    kept: &mut Kept,
    data: &Evaporator,
    rated_m3_s: f64,
    flow_m3_s: f64,
    swept_share: f64,
) -> f64 {
    // Exponent 0.55, typ. of wavy and slit fins between 1 and 2.5 m/s.
    data.air_ua_w_k * kept.power((flow_m3_s / rated_m3_s).max(1.0e-4), 0.55) * swept_share
}

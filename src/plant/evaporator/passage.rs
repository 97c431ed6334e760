//! The air's way through the coil: what of the metal it meets, how much passes, and what it exchanges there.

use media::elementary::exp;
use media::moist_air;
use media::units::celsius_from_kelvin;

use super::boils::{Boils, Boundary, CoilFilms};
use super::leaving::{mean_k, off_fins};
use crate::air::{air_film_w_k, through_share};
use crate::draught::MoistAir;
use crate::frost::{Frost, Shape};
use crate::kept::Kept;
use crate::rows::ROWS;
use crate::system::Evaporator;

/// Face that a closed block of ice turns to the air, over the surface of its fins: fins of three rows have some 60 m² for
/// each m² of face. Only the face that the air comes to counts; the other lies in its wake (typ.).
const FACE_OF_FINS: f64 = 1.0 / 60.0;
/// Conductance from the room through the lined cabinet to the coil, which brings no moisture, over the surface of the fins,
/// W/(m² K): 1 m² around the coil with 25 mm of lining and two films, and the film on the coil itself, about 0.5 to 0.7 W/K on
/// three tons with 22 m² (typ.).
const CABINET_W_M2_K: f64 = 0.022;

/// The room's air as it comes to the coil.
pub(super) struct RoomAir {
    pub(super) humidity_ratio: f64,
    pub(super) cp_j_kg_k: f64,
    pub(super) kg_m3: f64,
    /// What the blower moves, kg/s, and its capacity flow, W/K.
    pub(super) kg_s: f64,
    pub(super) capacity_w_k: f64,
}

impl RoomAir {
    pub(super) fn of(around: &Boundary<'_>) -> RoomAir {
        let humidity_ratio = around.room_humidity_ratio;
        let cp_j_kg_k = moist_air::cp_j_kg_k(humidity_ratio);
        let room_c = celsius_from_kelvin(around.room_k);
        let volume_m3_kg =
            moist_air::specific_volume_m3_kg(room_c, humidity_ratio, moist_air::STANDARD_PRESSURE_PA);
        let kg_m3 = 1.0 / volume_m3_kg;
        let kg_s = around.airflow_m3_s * kg_m3;
        RoomAir { humidity_ratio, cp_j_kg_k, kg_m3, kg_s, capacity_w_k: kg_s * cp_j_kg_k }
    }
}

/// Shares of the coil by what the air meets there. Air goes where it is open: wetted part and dry part side by side; at rest and
/// where ice stands, the metal meets it all.
pub(super) struct Met {
    /// Metal that is in touch with boiling refrigerant or under ice.
    pub(super) share: f64,
    /// The part of it without ice.
    pub(super) bare: f64,
    /// The part of it that air can pass.
    pub(super) open_wet: f64,
    /// All that air can pass.
    pub(super) open: f64,
}

impl Met {
    pub(super) fn of(boils: &Boils, shape: &Shape, stillness: f64) -> Met {
        let wetted = boils.wetted();
        let share = (wetted + (1.0 - wetted) * stillness).max(shape.iced).min(1.0);
        let zone = shape.iced - shape.closed;
        let bare = share - shape.iced;
        let open_wet = bare + zone * shape.zone_passage;
        Met { share, bare, open_wet, open: (open_wet + 1.0 - share).max(1.0e-6) }
    }
}

/// How much air passes, by blower and by draught.
pub(super) struct Passage {
    /// Share that goes through the fins, and the same over the open share of the coil.
    pub(super) through_fins: f64,
    pub(super) through: f64,
    /// The draught of a coil at rest, m³/s, kg/s, and its capacity flow, W/K.
    pub(super) draught_m3_s: f64,
    pub(super) draught_kg_s: f64,
    pub(super) drawn_w_k: f64,
    /// What comes through the cabinet, W/K.
    pub(super) cabinet_w_k: f64,
    /// All that the air can bring, W/K.
    pub(super) air_side_w_k: f64,
}

impl Passage {
    pub(super) fn of(
        open: f64,
        air: &RoomAir,
        around: &Boundary<'_>,
        walls_k: &[f64; ROWS],
        frost: &Frost,
        data: &Evaporator,
    ) -> Passage {
        let through_fins = through_share(open, around.face).min(1.0);
        let through = through_fins / open;
        // The draught of a coil at rest: at so little flow air leaves the fins as cold as they are. Ice stops it; a plug anywhere
        // on its way holds it, so it comes back late.
        let draught_m3_s = if around.draught.is_blown_away() {
            0.0
        } else {
            let off_fins = off_fins(air.humidity_ratio, mean_k(walls_k), frost.wet_share(data));
            let room = MoistAir { dry_bulb_k: around.room_k, humidity_ratio: air.humidity_ratio };
            around.draught.flow_m3_s(&room, &off_fins, through_fins)
        };
        let draught_kg_s = draught_m3_s * air.kg_m3;
        let drawn_w_k = draught_kg_s * air.cp_j_kg_k;
        let cabinet_w_k = CABINET_W_M2_K * data.fin_area_m2;
        Passage {
            through_fins,
            through,
            draught_m3_s,
            draught_kg_s,
            drawn_w_k,
            cabinet_w_k,
            air_side_w_k: (air.capacity_w_k + drawn_w_k) * through + cabinet_w_k,
        }
    }
}

/// Films between air and coil, W/K.
pub(super) struct Swept {
    /// Share of the film of the whole coil that icing fins have.
    pub(super) zone_film: f64,
    pub(super) fins_w_k: f64,
    pub(super) draught_w_k: f64,
    /// On the faces of closed ice.
    pub(super) faces_w_k: f64,
}

impl Swept {
    pub(super) fn of(
        data: &Evaporator,
        around: &Boundary<'_>,
        air: &RoomAir,
        passage: &Passage,
        met: &Met,
        shape: &Shape,
        films: &mut CoilFilms,
    ) -> Swept {
        let through = passage.through;
        let zone_film = (shape.iced - shape.closed) * shape.zone_film;
        let swept = (met.bare + zone_film) * around.face.film;
        let film_w_k = |kept: &mut Kept, flow_m3_s: f64| {
            air_film_w_k(kept, data, around.rated_airflow_m3_s, flow_m3_s * through, swept)
        };
        let fins_w_k = film_w_k(&mut films.blown, around.airflow_m3_s);
        let meets_w_k = passage.drawn_w_k * through * met.open_wet;
        let draught_w_k = if meets_w_k > 1.0e-6 {
            let film_w_k = film_w_k(&mut films.draught, passage.draught_m3_s);
            meets_w_k * (1.0 - exp(-(film_w_k / meets_w_k).min(30.0)))
        } else {
            0.0
        };
        let faces_w_k = if shape.closed > 0.0 {
            let face_w_k = |kept: &mut Kept, flow_m3_s: f64| {
                air_film_w_k(kept, data, around.rated_airflow_m3_s, flow_m3_s, FACE_OF_FINS)
            };
            // What of the draught has gone through the fins is as cold as a face.
            face_w_k(&mut films.face, around.airflow_m3_s).min(air.capacity_w_k)
                + face_w_k(&mut films.draught_face, passage.draught_m3_s)
                    .min(passage.drawn_w_k * (1.0 - passage.through_fins))
        } else {
            0.0
        };
        Swept { zone_film, fins_w_k, draught_w_k, faces_w_k }
    }
}

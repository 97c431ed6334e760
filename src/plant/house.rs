//! House and weather: what the air conditioner works against.

use serde::{Deserialize, Serialize};

/// The indoor side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Room {
    /// Return air held at a condition, as in a test chamber.
    Held {
        /// Dry bulb, K.
        dry_bulb_k: f64,
        /// Humidity ratio, kg/kg dry air.
        humidity_ratio: f64,
    },
    /// A house with air, structure and moisture.
    House {
        /// Its parameters.
        model: HouseModel,
        /// Air and furnishings, K.
        air_k: f64,
        /// Walls and slab, K.
        structure_k: f64,
        /// Humidity ratio of the air, kg/kg dry air.
        humidity_ratio: f64,
    },
}

/// Parameters of the house. Typical values of a detached house of about 180 m² (engineering values); what a file leaves out is that of
/// the ordinary house.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct HouseModel {
    /// Heat loss from room air to outdoors through light parts and infiltration, W/K.
    pub air_to_outdoors_w_k: f64,
    /// Heat exchange between room air and structure, W/K.
    pub air_to_structure_w_k: f64,
    /// Heat loss from structure to outdoors, W/K.
    pub structure_to_outdoors_w_k: f64,
    /// Heat capacity of air and furnishings, J/K.
    pub air_capacity_j_k: f64,
    /// Heat capacity of the structure, J/K.
    pub structure_capacity_j_k: f64,
    /// People and appliances, sensible, W.
    pub internal_gain_w: f64,
    /// People, cooking, bathing, kg/s of water vapour.
    pub internal_moisture_kg_s: f64,
    /// Infiltration of outdoor air, kg/s dry air.
    pub infiltration_kg_s: f64,
    /// Moisture storage of air and furnishings, kg dry air equivalent.
    pub moisture_capacity_kg: f64,
    /// Share of the supply air that leaks into the attic, 0 to 1.
    pub supply_leak_share: f64,
    /// Share of the return air that is drawn from the attic, 0 to 1.
    pub return_leak_share: f64,
    /// Conductance between supply ducts and attic, W/K.
    pub duct_to_attic_w_k: f64,
    /// Rise of the attic over the outdoor air per sun on the roof, K per W/m².
    pub attic_rise_k_m2_w: f64,
    /// Share of the solar gain that reaches the house, m² of effective aperture.
    pub solar_aperture_m2: f64,
}

impl Default for HouseModel {
    fn default() -> Self {
        HouseModel {
            air_to_outdoors_w_k: 160.0,
            air_to_structure_w_k: 1200.0,
            structure_to_outdoors_w_k: 170.0,
            air_capacity_j_k: 2.5e6,
            structure_capacity_j_k: 2.4e7,
            internal_gain_w: 700.0,
            internal_moisture_kg_s: 1.0e-4,
            infiltration_kg_s: 0.05,
            moisture_capacity_kg: 2500.0,
            supply_leak_share: 0.04,
            return_leak_share: 0.02,
            duct_to_attic_w_k: 6.0,
            attic_rise_k_m2_w: 0.02,
            solar_aperture_m2: 5.0,
        }
    }
}

/// Weather as a function of plant time: a daily wave of temperature, a constant dew point, a clear-sky sun.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Weather {
    /// Daily mean of the outdoor dry bulb, K.
    pub mean_k: f64,
    /// Half the daily swing, K.
    pub swing_k: f64,
    /// Outdoor dew point, K.
    pub dew_point_k: f64,
    /// Local solar time at plant time zero, h (0 to 24).
    pub start_hour: f64,
    /// Peak of the sun on the effective aperture, W/m².
    pub solar_peak_w_m2: f64,
}

impl Weather {
    /// Constant weather without sun, as in a test chamber.
    pub fn held(outdoor_k: f64) -> Self {
        Weather {
            mean_k: outdoor_k,
            swing_k: 0.0,
            dew_point_k: outdoor_k - 10.0,
            start_hour: 12.0,
            solar_peak_w_m2: 0.0,
        }
    }

    /// Hour of the day at a plant time, h (0 to 24).
    pub fn hour_of_day(&self, time_s: f64) -> f64 {
        let hour = self.start_hour + time_s / 3600.0;
        hour - 24.0 * libm::floor(hour / 24.0)
    }

    /// Outdoor dry bulb, K: warmest at 15 h, coldest at 3 h.
    pub fn outdoor_k(&self, time_s: f64) -> f64 {
        let phase = (self.hour_of_day(time_s) - 15.0) / 24.0 * core::f64::consts::TAU;
        self.mean_k + self.swing_k * libm::cos(phase)
    }

    /// Humidity ratio of the outdoor air, kg/kg dry air.
    pub fn humidity_ratio(&self) -> f64 {
        media::moist_air::saturation_humidity_ratio(
            media::units::celsius_from_kelvin(self.dew_point_k),
            media::moist_air::STANDARD_PRESSURE_PA,
        )
    }

    /// Sun, W/m²: half a sine between 6 h and 18 h.
    pub fn solar_w_m2(&self, time_s: f64) -> f64 {
        let phase = (self.hour_of_day(time_s) - 6.0) / 12.0 * core::f64::consts::PI;
        self.solar_peak_w_m2 * libm::sin(phase).max(0.0)
    }
}

/// The weather at one time.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Outdoors {
    /// Dry bulb, K, and humidity ratio.
    pub air_k: f64,
    pub humidity_ratio: f64,
    pub solar_w_m2: f64,
}

impl Weather {
    pub(crate) fn at(&self, time_s: f64) -> Outdoors {
        Outdoors {
            air_k: self.outdoor_k(time_s),
            humidity_ratio: self.humidity_ratio(),
            solar_w_m2: self.solar_w_m2(time_s),
        }
    }
}

/// What the air conditioner did to the air it moved over a slow step.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct AirMoved {
    /// Heat taken out, less the heat of the blower and of the air handler's metal, W.
    pub cooling_w: f64,
    /// Water taken out, kg/s.
    pub water_kg_s: f64,
    /// Dry air moved, kg/s.
    pub air_kg_s: f64,
    /// Its heat capacity, J/(kg K).
    pub air_cp_j_kg_k: f64,
    /// Supply air, K.
    pub supply_k: f64,
    /// Share of it that the return duct drew in from the attic.
    pub return_leak_share: f64,
    /// Heat that the refrigerant lines took out of the room's air, W.
    pub to_lines_w: f64,
}

impl Room {
    /// Dry bulb, K, and humidity ratio, kg/kg.
    pub fn air(&self) -> (f64, f64) {
        match self {
            Room::Held { dry_bulb_k, humidity_ratio } => (*dry_bulb_k, *humidity_ratio),
            Room::House { air_k, humidity_ratio, .. } => (*air_k, *humidity_ratio),
        }
    }

    /// Structure of the house, K; of a held room its air.
    pub(crate) fn structure_k(&self) -> f64 {
        match self {
            Room::Held { dry_bulb_k, .. } => *dry_bulb_k,
            Room::House { structure_k, .. } => *structure_k,
        }
    }

    /// Puts air, K, structure, K, and humidity ratio; a held room keeps its own.
    pub(crate) fn set_air_k(&mut self, to_k: f64) {
        if let Room::House { air_k, .. } = self {
            *air_k = to_k;
        }
    }

    pub(crate) fn set_structure_k(&mut self, to_k: f64) {
        if let Room::House { structure_k, .. } = self {
            *structure_k = to_k;
        }
    }

    pub(crate) fn set_humidity_ratio(&mut self, to: f64) {
        if let Room::House { humidity_ratio, .. } = self {
            *humidity_ratio = to;
        }
    }

    /// What the return duct brings to the filter: dry bulb, K, and humidity ratio. Room air, with what leaks in from
    /// the attic while the blower runs.
    pub(crate) fn return_air(&self, outdoors: &Outdoors, blower_speed: f64) -> (f64, f64) {
        let (room_k, room_w) = self.air();
        let share = self.return_leak_share(blower_speed);
        if share <= 0.0 {
            return (room_k, room_w);
        }
        let attic_k = self.attic_k(outdoors);
        (room_k + share * (attic_k - room_k), room_w + share * (outdoors.humidity_ratio - room_w))
    }

    /// Share of the air through the return duct that leaks in from the attic: coil and house see the same.
    pub(crate) fn return_leak_share(&self, blower_speed: f64) -> f64 {
        match self {
            Room::House { model, .. } => model.return_leak_share * blower_speed,
            Room::Held { .. } => 0.0,
        }
    }

    /// Attic air, K: the outdoor air and what the sun adds.
    fn attic_k(&self, outdoors: &Outdoors) -> f64 {
        let rise = match self {
            Room::House { model, .. } => model.attic_rise_k_m2_w * outdoors.solar_w_m2,
            Room::Held { .. } => 0.0,
        };
        outdoors.air_k + rise
    }

    /// Rates of air and structure, K/s, and of the humidity ratio, 1/s, with what the air conditioner does to the air
    /// that it moves.
    pub(crate) fn rates(&self, outdoors: &Outdoors, moved: &AirMoved) -> [f64; 3] {
        let attic_k = self.attic_k(outdoors);
        let Room::House { model, air_k, structure_k, humidity_ratio } = self else { return [0.0; 3] };
        let Outdoors { air_k: outdoor_k, humidity_ratio: outdoor_w, solar_w_m2 } = *outdoors;
        // The room gets what comes out of the registers: the coil's work on the return air, less what the leak of the
        // return, the attic around the ducts and the leak of the supply take.
        let capacity = moved.air_kg_s * moved.air_cp_j_kg_k;
        let return_gain = moved.return_leak_share * capacity * (attic_k - *air_k);
        let duct_gain =
            if capacity > 1.0 { model.duct_to_attic_w_k * (attic_k - moved.supply_k) } else { 0.0 };
        let delivered = 1.0 - model.supply_leak_share;
        let cooling_w = delivered * (moved.cooling_w - return_gain - duct_gain);
        let return_water = moved.return_leak_share * moved.air_kg_s * (outdoor_w - *humidity_ratio);
        let water_kg_s = delivered * (moved.water_kg_s - return_water);
        // Air that is blown into the attic comes back through the walls.
        let make_up_kg_s = (model.supply_leak_share - moved.return_leak_share).max(0.0) * moved.air_kg_s;
        let solar_w = model.solar_aperture_m2 * solar_w_m2;
        // A third of the sun and half of the gains land on surfaces first.
        let to_structure = model.air_to_structure_w_k * (*air_k - *structure_k);
        let air_heat = 0.5 * model.internal_gain_w + 0.67 * solar_w
            - model.air_to_outdoors_w_k * (*air_k - outdoor_k)
            - to_structure
            - make_up_kg_s * moved.air_cp_j_kg_k * (*air_k - outdoor_k)
            - cooling_w
            - moved.to_lines_w;
        let structure_heat = 0.5 * model.internal_gain_w + 0.33 * solar_w + to_structure
            - model.structure_to_outdoors_w_k * (*structure_k - outdoor_k);
        let moisture = model.internal_moisture_kg_s
            + (model.infiltration_kg_s + make_up_kg_s) * (outdoor_w - *humidity_ratio)
            - water_kg_s;
        [
            air_heat / model.air_capacity_j_k,
            structure_heat / model.structure_capacity_j_k,
            moisture / model.moisture_capacity_kg,
        ]
    }

    /// One slow step.
    pub(crate) fn step(&mut self, outdoors: &Outdoors, moved: &AirMoved, dt_s: f64) {
        let rates = self.rates(outdoors, moved);
        let Room::House { air_k, structure_k, humidity_ratio, .. } = self else { return };
        *air_k += rates[0] * dt_s;
        *structure_k += rates[1] * dt_s;
        let saturated = media::moist_air::saturation_humidity_ratio(
            media::units::celsius_from_kelvin(*air_k),
            media::moist_air::STANDARD_PRESSURE_PA,
        );
        *humidity_ratio = (*humidity_ratio + rates[2] * dt_s).clamp(1.0e-4, saturated);
    }
}

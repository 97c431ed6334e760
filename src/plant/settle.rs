//! The settled state of a system under held conditions, as in a test chamber.

use serde::{Deserialize, Serialize};

use crate::step::{BASE_STEP_S, advance, step};
use crate::{Fault, Inputs, Mode, Plant, Readout, Room, StepError, System, ThermostatSettings, Weather};

/// Conditions to settle under.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SteadyConditions {
    /// Outdoor dry bulb, K.
    pub outdoor_k: f64,
    /// Return air dry bulb, K.
    pub indoor_dry_bulb_k: f64,
    /// Return air humidity ratio, kg/kg dry air.
    pub indoor_humidity_ratio: f64,
    /// Charge over the data plate's charge.
    pub charge_share: f64,
    /// Faults, all from the start.
    pub faults: Vec<Fault>,
    /// Longest plant time to spend, s.
    pub time_max_s: f64,
}

/// Where the plant settled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Settled {
    /// Values averaged over the last ten minutes.
    pub readout: Readout,
    /// Whether the readings stood still (a coil that goes on icing never does).
    pub steady: bool,
    /// Plant time spent, s.
    pub time_s: f64,
    /// The plant itself.
    pub plant: Plant,
}

/// Inputs of a system that is called for all the time.
pub(crate) fn always_cooling() -> Inputs {
    Inputs {
        thermostat: ThermostatSettings {
            mode: Mode::Cool,
            set_point_k: 250.0,
            ..Inputs::default().thermostat
        },
        ..Inputs::default()
    }
}

/// Run a system until its readings stand still, then average ten minutes.
///
/// Errors: [`StepError::NonFinite`].
pub fn settle(system: &System, conditions: &SteadyConditions) -> Result<Settled, StepError> {
    let room = Room::Held {
        dry_bulb_k: conditions.indoor_dry_bulb_k,
        humidity_ratio: conditions.indoor_humidity_ratio,
    };
    let weather = Weather::held(conditions.outdoor_k);
    let charge = system.plate_charge_kg * conditions.charge_share;
    let mut plant = Plant::new(system, room, weather, charge, &conditions.faults);
    let inputs = always_cooling();
    advance(&mut plant, &inputs, 900.0)?;
    while !plant.is_steady() && plant.time_s() < conditions.time_max_s {
        advance(&mut plant, &inputs, 60.0)?;
    }
    let steady = plant.is_steady();
    let mut mean = Mean::default();
    for _ in 0..600 {
        for _ in 0..4 {
            step(&mut plant, &inputs, BASE_STEP_S)?;
        }
        mean.add(plant.readout());
    }
    Ok(Settled { readout: mean.readout(plant.readout()), steady, time_s: plant.time_s(), plant })
}

/// Mean of the quantities that hunt; the rest is taken from the last readout.
#[derive(Default)]
struct Mean {
    count: f64,
    sums: Readout,
}

macro_rules! for_each_averaged {
    ($apply:ident) => {
        $apply!(
            suction_pressure_pa,
            liquid_pressure_pa,
            evaporator_pressure_pa,
            evaporating_k,
            condensing_k,
            superheat_k,
            subcooling_k,
            suction_line_indoor_k,
            suction_line_outdoor_k,
            liquid_service_valve_k,
            liquid_before_drier_k,
            liquid_after_drier_k,
            liquid_indoor_k,
            discharge_k,
            bulb_k,
            metering_opening,
            metering_flow_kg_s,
            compressor_flow_kg_s,
            supply_dry_bulb_k,
            supply_wet_bulb_k,
            gross_cooling_w,
            sensible_cooling_w,
            net_cooling_w,
            compressor_power_w,
            heat_to_outdoors_w
        )
    };
}

impl Mean {
    fn add(&mut self, r: &Readout) {
        self.count += 1.0;
        macro_rules! add {
            ($($field:ident),*) => { $( self.sums.$field += r.$field; )* };
        }
        for_each_averaged!(add);
    }

    fn readout(&self, last: &Readout) -> Readout {
        let mut out = last.clone();
        macro_rules! divide {
            ($($field:ident),*) => { $( out.$field = self.sums.$field / self.count; )* };
        }
        for_each_averaged!(divide);
        out
    }
}

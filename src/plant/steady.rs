//! The settled state of a system under held conditions, as in a test chamber.

use serde::{Deserialize, Serialize};

use crate::contents::Level;
use crate::event::BASE_STEP_S;
use crate::level::LevelState;
use crate::protection::{Course, Protection};
use crate::step::step;
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
pub struct SteadyState {
    /// Values averaged over the last ten minutes; where a protection stops the compressor over and over, over whole runs of
    /// it, ten minutes at least.
    pub readout: Readout,
    /// What gauge and clamp together say of the refrigerant, averaged likewise over the samples in which it exists.
    pub saturated: Saturated,
    /// Whether the readings stood still over the whole of the ten minutes that were averaged, without a protection
    /// that opened. A coil that goes on icing and a circuit that leaks never do.
    pub steady: bool,
    /// How compressor and protections went on and off.
    pub course: Course,
    /// Plant time spent, s.
    pub time_s: f64,
    /// The plant itself.
    pub plant: Plant,
}

/// Values that compare a temperature with a saturation pressure, K. [`Readout`] always has a number for them; here each is
/// `None` where no liquid and vapour meet (an empty condenser, a coil without liquid), superheat and subcooling also
/// while the compressor rests.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Saturated {
    /// Saturation (dew) temperature in the evaporator.
    pub evaporating_k: Option<f64>,
    /// Saturation (dew) temperature in the condenser.
    pub condensing_k: Option<f64>,
    /// Superheat at the outdoor suction service valve.
    pub superheat_k: Option<f64>,
    /// Subcooling at the liquid service valve.
    pub subcooling_k: Option<f64>,
}

/// Share of the rated flow through the metering device from which liquid reaches the coil, even if all of it boils at once
/// (typ.: the bleed of a shut valve passes 2 % of its area).
const FEEDS_FROM_SHARE: f64 = 0.01;
/// Liquid of a level below which there is none, m³ (a drop).
const LIQUID_FROM_M3: f64 = 1.0e-6;

impl Plant {
    /// The values of this instant that need liquid beside vapour.
    #[must_use]
    pub fn saturated(&self) -> Saturated {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let holds_liquid = |level: &Level, volume_m3: f64| {
            LevelState::of(fluid, level, volume_m3, BASE_STEP_S).liquid_volume_m3 > LIQUID_FROM_M3
        };
        let r = &self.readout;
        let fed = r.metering_flow_kg_s > FEEDS_FROM_SHARE * self.system.compressor.rated_flow_kg_s;
        let (boils, condenses) =
            (fed || holds_liquid(&self.low, volumes.low_m3), holds_liquid(&self.high, volumes.high_m3));
        let runs = self.compressor_runs();
        Saturated {
            evaporating_k: boils.then_some(r.evaporating_k),
            condensing_k: condenses.then_some(r.condensing_k),
            superheat_k: (runs && boils).then_some(r.superheat_k),
            subcooling_k: (runs && condenses).then_some(r.subcooling_k),
        }
    }
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

/// Time after a start before which nothing is taken for settled, s.
const FIRST_LOOK_S: u32 = 900;
/// Time that is averaged, s.
const WINDOW_S: u32 = 600;
/// Longest time to wait for a machine that cycles to run for as long as is averaged, s: an overload takes half an hour or more
/// to close, and lets it run for a few minutes.
const CYCLES_MAX_S: u32 = 3 * 3600;

/// Run a system until its readings stand still over ten minutes, which are averaged.
///
/// Errors: [`StepError::NonFinite`].
pub fn solve_steady_state(system: &System, conditions: &SteadyConditions) -> Result<SteadyState, StepError> {
    let room = Room::Held {
        dry_bulb_k: conditions.indoor_dry_bulb_k,
        humidity_ratio: conditions.indoor_humidity_ratio,
    };
    let weather = Weather::held(conditions.outdoor_k);
    let charge = system.plate_charge_kg * conditions.charge_share;
    let plant = Plant::new(system, room, weather, charge, &conditions.faults);
    let mut run = Run { plant, inputs: always_cooling(), course: Course::default() };
    run.seconds(FIRST_LOOK_S)?;
    let (mut mean, steady) = loop {
        while !run.plant.is_steady() && run.plant.time_s() < conditions.time_max_s {
            run.seconds(60)?;
        }
        let (mean, steady) = run.window()?;
        if steady || run.plant.time_s() >= conditions.time_max_s {
            break (mean, steady);
        }
    };
    if !steady && run.course.compressor.times > 0 {
        mean = run.window_of_running()?.unwrap_or(mean);
    }
    let Run { plant, course, .. } = run;
    Ok(SteadyState {
        readout: mean.readout(),
        saturated: mean.saturated(),
        steady,
        course,
        time_s: plant.time_s(),
        plant,
    })
}

/// A plant that is called for all the time, and what it did.
struct Run {
    plant: Plant,
    inputs: Inputs,
    course: Course,
}

impl Run {
    fn seconds(&mut self, seconds: u32) -> Result<(), StepError> {
        for _ in 0..4 * seconds {
            step(&mut self.plant, &self.inputs, BASE_STEP_S)?;
            self.course.see(&self.plant);
        }
        Ok(())
    }

    /// Averages the next ten minutes, and whether all stood still in them.
    fn window(&mut self) -> Result<(Mean, bool), StepError> {
        let (mut mean, mut steady) = (Mean::default(), true);
        let openings = self.course.openings();
        for _ in 0..WINDOW_S {
            self.seconds(1)?;
            mean.add(&self.plant);
            steady &= self.plant.is_steady();
        }
        let open = Protection::ALL.into_iter().any(|one| self.plant.is_open(one));
        Ok((mean, steady && !open && self.course.openings() == openings))
    }

    /// Averages whole runs of the compressor, from a start to a stop, until they have lasted for as long as is averaged, with as
    /// many rests between as there are; what there is of a run that does not end. `None` if it does not start again.
    fn window_of_running(&mut self) -> Result<Option<Mean>, StepError> {
        let (mut mean, mut ran_for_s, mut whole) = (Mean::default(), 0, false);
        let mut ran = true;
        for _ in 0..CYCLES_MAX_S {
            self.seconds(1)?;
            let runs = self.plant.compressor_runs();
            if !runs && ran_for_s >= WINDOW_S {
                break;
            }
            whole |= runs && !ran;
            ran = runs;
            if runs && whole {
                mean.add(&self.plant);
                ran_for_s += 1;
            }
        }
        Ok((ran_for_s > 0).then_some(mean))
    }
}

/// Mean of the quantities that hunt; the rest is taken from the last readout.
#[derive(Default)]
struct Mean {
    count: f64,
    sums: Readout,
    last: Readout,
    evaporating: MeanOfSome,
    condensing: MeanOfSome,
    superheat: MeanOfSome,
    subcooling: MeanOfSome,
}

/// Mean of a value that is not always there.
#[derive(Default)]
struct MeanOfSome {
    count: f64,
    sum: f64,
}

impl MeanOfSome {
    fn add(&mut self, value: Option<f64>) {
        if let Some(value) = value {
            self.count += 1.0;
            self.sum += value;
        }
    }

    /// `None` unless it was there most of the time.
    fn mean(&self, of: f64) -> Option<f64> {
        (self.count > 0.5 * of).then(|| self.sum / self.count)
    }
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
            cabinet_air_k,
            coil_surface_k,
            frost_mass_kg,
            iced_share,
            open_share,
            coil_water_kg,
            gross_cooling_w,
            sensible_cooling_w,
            net_cooling_w,
            compressor_power_w,
            outdoor_fan_power_w,
            blower_power_w,
            airflow_m3_s,
            return_static_pa,
            coil_inlet_static_pa,
            coil_outlet_static_pa,
            supply_static_pa,
            heat_to_outdoors_w,
            charge_condenser_kg,
            charge_liquid_line_kg,
            charge_evaporator_kg,
            charge_suction_kg,
            charge_total_kg
        )
    };
}

impl Mean {
    fn add(&mut self, plant: &Plant) {
        let r = plant.readout();
        self.count += 1.0;
        macro_rules! add {
            ($($field:ident),*) => { $( self.sums.$field += r.$field; )* };
        }
        for_each_averaged!(add);
        self.last.clone_from(r);
        let saturated = plant.saturated();
        self.evaporating.add(saturated.evaporating_k);
        self.condensing.add(saturated.condensing_k);
        self.superheat.add(saturated.superheat_k);
        self.subcooling.add(saturated.subcooling_k);
    }

    fn readout(&self) -> Readout {
        let mut out = self.last.clone();
        macro_rules! divide {
            ($($field:ident),*) => { $( out.$field = self.sums.$field / self.count; )* };
        }
        for_each_averaged!(divide);
        out
    }

    fn saturated(&self) -> Saturated {
        Saturated {
            evaporating_k: self.evaporating.mean(self.count),
            condensing_k: self.condensing.mean(self.count),
            superheat_k: self.superheat.mean(self.count),
            subcooling_k: self.subcooling.mean(self.count),
        }
    }
}

//! What would have happened next: the plant runs on as the learner left it, and beside it a repaired one.

use diagnosis::{Done, Portion, Progress, Unwatched};
use plant::{Event, Inputs, Plant, PortConnection, Readout, StepError, Weather, step};
use serde::{Deserialize, Serialize};
use visit::{Visit, compressor_runs, is_iced};

/// Hours that are run on unless something else is asked for.
pub const USUAL_HOURS: f64 = 24.0;
/// Longest step that the plant takes, s: nobody looks closely here.
const STEP_S: f64 = 0.5;
/// Time between samples, s.
const SAMPLE_S: f64 = 300.0;
/// A room so much above the set point is too warm, K: more than the thermostat's own swing (engineering value).
const TOO_WARM_K: f64 = 2.0;

/// The two plants, over the same hours in the same weather.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Projection {
    /// How long they ran, h.
    pub hours: f64,
    /// Set point of the customer's thermostat, K.
    pub set_point_k: f64,
    /// As the learner left it.
    pub as_left: Outlook,
    /// The same house with the faults repaired: no fault, the data plate's charge, no ice, everything switched on.
    pub repaired: Outlook,
}

/// What became of one plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Outlook {
    /// Most ice on the coil, kg.
    pub most_ice_kg: f64,
    /// Ice at the end, kg.
    pub ice_at_end_kg: f64,
    /// Time with an iced coil, s.
    pub iced_s: f64,
    /// When the coil first counted as iced, s after the start.
    pub first_iced_s: Option<f64>,
    /// Starts of the compressor.
    pub starts: u32,
    /// Time that the compressor ran, s.
    pub ran_s: f64,
    /// Times that the high-pressure switch opened.
    pub high_pressure_trips: u32,
    /// Times that the compressor's overload opened.
    pub overload_trips: u32,
    /// Warmest room, K.
    pub warmest_room_k: f64,
    /// Room at the end, K.
    pub room_at_end_k: f64,
    /// Time with the room too warm, s.
    pub too_warm_s: f64,
    /// Refrigerant lost to the air, kg.
    pub lost_kg: f64,
    /// Refrigerant in the circuit at the end, kg.
    pub charge_at_end_kg: f64,
    /// Liquid that went through the compressor, kg.
    pub liquid_through_kg: f64,
    /// Time at too high a discharge temperature, weighted by how much too high, K s.
    pub overheated_k_s: f64,
    /// Share of the compressor's flow that leaks back more than before, because of that wear.
    pub worn_share: f64,
    /// Samples, oldest first.
    pub samples: Vec<FateSample>,
}

/// One plant at one instant.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FateSample {
    /// Time since the start, s.
    pub since_start_s: f64,
    /// Room, K.
    pub room_k: f64,
    /// Outdoor air, K.
    pub outdoor_k: f64,
    /// Ice, kg.
    pub frost_mass_kg: f64,
    /// Share of the time since the sample before in which the compressor ran, 0 to 1.
    pub running_share: f64,
}

impl Projection {
    /// Lets the plant of a visit run on for some hours from where the visit stands, and a repaired one beside it.
    ///
    /// The customer's own settings go back on the thermostat, and nothing is left on the service ports. Switches, the
    /// filter slot and the bulb stay as the learner left them. The repaired plant starts at rest.
    ///
    /// # Errors
    /// When a plant reaches a state that is not finite.
    pub fn of(visit: &Visit, hours: f64) -> Result<Projection, StepError> {
        match Projection::watched(visit, hours, &Unwatched)? {
            Some(run_on) => Ok(run_on),
            None => unreachable!("nobody stops it"),
        }
    }

    /// The same. `None` if it was stopped.
    ///
    /// # Errors
    /// When a plant reaches a state that is not finite.
    pub fn watched(
        visit: &Visit,
        hours: f64,
        progress: &dyn Progress,
    ) -> Result<Option<Projection>, StepError> {
        let thermostat = visit.call().thermostat.clone();
        let set_point_k = thermostat.set_point_k;
        let left = Inputs {
            thermostat: thermostat.clone(),
            suction_port: PortConnection::Capped,
            liquid_port: PortConnection::Capped,
            ..visit.inputs().clone()
        };
        let sound = Inputs { thermostat, ..Inputs::default() };
        let first = Portion::of(progress, 0.0, 0.5);
        let Some(as_left) = fate(visit.plant().clone(), &left, hours, set_point_k, &first)? else {
            return Ok(None);
        };
        let second = Portion::of(progress, 0.5, 1.0);
        let repaired = fate(repaired(visit.plant()), &sound, hours, set_point_k, &second)?;
        Ok(repaired.map(|repaired| Projection { hours, set_point_k, as_left, repaired }))
    }
}

/// A plant without a fault and with the data plate's charge, at rest in the same house at the same hour.
fn repaired(plant: &Plant) -> Plant {
    let weather = plant.weather();
    let weather = Weather { start_hour: weather.hour_of_day(plant.time_s()), ..weather.clone() };
    let system = plant.system();
    Plant::new(system, plant.room().clone(), weather, system.plate_charge_kg, &[])
}

/// `None` if it was stopped.
fn fate(
    mut plant: Plant,
    inputs: &Inputs,
    hours: f64,
    set_point_k: f64,
    progress: &dyn Progress,
) -> Result<Option<Outlook>, StepError> {
    let ledger_before = *plant.ledger();
    let wear_before = *plant.wear();
    let mut watch = Watch::new(plant.readout(), set_point_k);
    let steps = (hours * 3600.0 / STEP_S).round() as u64;
    let steps_of_sample = (SAMPLE_S / STEP_S) as u64;
    for made in 0..steps {
        if made % steps_of_sample == 0 && !progress.goes_on(Done::Share(made as f64 / steps as f64)) {
            return Ok(None);
        }
        let events = step(&mut plant, inputs, STEP_S)?;
        for event in events.iter() {
            watch.event(event);
        }
        watch.look(plant.readout());
    }
    let readout = plant.readout();
    let ledger = plant.ledger();
    let lost = |ledger: &plant::Ledger| ledger.leaked_kg + ledger.vented_kg;
    let mut fate = watch.fate;
    fate.ice_at_end_kg = readout.frost_mass_kg;
    fate.room_at_end_k = readout.room_k;
    fate.charge_at_end_kg = readout.charge_total_kg;
    fate.lost_kg = lost(ledger) - lost(&ledger_before);
    fate.liquid_through_kg = plant.wear().liquid_kg - wear_before.liquid_kg;
    fate.overheated_k_s = plant.wear().overheated_k_s - wear_before.overheated_k_s;
    fate.worn_share = plant.wear().internal_leak() - wear_before.internal_leak();
    Ok(Some(fate))
}

/// Collects what happens to one plant.
struct Watch {
    fate: Outlook,
    set_point_k: f64,
    now_s: f64,
    ran_at_last_sample_s: f64,
}

impl Watch {
    fn new(readout: &Readout, set_point_k: f64) -> Watch {
        let first = FateSample {
            since_start_s: 0.0,
            room_k: readout.room_k,
            outdoor_k: readout.outdoor_k,
            frost_mass_kg: readout.frost_mass_kg,
            running_share: if runs(readout) { 1.0 } else { 0.0 },
        };
        let fate = Outlook {
            most_ice_kg: readout.frost_mass_kg,
            ice_at_end_kg: readout.frost_mass_kg,
            iced_s: 0.0,
            first_iced_s: (is_iced(readout)).then_some(0.0),
            starts: 0,
            ran_s: 0.0,
            high_pressure_trips: 0,
            overload_trips: 0,
            warmest_room_k: readout.room_k,
            room_at_end_k: readout.room_k,
            too_warm_s: 0.0,
            lost_kg: 0.0,
            charge_at_end_kg: readout.charge_total_kg,
            liquid_through_kg: 0.0,
            overheated_k_s: 0.0,
            worn_share: 0.0,
            samples: vec![first],
        };
        Watch { fate, set_point_k, now_s: 0.0, ran_at_last_sample_s: 0.0 }
    }

    fn event(&mut self, event: Event) {
        match event {
            Event::CompressorStarted => self.fate.starts += 1,
            Event::HighPressureSwitchOpened => self.fate.high_pressure_trips += 1,
            Event::OverloadOpened => self.fate.overload_trips += 1,
            _ => {}
        }
    }

    fn look(&mut self, readout: &Readout) {
        self.now_s += STEP_S;
        let fate = &mut self.fate;
        fate.most_ice_kg = fate.most_ice_kg.max(readout.frost_mass_kg);
        fate.warmest_room_k = fate.warmest_room_k.max(readout.room_k);
        if is_iced(readout) {
            fate.iced_s += STEP_S;
            fate.first_iced_s.get_or_insert(self.now_s);
        }
        if runs(readout) {
            fate.ran_s += STEP_S;
        }
        if readout.room_k > self.set_point_k + TOO_WARM_K {
            fate.too_warm_s += STEP_S;
        }
        if self.now_s >= fate.samples.len() as f64 * SAMPLE_S - 1.0e-6 {
            fate.samples.push(FateSample {
                since_start_s: self.now_s,
                room_k: readout.room_k,
                outdoor_k: readout.outdoor_k,
                frost_mass_kg: readout.frost_mass_kg,
                running_share: (fate.ran_s - self.ran_at_last_sample_s) / SAMPLE_S,
            });
            self.ran_at_last_sample_s = fate.ran_s;
        }
    }
}

fn runs(readout: &Readout) -> bool {
    compressor_runs(readout)
}

/// One line of what became of the two plants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fact {
    /// What.
    pub line: OutlookLine,
    /// For the plant as it was left.
    pub as_left: OutlookValue,
    /// For the repaired one.
    pub repaired: OutlookValue,
}

/// What is told of a plant that ran on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum OutlookLine {
    /// When the coil was first iced.
    CoilIced,
    /// How long it was.
    TimeIced,
    /// Most ice on it.
    MostIce,
    /// Ice at the end.
    IceAtEnd,
    /// How long the compressor ran.
    CompressorRan,
    /// How often it started.
    CompressorStarts,
    /// How often the high-pressure switch opened.
    HighPressureTrips,
    /// How often the overload opened.
    OverloadTrips,
    /// The warmest room.
    WarmestRoom,
    /// How long the room was too warm.
    TooWarm,
    /// Refrigerant that went into the air.
    Lost,
    /// Liquid that went through the compressor.
    LiquidThrough,
    /// Flow that the compressor lost by new wear.
    Worn,
}

/// A value of a plant that ran on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum OutlookValue {
    /// At no time.
    Never,
    /// From the start.
    FromTheStart,
    /// After some time.
    After {
        /// The time, h.
        after_h: f64,
    },
    /// For so long.
    Span {
        /// The time, h.
        time_h: f64,
    },
    /// So much.
    Mass {
        /// The mass, kg.
        mass_kg: f64,
    },
    /// So many.
    Count {
        /// The count.
        count: u32,
    },
    /// So often.
    Times {
        /// The count.
        times: u32,
    },
    /// So warm.
    Temperature {
        /// The temperature, K.
        temperature_k: f64,
    },
    /// No wear to speak of.
    NoWear,
    /// So much wear.
    Wear {
        /// Share of the compressor's flow.
        worn_share: f64,
    },
}

/// Wear below this share of the flow is none (engineering value).
const WORN_SHARE: f64 = 5.0e-5;

impl Outlook {
    fn value(&self, line: OutlookLine) -> OutlookValue {
        let span = |seconds: f64| OutlookValue::Span { time_h: seconds / 3600.0 };
        let mass = |mass_kg: f64| OutlookValue::Mass { mass_kg };
        match line {
            OutlookLine::CoilIced => match self.first_iced_s {
                None => OutlookValue::Never,
                Some(0.0) => OutlookValue::FromTheStart,
                Some(after_s) => OutlookValue::After { after_h: after_s / 3600.0 },
            },
            OutlookLine::TimeIced => span(self.iced_s),
            OutlookLine::MostIce => mass(self.most_ice_kg),
            OutlookLine::IceAtEnd => mass(self.ice_at_end_kg),
            OutlookLine::CompressorRan => span(self.ran_s),
            OutlookLine::CompressorStarts => OutlookValue::Count { count: self.starts },
            OutlookLine::HighPressureTrips => OutlookValue::Times { times: self.high_pressure_trips },
            OutlookLine::OverloadTrips => OutlookValue::Times { times: self.overload_trips },
            OutlookLine::WarmestRoom => OutlookValue::Temperature { temperature_k: self.warmest_room_k },
            OutlookLine::TooWarm => span(self.too_warm_s),
            OutlookLine::Lost => mass(self.lost_kg),
            OutlookLine::LiquidThrough => mass(self.liquid_through_kg),
            OutlookLine::Worn if self.worn_share < WORN_SHARE => OutlookValue::NoWear,
            OutlookLine::Worn => OutlookValue::Wear { worn_share: self.worn_share },
        }
    }
}

impl Projection {
    /// What became of the two plants, line by line.
    pub fn facts(&self) -> Vec<Fact> {
        use OutlookLine::{
            CoilIced, CompressorRan, CompressorStarts, HighPressureTrips, IceAtEnd, LiquidThrough, Lost,
            MostIce, OverloadTrips, TimeIced, TooWarm, WarmestRoom, Worn,
        };
        [
            CoilIced,
            TimeIced,
            MostIce,
            IceAtEnd,
            CompressorRan,
            CompressorStarts,
            HighPressureTrips,
            OverloadTrips,
            WarmestRoom,
            TooWarm,
            Lost,
            LiquidThrough,
            Worn,
        ]
        .into_iter()
        .map(|line| Fact { line, as_left: self.as_left.value(line), repaired: self.repaired.value(line) })
        .collect()
    }
}

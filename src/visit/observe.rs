//! What can be seen, heard and felt at a place: from the truth, by thresholds.
//!
//! Thresholds are engineering values of what a person tells apart; no source. What is seen never names a fault.

use call::Milestone;
use plant::{CoilStage, FaultKind, LeakPlace, Mode, Motor, Switch, Terminal};

use crate::action::Move;
use crate::coil::CLEAR_FROST_KG;
use crate::eye::{Eye, STILL_SPEED};
use crate::note::Note;
use crate::notebook::{Entry, Outcome};
use crate::place::{Panel, Place};
use crate::running::compressor_runs;
use crate::sight::{FINDINGS, Observation, Sight};
use crate::visit::{Task, Visit};

/// A line this cold carries frost, if the air is not bone dry, K.
const FROST_K: f64 = 273.15;
/// Shares of rated airflow: strong from the first, none below the second.
const STRONG_AIR_SHARE: f64 = 0.7;
const NO_AIR_SHARE: f64 = 0.08;
/// A bulb that gives more than this share of its heat exchange to the air is bare to the eye.
const BARE_EXPOSURE: f64 = 0.15;
/// A bulb that gives more than this share of its heat exchange to the air around is seen to sit loose.
const LOOSE_EXPOSURE: f64 = 0.15;
/// A fan that keeps a speed below this share of its running speed is seen to be slow.
const SLOW_SPEED: f64 = 0.9;
/// Change of speed in one tick below which a fan keeps its speed: a hot motor loses 1e-4 of it, one that starts or coasts 0.02.
const STEADY_SPEED: f64 = 2.0e-3;
/// Below this share of its running speed the blades can almost be told apart; from there to slow the ear tells it.
const BLADES_SEEN_SPEED: f64 = 0.7;
/// Voltage below which a thermostat's display is dark, V.
const DISPLAY_V: f64 = 15.0;
/// A hole this large leaves an oil stain that is seen, m.
const OIL_STAIN_HOLE_M: f64 = 0.028e-3;
/// A difference over the drier, or along the line before it, that a hand feels, K.
const FELT_DIFFERENCE_K: f64 = 2.5;

impl Visit {
    /// Looks at the task's place: observations and sentences go into the task.
    pub(crate) fn look(&self, task: &mut Task) {
        let place = match task.action {
            Move::Look(place) => place,
            Move::WatchBlower => Place::Blower,
            _ => return,
        };
        let mut sight = Look::default();
        match place {
            Place::Thermostat => self.see_thermostat(&mut sight),
            Place::ReturnGrille | Place::SupplyRegister => self.feel_air(place, &mut sight),
            Place::FilterSlot => self.see_filter_slot(&mut sight),
            Place::Blower => self.see_blower(&mut sight),
            Place::IndoorCoil => self.see_coil(&mut sight),
            Place::MeteringDevice => self.see_metering_device(&mut sight),
            Place::LineSet => self.see_line_set(&mut sight),
            Place::Drier => self.feel_drier(&mut sight),
            Place::OutdoorUnit => self.see_outdoor_unit(&mut sight),
            Place::OutdoorDisconnect => sight.say(match self.inputs.outdoor_disconnect {
                Switch::Closed => Sight::DisconnectIn,
                Switch::Open => Sight::DisconnectOut,
            }),
            Place::ControlBoard => self.see_control_board(&mut sight),
        }
        task.notes.extend(sight.told.into_iter().map(Note::from));
        task.reached.extend(sight.reached);
        task.see(sight.observations);
    }

    fn see_thermostat(&self, sight: &mut Look) {
        let settings = &self.inputs.thermostat;
        let (fan, set_point_k) = (settings.fan, settings.set_point_k);
        let (wall_k, humidity_share) = (self.truth().room_k, self.truth().room_relative_humidity);
        match settings.mode {
            _ if self.plant.voltage_v(&self.inputs, Terminal::ThermostatR, Terminal::C) < DISPLAY_V => {
                sight.say(Sight::DisplayDark);
            }
            Mode::Off => sight.say(Sight::ThermostatOff { fan, wall_k, humidity_share }),
            Mode::Cool => sight.say(Sight::ThermostatCool { fan, set_point_k, wall_k, humidity_share }),
        }
    }

    fn feel_air(&self, place: Place, sight: &mut Look) {
        let share = self.truth().airflow_m3_s / self.plant.system().air.rated_flow_m3_s;
        let (observation, felt) = if share >= STRONG_AIR_SHARE {
            (Observation::AirStrong, Sight::PaperPulledFlat(place))
        } else if share >= NO_AIR_SHARE {
            (Observation::AirWeak, Sight::PaperStirs(place))
        } else {
            (Observation::AirNone, Sight::PaperStill(place))
        };
        sight.see(observation);
        sight.say(felt);
        self.find(place, sight);
        if place == Place::SupplyRegister && observation != Observation::AirNone {
            let drop_k = self.truth().return_dry_bulb_k - self.truth().supply_dry_bulb_k;
            sight.say(if drop_k > 7.0 {
                Sight::AirCold
            } else if drop_k > 2.0 {
                Sight::AirCool
            } else {
                Sight::AirAsRoom
            });
        }
    }

    fn see_filter_slot(&self, sight: &mut Look) {
        sight.say(Sight::SlotCovered);
        if self.truth().coil_inlet_static_pa < -100.0 {
            sight.say(Sight::CoverWhistles);
        }
    }

    fn see_blower(&self, sight: &mut Look) {
        let turns = self.truth().blower_speed > STILL_SPEED;
        let hums = !turns && self.plant.hums(Motor::Blower);
        if !self.site.is_open(Panel::BlowerCompartment) {
            sight.say(Sight::PanelHidesWheel);
            sight.say(if turns || hums { Sight::HumsBehindPanel } else { Sight::SilentBehindPanel });
            return;
        }
        let speed = self.truth().blower_speed;
        if turns && is_slow(speed, self.spin_before.blower) {
            sight.see(Observation::BlowerSlow);
            sight.say(if speed < BLADES_SEEN_SPEED { Sight::WheelCreeps } else { Sight::WheelLabors });
        } else if turns {
            sight.see(Observation::BlowerTurning);
            sight.say(if self.truth().airflow_m3_s < 0.5 * self.plant.system().air.rated_flow_m3_s {
                Sight::WheelInItsOwnAir
            } else {
                Sight::WheelEven
            });
        } else {
            sight.see(Observation::BlowerStill);
            sight.say(Sight::WheelStill);
            if hums {
                sight.see(Observation::BlowerHumming);
                sight.say(Sight::WheelMotorHums);
            }
            if self.inputs.indoor_service_switch == Switch::Open {
                let stuck = self.plant.blower_is_stuck();
                sight.see(if stuck { Observation::WheelStuck } else { Observation::WheelTurnsFreely });
                sight.say(if stuck { Sight::WheelStuck } else { Sight::WheelFree });
            }
        }
        self.find(Place::Blower, sight);
    }

    fn see_coil(&self, sight: &mut Look) {
        let truth = self.truth();
        let frost_kg = truth.frost_mass_kg;
        if !self.site.is_open(Panel::CoilCabinet) {
            sight.say(Sight::CabinetHidesCoil);
            if self.has_frosted_line_indoors() {
                sight.see(Observation::SomeIce);
                sight.say(Sight::LineFrostedAtCabinet);
            } else if truth.suction_line_indoor_k < self.room_dew_point_k() {
                sight.say(Sight::LineSweatsAtCabinet);
            } else {
                sight.say(Sight::LineDryAtCabinet);
            }
            if truth.coil_stage == CoilStage::Melting {
                sight.say(Sight::DrainRuns);
            } else if self.has_waited() && frost_kg < CLEAR_FROST_KG && !compressor_runs(truth) {
                sight.say(Sight::DrainStopped);
                sight.reached.push(Milestone::CoilThawed);
            }
            return;
        }
        sight.reached.push(Milestone::CoilSeen);
        if frost_kg < CLEAR_FROST_KG {
            sight.see(Observation::NoIce);
            sight.reached.push(Milestone::CoilThawed);
            sight.say(match truth.coil_stage {
                CoilStage::Dry => Sight::CoilDry,
                _ => Sight::CoilWet,
            });
        } else if !self.eye().sees_coil_face() {
            sight.see(Observation::BlockOfIce);
            sight.say(Sight::CoilBlock);
        } else {
            sight.see(Observation::SomeIce);
            sight.say(if truth.iced_share > 0.6 {
                Sight::CoilMostlyFrosted
            } else if truth.iced_share > 0.2 {
                Sight::CoilPartlyFrosted
            } else {
                Sight::CoilLittleFrost
            });
        }
        if truth.coil_stage == CoilStage::Melting {
            sight.say(Sight::IceMelts);
        }
        self.find(Place::IndoorCoil, sight);
        if frost_kg < CLEAR_FROST_KG {
            self.see_oil(LeakPlace::IndoorCoil, sight);
        }
    }

    /// Whether what lies on the fins shows with the cabinet open: a block of ice hides it.
    pub fn sees_coil_face(&self) -> bool {
        self.eye().sees_coil_face()
    }

    /// What an eye can rest on now.
    pub(crate) fn eye(&self) -> Eye<'_> {
        Eye { plant: &self.plant, inputs: &self.inputs, site: &self.site }
    }

    fn see_metering_device(&self, sight: &mut Look) {
        let truth = self.truth();
        if self.has_bulb() {
            match self.site.bulb {
                crate::site::BulbState::InIceWater => {
                    sight.say(Sight::BulbInIceWater);
                }
                crate::site::BulbState::InHand | crate::site::BulbState::Hanging => {
                    sight.say(Sight::BulbHangs);
                }
                _ if self.bulb_is_bare() => {
                    sight.see(Observation::BulbBare);
                    sight.say(Sight::BulbBare);
                }
                _ if self.plant.bulb_looseness() > LOOSE_EXPOSURE => {
                    sight.see(Observation::BulbLoose);
                    sight.say(Sight::BulbLoose);
                }
                _ => {
                    sight.see(Observation::BulbInsulated);
                    sight.say(Sight::BulbStrapped);
                }
            }
        } else {
            sight.say(Sight::OrificeWithoutBulb);
        }
        if compressor_runs(truth) && truth.evaporating_k < FROST_K {
            sight.say(Sight::FrostAtOutlet);
        } else if compressor_runs(truth) {
            sight.say(Sight::OutletColdAndWet);
        }
    }

    fn see_line_set(&self, sight: &mut Look) {
        let truth = self.truth();
        self.see_suction_line_outdoors(sight);
        let liquid_over_outdoor_k = truth.liquid_after_drier_k - truth.outdoor_k;
        sight.say(if liquid_over_outdoor_k > 12.0 {
            Sight::LiquidLineHot
        } else if liquid_over_outdoor_k > 2.0 {
            Sight::LiquidLineWarm
        } else if liquid_over_outdoor_k > -2.0 {
            Sight::LiquidLineAsAir
        } else {
            Sight::LiquidLineColder
        });
        self.find(Place::LineSet, sight);
        self.see_oil(LeakPlace::LiquidLine, sight);
    }

    fn feel_drier(&self, sight: &mut Look) {
        let truth = self.truth();
        let drop_k = truth.liquid_before_drier_k - truth.liquid_after_drier_k;
        if truth.liquid_service_valve_k - truth.liquid_before_drier_k > FELT_DIFFERENCE_K {
            sight.say(Sight::DrierInletColder);
        }
        sight.say(if drop_k > FELT_DIFFERENCE_K { Sight::DrierOutletColder } else { Sight::DrierEven });
    }

    fn see_outdoor_unit(&self, sight: &mut Look) {
        let truth = self.truth();
        if compressor_runs(truth) {
            sight.see(Observation::CompressorRunning);
            sight.say(Sight::CompressorRuns);
        } else {
            sight.see(Observation::CompressorStill);
            sight.say(Sight::CompressorStill);
            // A sound one that meets pressure hums for a few seconds, too; nobody tells that from a start.
            if self.is_there(FaultKind::WeakCompressorCapacitor) && self.plant.hums(Motor::Compressor) {
                sight.see(Observation::CompressorHumming);
                sight.say(Sight::CompressorHums);
            }
        }
        if truth.outdoor_fan_speed > STILL_SPEED
            && is_slow(truth.outdoor_fan_speed, self.spin_before.outdoor_fan)
        {
            sight.see(Observation::OutdoorFanSlow);
            sight.say(if truth.outdoor_fan_speed < BLADES_SEEN_SPEED {
                Sight::FanLazy
            } else {
                Sight::FanLabors
            });
        } else if truth.outdoor_fan_speed > STILL_SPEED {
            sight.see(Observation::OutdoorFanRunning);
            let rise_k = truth.condensing_k - truth.outdoor_k;
            sight.say(if compressor_runs(truth) && rise_k > 8.0 {
                Sight::FanBlowsWarm
            } else {
                Sight::FanBlowsCool
            });
        } else {
            sight.see(Observation::OutdoorFanStill);
            sight.say(Sight::FanStill);
            if self.plant.hums(Motor::OutdoorFan) {
                sight.see(Observation::OutdoorFanHumming);
                sight.say(Sight::FanMotorHums);
            }
        }
        self.find(Place::OutdoorUnit, sight);
        self.see_suction_line_outdoors(sight);
        self.see_oil(LeakPlace::SuctionServiceValve, sight);
    }

    fn see_control_board(&self, sight: &mut Look) {
        sight.say(Sight::WiresTight);
        sight.say(match self.inputs.indoor_service_switch {
            Switch::Closed if self.plant.transformer_is_whole() => Sight::TransformerHums,
            _ => Sight::TransformerSilent,
        });
        if self.plant.control_fuse_is_blown() {
            sight.see(Observation::FuseBlown);
            sight.say(Sight::FuseBlack);
        }
    }

    /// What is out of order at a place.
    fn find(&self, place: Place, sight: &mut Look) {
        for finding in FINDINGS.iter().filter(|finding| finding.at == place) {
            let degree = (finding.degree)(&self.eye());
            if let Some((_, told)) = finding.from.iter().rev().find(|(from, _)| degree >= *from) {
                sight.see(finding.seen);
                sight.say(*told);
            }
        }
    }

    /// Whether the sensing bulb is bare to the eye.
    pub fn bulb_is_bare(&self) -> bool {
        self.plant.bulb_exposure() > BARE_EXPOSURE
    }

    /// Whether a kind of fault has set in.
    fn is_there(&self, kind: FaultKind) -> bool {
        self.eye().severity_of(kind) > 0.0
    }

    fn see_suction_line_outdoors(&self, sight: &mut Look) {
        let truth = self.truth();
        if self.has_frosted_line_outdoors() {
            sight.see(Observation::SomeIce);
            sight.say(Sight::SuctionLineFrosted);
        } else if truth.suction_line_outdoor_k < self.seeded.weather.dew_point_k {
            sight.say(Sight::SuctionLineSweats);
        } else if truth.suction_line_outdoor_k < truth.outdoor_k - 4.0 {
            sight.say(Sight::SuctionLineCool);
        } else {
            sight.say(Sight::SuctionLineWarm);
        }
    }

    fn see_oil(&self, place: LeakPlace, sight: &mut Look) {
        if self.plant.leak_hole_m(place) >= OIL_STAIN_HOLE_M {
            sight.see(Observation::OilStain(place));
            sight.say(Sight::Oily(place));
        } else {
            sight.see(Observation::NoOilStain);
            sight.say(Sight::NoOil);
        }
    }

    /// Frost shows where refrigerant below freezing runs, or where the ice of the coil reaches along the line.
    fn has_frosted_line_indoors(&self) -> bool {
        let truth = self.truth();
        let cold = compressor_runs(truth) && truth.suction_line_indoor_k < FROST_K;
        let from_coil = truth.frost_mass_kg > 0.3 && truth.suction_line_indoor_k < FROST_K + 2.0;
        cold || from_coil
    }

    fn has_frosted_line_outdoors(&self) -> bool {
        let truth = self.truth();
        compressor_runs(truth) && truth.suction_line_outdoor_k < FROST_K
    }

    /// Dew point of the room air, K.
    fn room_dew_point_k(&self) -> f64 {
        let truth = self.truth();
        let room_c = media::units::celsius_from_kelvin(truth.room_k);
        let pressure_pa = media::units::STANDARD_ATMOSPHERE_PA;
        let humidity_ratio = media::moist_air::humidity_ratio_from_relative_humidity(
            room_c,
            truth.room_relative_humidity,
            pressure_pa,
        );
        media::units::kelvin_from_celsius(media::moist_air::dew_point_c(humidity_ratio, pressure_pa))
    }

    /// Whether the learner has waited, so that a drain that stands still means something.
    fn has_waited(&self) -> bool {
        self.notebook.iter().any(|entry: &Entry| {
            matches!(entry.action, Move::Wait(_)) && !matches!(entry.outcome, Outcome::Refused(_))
        })
    }
}

/// Whether a fan keeps a speed well below its running speed.
fn is_slow(speed: f64, a_tick_ago: f64) -> bool {
    speed < SLOW_SPEED && (speed - a_tick_ago).abs() < STEADY_SPEED
}

/// What one look yields.
#[derive(Default)]
struct Look {
    observations: Vec<Observation>,
    told: Vec<Sight>,
    reached: Vec<Milestone>,
}

impl Look {
    fn see(&mut self, observation: Observation) {
        self.observations.push(observation);
    }

    fn say(&mut self, sight: Sight) {
        self.told.push(sight);
    }
}

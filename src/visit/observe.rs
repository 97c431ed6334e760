//! What can be seen, heard and felt at a place: from the truth, by thresholds.
//!
//! Thresholds are engineering values of what a person tells apart; no source. Sentences never name a fault.

use call::Milestone;
use plant::{CoilStage, FanSetting, FaultKind, LeakPlace, Mode, Motor, Switch, Terminal};

use crate::moves::{Move, Panel, Place};
use crate::notebook::{Entry, Observation, Outcome};
use crate::perform::Task;
use crate::trend::compressor_runs;
use crate::visit::Visit;

/// Less ice than this is not seen, kg.
pub(crate) const CLEAR_FROST_KG: f64 = 0.01;
/// Share of the coil under ice, and of its air passages closed, from which it is a block.
const BLOCK_ICED_SHARE: f64 = 0.6;
const BLOCK_OPEN_SHARE: f64 = 0.5;
/// A line this cold carries frost, if the air is not bone dry, K.
const FROST_K: f64 = 273.15;
/// Shares of rated airflow: strong from the first, none below the second.
const STRONG_AIR_SHARE: f64 = 0.7;
const NO_AIR_SHARE: f64 = 0.08;
/// A bulb that gives more than this share of its heat exchange to the air is bare to the eye.
const BARE_EXPOSURE: f64 = 0.15;
/// A bulb that gives more than this share of its heat exchange to the air around is seen to sit loose.
const LOOSE_EXPOSURE: f64 = 0.15;
/// Shares of registers shut, of the return duct's area lost, of the coil face shut and of a line's area lost that are
/// seen.
const REGISTERS_SHUT_SHARE: f64 = 0.25;
const DUCT_LOST_SHARE: f64 = 0.25;
const FACE_SHUT_SHARE: f64 = 0.2;
const LINE_LOST_SHARE: f64 = 0.3;
/// The same from where most of it is gone.
const MOST_SHARE: f64 = 0.7;
/// Severity of dirt in the blower wheel, and share of the outdoor airflow lost, that are seen.
const WHEEL_DIRT: f64 = 0.2;
const OUTDOOR_DIRT_SHARE: f64 = 0.2;
/// A fan that keeps a speed below this share of its running speed is seen to be slow.
const SLOW_SPEED: f64 = 0.9;
/// Below this share of its running speed a wheel counts as standing.
const STILL_SPEED: f64 = 0.2;
/// Change of speed in one tick below which a fan keeps its speed: a hot motor loses 1e-4 of it, one that starts or coasts 0.02.
const STEADY_SPEED: f64 = 2.0e-3;
/// Below this share of its running speed the blades can almost be told apart; from there to slow the ear tells it.
const BLADES_SEEN_SPEED: f64 = 0.7;
/// Voltage below which a thermostat's display is dark, V, and a contactor coil has no call, V.
const DISPLAY_V: f64 = 15.0;
const NO_CALL_V: f64 = 5.0;
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
        let mut sight = Sight::default();
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
                Switch::Closed => "The disconnect is in.",
                Switch::Open => "The disconnect is out, its handle hung up beside it.",
            }),
            Place::ControlBoard => self.see_control_board(&mut sight),
        }
        task.notes.extend(sight.sentences);
        task.reached.extend(sight.reached);
        task.see(sight.observations);
    }

    fn see_thermostat(&self, sight: &mut Sight) {
        let settings = &self.inputs.thermostat;
        let room_f = media::units::fahrenheit_from_kelvin(self.truth().room_k);
        let set_f = media::units::fahrenheit_from_kelvin(settings.set_point_k);
        let humidity = self.truth().room_relative_humidity * 100.0;
        let fan = match settings.fan {
            FanSetting::Auto => "fan auto",
            FanSetting::On => "fan on",
        };
        match settings.mode {
            _ if self.plant.voltage_v(&self.inputs, Terminal::ThermostatR, Terminal::C) < DISPLAY_V => {
                sight.say("The thermostat's display is dark.");
            }
            Mode::Off => {
                sight.say(format!("Off, {fan}. The room is at {room_f:.0} °F, {humidity:.0} % humidity."))
            }
            Mode::Cool => sight.say(format!(
                "Cool, {fan}, set to {set_f:.0} °F. The room is at {room_f:.0} °F, {humidity:.0} % humidity."
            )),
        }
    }

    fn feel_air(&self, place: Place, sight: &mut Sight) {
        let share = self.truth().airflow_m3_s / self.plant.system().air.rated_flow_m3_s;
        let (observation, sentence) = if share >= STRONG_AIR_SHARE {
            (Observation::AirStrong, "The air pulls a sheet of paper flat")
        } else if share >= NO_AIR_SHARE {
            (Observation::AirWeak, "A sheet of paper barely stirs in the air")
        } else {
            (Observation::AirNone, "A sheet of paper hangs still; no air moves")
        };
        sight.see(observation);
        sight.say(format!("{sentence} {}.", crate::label::at(place)));
        let shut = self.severity_of(FaultKind::ClosedSupplies);
        if place == Place::SupplyRegister && shut >= REGISTERS_SHUT_SHARE {
            sight.see(Observation::RegistersClosed);
            sight.say(if shut >= MOST_SHARE {
                "Most registers in the house are shut or stand under furniture."
            } else {
                "Some registers in the house are shut or stand under furniture."
            });
        }
        let fallen_in = self.severity_of(FaultKind::CollapsedReturnDuct);
        if place == Place::ReturnGrille && fallen_in >= DUCT_LOST_SHARE {
            sight.see(Observation::ReturnDuctCollapsed);
            sight.say(if fallen_in >= MOST_SHARE {
                "By torchlight through the grille: the duct behind it lies flat but for a slit."
            } else {
                "By torchlight through the grille: the duct behind it sags in on itself."
            });
        }
        if place == Place::SupplyRegister && observation != Observation::AirNone {
            let drop_k = self.truth().return_dry_bulb_k - self.truth().supply_dry_bulb_k;
            sight.say(if drop_k > 7.0 {
                "It feels cold."
            } else if drop_k > 2.0 {
                "It feels cool."
            } else {
                "It feels like the room."
            });
        }
    }

    fn see_filter_slot(&self, sight: &mut Sight) {
        sight.say("The cover of the filter slot is on. Pull the filter to see it.");
        if self.truth().coil_inlet_static_pa < -100.0 {
            sight.say("Air whistles at the edge of the cover.");
        }
    }

    fn see_blower(&self, sight: &mut Sight) {
        let turns = self.truth().blower_speed > STILL_SPEED;
        let hums = !turns && self.plant.hums(Motor::Blower);
        if !self.site.is_open(Panel::BlowerCompartment) {
            sight.say("The blower panel is on; you can't see the wheel.");
            sight.say(if turns || hums {
                "Something hums behind it."
            } else {
                "Nothing is to be heard behind it."
            });
            return;
        }
        let speed = self.truth().blower_speed;
        if turns && is_slow(speed, self.spin_before.blower) {
            sight.see(Observation::BlowerSlow);
            sight.say(if speed < BLADES_SEEN_SPEED {
                "The wheel turns, but so slowly that its blades can almost be told apart."
            } else {
                "The wheel turns with a low, labouring note, slower than it should; its motor is hot."
            });
        } else if turns {
            sight.see(Observation::BlowerTurning);
            sight.say(if self.truth().airflow_m3_s < 0.5 * self.plant.system().air.rated_flow_m3_s {
                "The wheel turns, and it sounds as if it turned in its own air."
            } else {
                "The wheel turns evenly."
            });
        } else {
            sight.see(Observation::BlowerStill);
            sight.say("The wheel stands.");
            if hums {
                sight.see(Observation::BlowerHumming);
                sight.say("Its motor hums and grows hot.");
            }
            if self.inputs.indoor_service_switch == Switch::Open {
                let stuck = self.is_there(FaultKind::SeizedBlowerMotor);
                sight.see(if stuck { Observation::WheelStuck } else { Observation::WheelTurnsFreely });
                sight.say(if stuck {
                    "By hand it does not turn at all."
                } else {
                    "By hand it turns freely and coasts to a stop."
                });
            }
            if self.severity_of(FaultKind::DirtyBlowerWheel) >= WHEEL_DIRT {
                sight.see(Observation::BlowerWheelDirty);
                sight.say("The hollows of its blades are packed with dust.");
            }
        }
    }

    fn see_coil(&self, sight: &mut Sight) {
        let truth = self.truth();
        let frost_kg = truth.frost_mass_kg;
        if !self.site.is_open(Panel::CoilCabinet) {
            sight.say("The cabinet is closed; the coil itself is out of sight.");
            if self.has_frosted_line_indoors() {
                sight.see(Observation::SomeIce);
                sight.say("White frost stands on the suction line where it leaves the cabinet.");
            } else if truth.suction_line_indoor_k < self.room_dew_point_k() {
                sight.say("The suction line sweats where it leaves the cabinet.");
            } else {
                sight.say("The suction line is dry where it leaves the cabinet.");
            }
            if truth.coil_stage == CoilStage::Melting {
                sight.say("Water runs from the drain.");
            } else if self.has_waited() && frost_kg < CLEAR_FROST_KG && !compressor_runs(truth) {
                sight.say("The drain has stopped running; nothing drips any more.");
                sight.reached.push(Milestone::CoilThawed);
            }
            return;
        }
        sight.reached.push(Milestone::CoilSeen);
        if frost_kg < CLEAR_FROST_KG {
            sight.see(Observation::NoIce);
            sight.reached.push(Milestone::CoilThawed);
            sight.say(match truth.coil_stage {
                CoilStage::Dry => "The coil is dry and free of ice from end to end.",
                _ => "The coil is wet and free of ice from end to end; water stands between its fins.",
            });
        } else if !self.sees_coil_face() {
            sight.see(Observation::BlockOfIce);
            sight.say("The coil is one block of ice; no fin shows.");
        } else {
            sight.see(Observation::SomeIce);
            sight.say(if truth.iced_share > 0.6 {
                "Frost covers most of the coil face."
            } else if truth.iced_share > 0.2 {
                "Frost covers part of the coil face."
            } else {
                "A little frost stands on the coil face."
            });
        }
        if truth.coil_stage == CoilStage::Melting {
            sight.say("The ice is melting: water drips from it into the pan.");
        }
        if self.sees_coil_face() && self.plant.coil_covered_share() > 0.0 {
            sight.see(Observation::FilterOnCoil);
            sight.say("A grey mat of filter medium lies on the face of the coil.");
        }
        if self.sees_coil_face() && self.severity_of(FaultKind::MattedCoilFace) >= FACE_SHUT_SHARE {
            sight.see(Observation::CoilFaceMatted);
            sight.say("A felt of lint and dust covers the face of the coil.");
        }
        if self.is_there(FaultKind::OpenCondensateSwitch) {
            sight.see(Observation::FloatSwitchUp);
            sight.say("At the drain pan the float switch stands at its top.");
        }
        if frost_kg < CLEAR_FROST_KG {
            self.see_oil(LeakPlace::IndoorCoil, sight);
        }
    }

    /// Whether what lies on the fins shows with the cabinet open: a block of ice hides it.
    pub fn sees_coil_face(&self) -> bool {
        let truth = self.truth();
        truth.iced_share < BLOCK_ICED_SHARE || truth.open_share > BLOCK_OPEN_SHARE
    }

    fn see_metering_device(&self, sight: &mut Sight) {
        let truth = self.truth();
        if self.has_bulb() {
            match self.site.bulb {
                crate::site::BulbState::InIceWater => {
                    sight.say("The bulb is off the line, in your cup of ice water.");
                }
                crate::site::BulbState::InHand | crate::site::BulbState::Hanging => {
                    sight.say("The bulb hangs off the line, as you left it.");
                }
                _ if self.plant.bulb_exposure() > BARE_EXPOSURE => {
                    sight.see(Observation::BulbBare);
                    sight.say("The bulb has no insulation; it lies in the cold air of the cabinet.");
                }
                _ if self.severity_of(FaultKind::BulbLoose) > LOOSE_EXPOSURE => {
                    sight.see(Observation::BulbLoose);
                    sight.say(
                        "The strap of the bulb has let go; the bulb can be turned and lifted off the line.",
                    );
                }
                _ => {
                    sight.see(Observation::BulbInsulated);
                    sight.say("The bulb is strapped to the line and wrapped.");
                }
            }
        } else {
            sight.say("A fixed orifice in a brass body; no bulb.");
        }
        if compressor_runs(truth) && truth.evaporating_k < FROST_K {
            sight.say("Frost begins right at the outlet of the device.");
        } else if compressor_runs(truth) {
            sight.say("Its outlet is cold and wet.");
        }
    }

    fn see_line_set(&self, sight: &mut Sight) {
        let truth = self.truth();
        self.see_suction_line_outdoors(sight);
        let liquid_over_outdoor_k = truth.liquid_after_drier_k - truth.outdoor_k;
        sight.say(if liquid_over_outdoor_k > 12.0 {
            "The liquid line is hot to the hand."
        } else if liquid_over_outdoor_k > 2.0 {
            "The liquid line is warm to the hand."
        } else if liquid_over_outdoor_k > -2.0 {
            "The liquid line is no warmer than the air."
        } else {
            "The liquid line is colder than the air."
        });
        let folded = self.severity_of(FaultKind::KinkedLiquidLine);
        if folded >= LINE_LOST_SHARE {
            sight.see(Observation::LiquidLineKinked);
            sight.say(if folded >= MOST_SHARE {
                "Between service valve and drier the liquid line is folded almost flat."
            } else {
                "Between service valve and drier the liquid line has a sharp dent."
            });
        }
        let folded = self.severity_of(FaultKind::KinkedSuctionLine);
        if folded >= LINE_LOST_SHARE {
            sight.see(Observation::SuctionLineKinked);
            sight.say(if folded >= MOST_SHARE {
                "Under its insulation the suction line is folded almost flat at the bend before the outdoor unit."
            } else {
                "The insulation of the suction line is creased at the bend before the outdoor unit, and the tube under it dented."
            });
        }
        self.see_oil(LeakPlace::LiquidLine, sight);
    }

    fn feel_drier(&self, sight: &mut Sight) {
        let truth = self.truth();
        let drop_k = truth.liquid_before_drier_k - truth.liquid_after_drier_k;
        if truth.liquid_service_valve_k - truth.liquid_before_drier_k > FELT_DIFFERENCE_K {
            sight.say("The line is colder to the hand at the drier's inlet than at the service valve.");
        }
        sight.say(if drop_k > FELT_DIFFERENCE_K {
            "The outlet of the drier is colder to the hand than its inlet."
        } else {
            "Inlet and outlet of the drier feel the same."
        });
    }

    fn see_outdoor_unit(&self, sight: &mut Sight) {
        let truth = self.truth();
        if compressor_runs(truth) {
            sight.see(Observation::CompressorRunning);
            sight.say("The compressor runs.");
        } else {
            sight.see(Observation::CompressorStill);
            sight.say("The compressor stands.");
            // A sound one that meets pressure hums for a few seconds, too; nobody tells that from a start.
            if self.is_there(FaultKind::WeakCompressorCapacitor) && self.plant.hums(Motor::Compressor) {
                sight.see(Observation::CompressorHumming);
                sight.say("It hums loudly without starting.");
            }
        }
        if truth.outdoor_fan_speed > STILL_SPEED
            && is_slow(truth.outdoor_fan_speed, self.spin_before.outdoor_fan)
        {
            sight.see(Observation::OutdoorFanSlow);
            sight.say(if truth.outdoor_fan_speed < BLADES_SEEN_SPEED {
                "The fan turns lazily; its blades can be counted."
            } else {
                "The fan turns slower than it should, and its motor is hot to the hand."
            });
        } else if truth.outdoor_fan_speed > STILL_SPEED {
            sight.see(Observation::OutdoorFanRunning);
            let rise_k = truth.condensing_k - truth.outdoor_k;
            sight.say(if compressor_runs(truth) && rise_k > 8.0 {
                "The fan blows warm air upwards."
            } else {
                "The fan runs; its air is hardly warmer than the day."
            });
        } else {
            sight.see(Observation::OutdoorFanStill);
            sight.say("The fan stands.");
            if self.plant.hums(Motor::OutdoorFan) {
                sight.see(Observation::OutdoorFanHumming);
                sight.say("Its motor hums and is hot to the hand.");
            }
        }
        if self.severity_of(FaultKind::FouledCondenser) >= OUTDOOR_DIRT_SHARE {
            sight.see(Observation::OutdoorCoilDirty);
            sight.say("The fins of the outdoor coil are grey with fluff and grass.");
        }
        self.see_contactor(sight);
        self.see_low_voltage_cable(sight);
        self.see_suction_line_outdoors(sight);
        self.see_oil(LeakPlace::SuctionServiceValve, sight);
    }

    fn see_control_board(&self, sight: &mut Sight) {
        sight.say("The wires on R, C, Y and G sit tight.");
        sight.say(match self.inputs.indoor_service_switch {
            Switch::Closed if !self.is_there(FaultKind::OpenTransformer) => "The transformer hums.",
            _ => "The transformer is silent.",
        });
        if self.plant.control_fuse_is_blown() {
            sight.see(Observation::FuseBlown);
            sight.say("The window of the low-voltage fuse is black.");
        }
    }

    /// The contactor behind its panel: closed contacts over a coil without a call.
    fn see_contactor(&self, sight: &mut Sight) {
        let coil_v = self.plant.voltage_v(&self.inputs, Terminal::ContactorCoilY, Terminal::ContactorCoilC);
        if self.site.is_open(Panel::OutdoorElectrical)
            && self.is_there(FaultKind::WeldedContactor)
            && coil_v < NO_CALL_V
        {
            sight.see(Observation::ContactorInWithoutCall);
            sight.say("The contactor is pulled in though nothing calls; its contacts stay closed.");
        }
    }

    /// The low-voltage cable behind the panel, where it comes through the wall of the cabinet.
    fn see_low_voltage_cable(&self, sight: &mut Sight) {
        if self.site.is_open(Panel::OutdoorElectrical) && self.is_there(FaultKind::ShortedYConductor) {
            sight.see(Observation::CableChafed);
            sight.say(
                "Where the low-voltage cable comes through the sheet metal its sheath is worn away; the copper of two \
                 conductors lies bare.",
            );
        }
    }

    /// Severity of a kind of fault that has set in, 0 if there is none.
    fn severity_of(&self, kind: FaultKind) -> f64 {
        let time_s = self.time_s();
        self.plant
            .faults()
            .iter()
            .filter(|fault| fault.kind == kind && fault.onset_s <= time_s)
            .map(|fault| fault.severity)
            .fold(0.0, f64::max)
    }

    /// Whether a kind of fault has set in.
    fn is_there(&self, kind: FaultKind) -> bool {
        self.severity_of(kind) > 0.0
    }

    fn see_suction_line_outdoors(&self, sight: &mut Sight) {
        let truth = self.truth();
        if self.has_frosted_line_outdoors() {
            sight.see(Observation::SomeIce);
            sight.say("The suction line is white with frost down to the service valve.");
        } else if truth.suction_line_outdoor_k < self.seeded.weather.dew_point_k {
            sight.say("The suction line is cold and sweats.");
        } else if truth.suction_line_outdoor_k < truth.outdoor_k - 4.0 {
            sight.say("The suction line is cool and dry.");
        } else {
            sight.say("The suction line is as warm as the day.");
        }
    }

    fn see_oil(&self, place: LeakPlace, sight: &mut Sight) {
        if self.plant.leak_hole_m(place) >= OIL_STAIN_HOLE_M {
            sight.see(Observation::OilStain(place));
            sight.say(format!("There is an oily patch with dust on it: {}.", place.label()));
        } else {
            sight.see(Observation::NoOilStain);
            sight.say("No oil to be seen.");
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
struct Sight {
    observations: Vec<Observation>,
    sentences: Vec<String>,
    reached: Vec<Milestone>,
}

impl Sight {
    fn see(&mut self, observation: Observation) {
        self.observations.push(observation);
    }

    fn say(&mut self, sentence: impl Into<String>) {
        self.sentences.push(sentence.into());
    }
}

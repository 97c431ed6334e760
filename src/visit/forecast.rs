//! What a move would give, asked of a copy of the visit.

use std::collections::VecDeque;

use plant::{Capacitor, StepError, Switch, Terminal};
use quantity::Duration;

use crate::action::Move;
use crate::moves::Dead;
use crate::notebook::{Entry, Outcome};
use crate::place::{Location, Panel, Place};
use crate::recording::is_iced;
use crate::site::Gauges;
use crate::visit::{Step, Visit};

/// Time without power after which the capacitors of an ECM's module are taken for empty, min (common practice, from memory).
const MODULE_RUNS_DOWN_MIN: f64 = 5.0;

fn needs_dead_circuit(action: &Move) -> bool {
    action.dead() == Dead::AtProbes
}

fn is_across_contactor_coil(action: &Move) -> bool {
    let coil = [Terminal::ContactorCoilY, Terminal::ContactorCoilC];
    matches!(action, Move::MeasureResistance { from, to } if coil.contains(from) || coil.contains(to))
}

impl Visit {
    /// What a look or a measurement would give at this moment, its instrument settled and everything that stands
    /// in the way removed: panels open, gauges on, and for ohms and microfarads the power off. `None` for moves that
    /// need time or change something. The coil is seen with its cabinet open. No time passes and nothing is written down,
    /// but instruments and capacitors are left as it took them: ask a copy.
    pub fn foresee(&mut self, action: &Move) -> Option<Outcome> {
        if !action.only_tells() {
            return None;
        }
        let set = self.inputs.clone();
        let site = self.site.clone();
        if *action == Move::Look(Place::IndoorCoil) {
            self.site.open_panels.insert(Panel::CoilCabinet);
        } else if self.refusal(action).is_some() {
            self.site.open_panels.extend(Panel::ALL);
            if self.refusal(action).is_some() {
                self.site.open_panels.clear();
            }
        }
        self.site.gauges = Gauges::On;
        self.kit.connect_gauges();
        if needs_dead_circuit(action) {
            self.inputs.outdoor_disconnect = Switch::Open;
            self.inputs.indoor_service_switch = Switch::Open;
            for capacitor in Capacitor::ALL {
                self.plant.discharge_capacitor(capacitor);
            }
            self.plant.drain_module();
        }
        let outcome = match self.refusal(action) {
            Some(_) => None,
            None => self.make_at_once(action),
        };
        self.inputs = set;
        self.site = site;
        outcome
    }

    /// What a test of the sensing bulb would give if it were made now, with the cabinet open and the gauges on; `None` for other moves, and
    /// where it can't be made. A copy is worked through it.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn foresee_bulb_test(&self, action: &Move) -> Result<Option<Outcome>, StepError> {
        if !action.tests_the_bulb() {
            return Ok(None);
        }
        let mut copy = self.clone();
        copy.task = None;
        copy.queue.clear();
        copy.site.open_panels.insert(Panel::CoilCabinet);
        copy.site.gauges = Gauges::On;
        copy.kit.connect_gauges();
        if copy.refusal(action).is_some() {
            return Ok(None);
        }
        copy.perform(action)?;
        Ok(copy.notebook().last().map(|entry| entry.outcome.clone()))
    }

    /// Makes the instants of a plan without the time between them.
    fn make_at_once(&mut self, action: &Move) -> Option<Outcome> {
        let steps = self.plan(action);
        let mut task = self.task_of(action.clone(), VecDeque::new(), Outcome::Done, Vec::new());
        for step in steps {
            match step {
                Step::Pass { .. } => {}
                Step::Act(act) => {
                    self.kit.settle(self.plant.readout());
                    act(self, &mut task);
                }
                Step::Until { .. } => return None,
            }
        }
        Some(task.outcome)
    }

    /// A copy as it would be after a thaw, both switches in and cooling called for, when it has run for so long, s.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn run_up(&self, seconds: f64) -> Result<Visit, StepError> {
        let mut copy = self.clone();
        copy.plant = self.plant.thawed();
        copy.inputs.outdoor_disconnect = Switch::Closed;
        copy.inputs.indoor_service_switch = Switch::Closed;
        copy.inputs.thermostat = plant::ThermostatSettings {
            mode: plant::Mode::Cool,
            fan: plant::FanSetting::Auto,
            set_point_k: media::units::kelvin_from_fahrenheit(60.0),
        };
        copy.left_alone(seconds)
    }

    /// A copy of the visit some time after the indoor service switch was opened.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn switched_off(&self, seconds: f64) -> Result<Visit, StepError> {
        let mut copy = self.clone();
        copy.inputs.indoor_service_switch = Switch::Open;
        copy.left_alone(seconds)
    }

    /// The visit after some time in which nothing is done: what was being done is dropped.
    fn left_alone(mut self, seconds: f64) -> Result<Visit, StepError> {
        self.task = None;
        self.queue.clear();
        self.let_time_pass(seconds)?;
        self.catch_up()?;
        Ok(self)
    }

    /// Whether there is so much ice on the coil that readings of the running system mean little: the truth, for shadows.
    pub fn is_iced(&self) -> bool {
        is_iced(self.truth())
    }

    /// What has to be done before a move that the site forbids as it is: panels off (the outdoor one with the disconnect
    /// out), gauges on, and for ohms and microfarads the power off and capacitors discharged or run down. `None` if nothing of
    /// that kind makes it possible.
    pub fn needed_first(&self, action: &Move) -> Option<Vec<Move>> {
        let mut copy = self.clone();
        let mut first = Vec::new();
        if *action == Move::Look(Place::IndoorCoil) && !copy.site.is_open(Panel::CoilCabinet) {
            first.push(Move::OpenPanel(Panel::CoilCabinet));
        }
        if copy.refusal(action).is_some() {
            let ways = Panel::ALL.map(Move::OpenPanel).into_iter().chain([Move::ConnectGauges]);
            for way in ways {
                let mut tried = copy.clone();
                match way {
                    Move::OpenPanel(panel) => {
                        tried.site.open_panels.insert(panel);
                    }
                    _ => tried.site.gauges = Gauges::On,
                }
                if tried.refusal(action).is_none() {
                    let live = way == Move::OpenPanel(Panel::OutdoorElectrical)
                        && copy.inputs.outdoor_disconnect == Switch::Closed;
                    if live {
                        first.extend([
                            Move::OutdoorDisconnect(Switch::Open),
                            way,
                            Move::OutdoorDisconnect(Switch::Closed),
                        ]);
                    } else {
                        first.push(way);
                    }
                    copy = tried;
                    break;
                }
            }
            if copy.refusal(action).is_some() && !copy.site.open_panels.is_empty() {
                first.extend(copy.site.open_panels.iter().map(|panel| Move::ClosePanel(*panel)));
                copy.site.open_panels.clear();
            }
            if copy.refusal(action).is_some() {
                return None;
            }
        }
        if action.tests_the_bulb() && self.site.gauges == Gauges::Off {
            first.push(Move::ConnectGauges);
        }
        if needs_dead_circuit(action) {
            first.extend(copy.made_dead_for(action));
        }
        Some(first)
    }

    /// Whether the indoor service switch has been open for so long, by the notebook, that the module of an ECM counts as empty.
    fn module_has_run_down(&self) -> bool {
        let made = |entry: &&Entry| {
            matches!(entry.action, Move::IndoorServiceSwitch(_)) && entry.outcome == Outcome::Done
        };
        self.inputs.indoor_service_switch == Switch::Open
            && self
                .notebook()
                .iter()
                .rev()
                .find(made)
                .is_none_or(|entry| self.time_s() - entry.finished_s >= 60.0 * MODULE_RUNS_DOWN_MIN)
    }

    fn made_dead_for(&self, action: &Move) -> Vec<Move> {
        let mut first = Vec::new();
        let outdoors = self.location_of(action) == Some(Location::Outdoors);
        if outdoors && self.inputs.outdoor_disconnect == Switch::Closed {
            first.push(Move::OutdoorDisconnect(Switch::Open));
        }
        // The control voltage comes from the transformer at the air handler, also where it ends outdoors.
        if (!outdoors || is_across_contactor_coil(action))
            && self.inputs.indoor_service_switch == Switch::Closed
        {
            first.push(Move::IndoorServiceSwitch(Switch::Open));
        }
        if matches!(action, Move::MeasureResistance { from, to } if from.is_ecm_phase() || to.is_ecm_phase())
            && !self.module_has_run_down()
        {
            first.push(Move::Wait(Duration::Minutes(MODULE_RUNS_DOWN_MIN)));
        }
        if let Move::MeasureCapacitance { from, to } = action {
            let between = |capacitor: &Capacitor| {
                let (one, other) = plant::Plant::capacitor_terminals(*capacitor);
                (one, other) == (*from, *to) || (other, one) == (*from, *to)
            };
            first.extend(Capacitor::ALL.into_iter().filter(between).map(Move::DischargeCapacitor));
        }
        first
    }
}

//! Thermostat, relays, protections, and the speeds of the motors they switch.

use serde::{Deserialize, Serialize};

use crate::air::{AirPath, Passages, air_path};
use crate::compressor::Compression;
use crate::electric::{Contacts, DISC_TIME_S, ENERGISED_V, ElectricState, Refresh, Speeds};
use crate::event::Event;
use crate::fault::Wiring;
use crate::system::System;
use crate::wear::START_GIVES_WAY_S;
use crate::{FanSetting, Inputs, Mode, Switch};

/// State of the controls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Control {
    /// Thermostat calls for the compressor.
    pub y: bool,
    /// Thermostat calls for the blower.
    pub g: bool,
    /// High-pressure switch has opened.
    pub high_pressure_open: bool,
    /// Times since high-pressure and low-pressure switch last opened, s.
    pub high_pressure_open_for_s: f64,
    pub low_pressure_open_for_s: f64,
    /// Internal overload of the compressor has opened.
    pub overload_open: bool,
    /// Internal thermal disc of the compressor has opened.
    pub thermal_disc_open: bool,
    /// Armature of the contactor is in.
    pub contactor_in: bool,
    /// Time since the thermostat last had its 24 V, s.
    pub dark_for_s: f64,
    /// Time since the compressor last stopped, s.
    pub off_for_s: f64,
    /// Time the compressor has run without a stop, s.
    pub on_for_s: f64,
    /// Speeds, 0 to 1.
    pub compressor_speed: f64,
    pub outdoor_fan_speed: f64,
    pub blower_speed: f64,
    /// The rest of the electrical side.
    pub electric: ElectricState,
}

/// What thermostat and protections feel.
pub(crate) struct Sensed {
    pub room_k: f64,
    pub high_side_pa: f64,
    pub suction_pa: f64,
    pub winding_k: f64,
    /// Scrolls and dome, K.
    pub dome_k: f64,
    /// Electric power that the compressor took in the last step, W.
    pub compressor_power_w: f64,
}

impl Default for Control {
    fn default() -> Self {
        Control {
            y: false,
            g: false,
            high_pressure_open: false,
            high_pressure_open_for_s: 0.0,
            low_pressure_open_for_s: 0.0,
            overload_open: false,
            thermal_disc_open: false,
            contactor_in: false,
            dark_for_s: 1.0e6,
            off_for_s: 1.0e6,
            on_for_s: 0.0,
            compressor_speed: 0.0,
            outdoor_fan_speed: 0.0,
            blower_speed: 0.0,
            electric: ElectricState::default(),
        }
    }
}

/// Voltage that a thermostat needs to work, V (typ.).
const THERMOSTAT_V: f64 = 15.0;
/// Time that its storage capacitor bridges, with its contacts as they are, s (typ., one to a few seconds). Without it a short
/// would let go of itself before the fuse melts.
const HOLD_UP_S: f64 = 2.0;

/// Time that a pressure switch of these units stays open, s. Such switches close by themselves when pressure has come back,
/// which at rest may take seconds; a timer against short cycling holds the contactor's circuit open for some three minutes
/// (typ.; 180 to 300 s are sold). Drawn as one with its switch, so that a meter across the pair finds 24 V until it closes.
const SWITCH_HOLDS_S: f64 = 180.0;

/// By how much a fan may be off the speed that it is driven to and still turns evenly, as a share (numerical).
const SPEEDS_DIFFER: f64 = 1.0e-3;

fn ramp(speed: &mut f64, target: f64, up_s: f64, down_s: f64, dt_s: f64) {
    let step = dt_s / if target > *speed { up_s } else { down_s };
    *speed = if target > *speed { (*speed + step).min(target) } else { (*speed - step).max(target) };
}

impl Control {
    /// One step of the controls.
    pub(crate) fn step(
        &mut self,
        system: &System,
        faults: Wiring,
        inputs: &Inputs,
        sensed: &Sensed,
        dt_s: f64,
        events: &mut Events,
    ) {
        // Switches first: they decide whether the thermostat has its 24 V.
        let settled = self.settle(system, inputs, faults);
        let before = self.switched();
        self.thermostat(system, inputs, sensed, dt_s);
        self.protections(system, sensed, dt_s, events);
        if !settled || self.switched() != before {
            self.settle(system, inputs, faults);
        }
        self.motors(system, sensed, dt_s, events);
        let speeds = self.speeds();
        self.electric.warm(system, &speeds, dt_s);
    }

    fn thermostat(&mut self, system: &System, inputs: &Inputs, sensed: &Sensed, dt_s: f64) {
        let lit = self.electric.solved.as_ref().is_some_and(|s| s.control_v > THERMOSTAT_V);
        self.dark_for_s = if lit { 0.0 } else { self.dark_for_s + dt_s };
        let powered = self.dark_for_s < HOLD_UP_S;
        let t = &inputs.thermostat;
        let data = &system.controls;
        if !powered || t.mode == Mode::Off {
            self.y = false;
        } else if self.y {
            self.y = sensed.room_k > t.set_point_k - 0.5 * data.differential_k;
        } else {
            self.y = sensed.room_k > t.set_point_k + 0.5 * data.differential_k
                && self.off_for_s >= data.off_time_min_s;
        }
        self.g = powered && (self.y || t.fan == FanSetting::On);
    }

    fn protections(&mut self, system: &System, sensed: &Sensed, dt_s: f64, events: &mut Events) {
        let data = &system.controls;
        if sensed.high_side_pa > data.high_pressure_opens_pa && !self.high_pressure_open {
            self.high_pressure_open = true;
            self.high_pressure_open_for_s = 0.0;
            events.push(Event::HighPressureSwitchOpened);
        } else if self.high_pressure_open {
            self.high_pressure_open_for_s += dt_s;
            self.high_pressure_open = self.high_pressure_open_for_s < SWITCH_HOLDS_S
                || sensed.high_side_pa >= data.high_pressure_closes_pa;
        }
        if let (Some(opens_pa), Some(closes_pa)) = (data.low_pressure_opens_pa, data.low_pressure_closes_pa) {
            if sensed.suction_pa < opens_pa && !self.electric.low_pressure_open {
                self.electric.low_pressure_open = true;
                self.low_pressure_open_for_s = 0.0;
                events.push(Event::LowPressureSwitchOpened);
            } else if self.electric.low_pressure_open {
                self.low_pressure_open_for_s += dt_s;
                self.electric.low_pressure_open =
                    self.low_pressure_open_for_s < SWITCH_HOLDS_S || sensed.suction_pa <= closes_pa;
            }
        }
        let c = &system.compressor;
        let disc_k = sensed.winding_k + self.electric.disc_rise_k;
        if disc_k > c.overload_opens_k && !self.overload_open {
            self.overload_open = true;
            events.push(Event::OverloadOpened);
        } else if disc_k < c.overload_closes_k {
            self.overload_open = false;
        }
        if sensed.dome_k > c.disc_opens_k && !self.thermal_disc_open {
            self.thermal_disc_open = true;
            events.push(Event::ThermalDiscOpened);
        } else if sensed.dome_k < c.disc_closes_k {
            self.thermal_disc_open = false;
        }
    }

    /// What decides the network now.
    #[inline]
    pub(crate) fn contacts(&self, inputs: &Inputs, faults: Wiring) -> Contacts {
        let (e, speeds) = (&self.electric, self.speeds());
        Contacts {
            outdoor_disconnect: inputs.outdoor_disconnect == Switch::Closed,
            service_switch: inputs.indoor_service_switch == Switch::Closed,
            thermostat_y: self.y,
            thermostat_g: self.g,
            contactor_in: self.contactor_in,
            relay_in: e.relay_in,
            high_pressure_open: self.high_pressure_open,
            low_pressure_open: e.low_pressure_open,
            // Both break the same internal line.
            overload_open: self.overload_open || self.thermal_disc_open,
            fan_protector_open: e.fan_protector_open,
            blower_protector_open: e.blower_protector_open,
            fuse_blown: e.fuse.blown,
            compressor_turns: speeds.compressor_turns(),
            fan_turns: speeds.fan_turns(),
            blower_turns: speeds.blower_turns(),
            leads_off: e.leads_off,
            motor_leads_off: e.motor_leads_off,
            faults,
        }
    }

    /// What thermostat and protections switch.
    fn switched(&self) -> [bool; 5] {
        let opened = self.overload_open || self.thermal_disc_open;
        [self.y, self.g, self.high_pressure_open, self.electric.low_pressure_open, opened]
    }

    /// Whether the armatures came to rest. Mostly nothing has changed since the network was solved.
    #[inline]
    fn settle(&mut self, system: &System, inputs: &Inputs, faults: Wiring) -> bool {
        let contacts = self.contacts(inputs, faults);
        let is_solved = self.electric.solved.as_ref().is_some_and(|solved| solved.is_for(&contacts));
        is_solved || self.settle_anew(system, contacts)
    }

    #[cold]
    #[inline(never)]
    fn settle_anew(&mut self, system: &System, contacts: Contacts) -> bool {
        let speeds = self.speeds();
        let (contacts, settled) = self.electric.settle(system, contacts, &speeds);
        self.contactor_in = contacts.contactor_in;
        settled
    }

    pub(crate) fn speeds(&self) -> Speeds {
        Speeds { compressor: self.compressor_speed, fan: self.outdoor_fan_speed, blower: self.blower_speed }
    }

    fn motors(&mut self, system: &System, sensed: &Sensed, dt_s: f64, events: &mut Events) {
        let Some(s) = &self.electric.solved else { return };
        let energised = s.compressor_v > ENERGISED_V;
        let drive = s.compressor;

        let was_running = self.compressor_speed > 0.0;
        let locked = if !energised {
            false
        } else if was_running && !self.electric.locked {
            // Overloaded beyond its breakdown torque it stalls.
            sensed.compressor_power_w * system.compressor.motor_efficiency > drive.breakdown_w
        } else if was_running {
            true
        } else {
            let data = system.electrical();
            let unloaded = libm::exp(-self.off_for_s / data.start.unload_time_s);
            let difference_pa = (sensed.high_side_pa - sensed.suction_pa) * unloaded;
            !drive.starts(&data, difference_pa)
        };
        self.electric.locked = locked;
        self.ramp_speeds(&self.target_speeds(), dt_s);

        let disc_target_k = match (energised, locked) {
            (true, true) => drive.locked_rise_k,
            (true, false) => drive.run_rise_k,
            (false, _) => 0.0,
        };
        if disc_target_k != self.electric.disc_rise_k {
            let share = (dt_s / DISC_TIME_S).min(1.0);
            self.electric.disc_rise_k += (disc_target_k - self.electric.disc_rise_k) * share;
            if self.electric.disc_rise_k.abs() < 1.0e-3 && disc_target_k == 0.0 {
                self.electric.disc_rise_k = 0.0;
            }
        }

        let runs = self.compressor_speed > 0.0;
        if runs && !was_running {
            self.on_for_s = 0.0;
            events.push(Event::CompressorStarted);
        }
        if was_running && !runs {
            self.off_for_s = 0.0;
            events.push(Event::CompressorStopped);
        }
        if runs {
            self.on_for_s += dt_s;
        } else {
            self.off_for_s += dt_s;
            self.on_for_s = 0.0;
        }
    }

    /// Speeds that the motors run up or down to, as they are switched now.
    pub(crate) fn target_speeds(&self) -> Speeds {
        let Some(s) = &self.electric.solved else { return self.speeds() };
        let runs = s.compressor_v > ENERGISED_V && !self.electric.locked;
        Speeds {
            compressor: f64::from(u8::from(runs)),
            fan: self.electric.fan.speed,
            blower: self.electric.blower.speed,
        }
    }

    /// Speeds after a time on the way to these targets. A scroll is at speed in half a second and stops at once; fans
    /// coast.
    pub(crate) fn ramp_speeds(&mut self, target: &Speeds, time_s: f64) {
        ramp(&mut self.compressor_speed, target.compressor, 0.5, 0.5, time_s);
        ramp(&mut self.outdoor_fan_speed, target.fan, 2.0, 6.0, time_s);
        ramp(&mut self.blower_speed, target.blower, 3.0, 12.0, time_s);
    }

    /// Bring the fans in line with what the air has to pass and with the temperature of their windings.
    pub(crate) fn drive_fans(&mut self, system: &System, passages: &Passages, refresh: Refresh) {
        if system.plate.blower_capacitor_f.is_some() {
            self.electric.wheel_w = air_path(&system.air, 1.0, passages).blower_power_w;
        }
        let speeds = self.speeds();
        self.electric.drive_fans(system, &speeds, refresh);
    }

    /// Temperatures of the windings of outdoor fan and blower over their air, K.
    pub(crate) fn winding_rises_k(&self) -> [f64; 2] {
        [self.electric.fan_rise_k, self.electric.blower_rise_k]
    }

    /// Put those temperatures, K.
    pub(crate) fn set_fan_winding_rise(&mut self, rise_k: f64) {
        self.electric.fan_rise_k = rise_k;
    }

    pub(crate) fn set_blower_winding_rise(&mut self, rise_k: f64) {
        self.electric.blower_rise_k = rise_k;
    }

    /// Their rates, K/s.
    pub(crate) fn winding_rates_k_s(&self, system: &System) -> [f64; 2] {
        self.electric.winding_rates_k_s(system, &self.speeds())
    }

    /// The air that the blower moves through what is in its way, and its electric power.
    pub(crate) fn blower_path(&self, system: &System, passages: &Passages) -> AirPath {
        self.electric.blower_path(system, self.blower_speed, passages)
    }

    /// Motor losses of a weak or locked compressor, on top of what the sound motor takes.
    pub(crate) fn load_compressor(&self, compression: &mut Compression) {
        self.electric.load_compressor(compression);
    }
}

/// What a plant needs of its controls that is to go on in long strides.
impl Control {
    /// What decided the network in the last step.
    pub(crate) fn contacts_solved(&self) -> Option<Contacts> {
        self.electric.solved.as_ref().map(|solved| solved.contacts)
    }

    /// Whether every motor stands or turns as it is switched, and the fuse is as warm as its current makes it.
    pub(crate) fn turns_evenly(&self) -> bool {
        let (now, target) = (self.speeds(), self.target_speeds());
        let is_near = |now: f64, target: f64| (now - target).abs() < SPEEDS_DIFFER;
        now.compressor == target.compressor
            && is_near(now.fan, target.fan)
            && is_near(now.blower, target.blower)
            && !self.electric.locked
            && self.electric.fuse_rests()
    }

    /// Time until the next timer runs out, s.
    pub(crate) fn timers_s(&self, system: &System) -> f64 {
        let left_s = |limit_s: f64, is_s: f64| if is_s < limit_s { limit_s - is_s } else { f64::INFINITY };
        let mut first_s = f64::INFINITY;
        if self.compressor_speed > 0.0 {
            first_s = first_s.min(left_s(START_GIVES_WAY_S, self.on_for_s));
        } else {
            first_s = first_s.min(left_s(system.controls.off_time_min_s, self.off_for_s));
        }
        if self.high_pressure_open {
            first_s = first_s.min(left_s(SWITCH_HOLDS_S, self.high_pressure_open_for_s));
        }
        if self.electric.low_pressure_open {
            first_s = first_s.min(left_s(SWITCH_HOLDS_S, self.low_pressure_open_for_s));
        }
        if self.dark_for_s > 0.0 {
            first_s = first_s.min(left_s(HOLD_UP_S, self.dark_for_s));
        }
        first_s
    }

    /// Lets time pass for the timers.
    pub(crate) fn pass(&mut self, seconds: f64) {
        if self.compressor_speed > 0.0 {
            self.on_for_s += seconds;
        } else {
            self.off_for_s += seconds;
        }
        if self.high_pressure_open {
            self.high_pressure_open_for_s += seconds;
        }
        if self.electric.low_pressure_open {
            self.low_pressure_open_for_s += seconds;
        }
        if self.dark_for_s > 0.0 {
            self.dark_for_s += seconds;
        }
    }
}

/// Events of one step, without allocation.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Events {
    list: [Option<Event>; 8],
    count: usize,
}

impl Events {
    pub(crate) fn push(&mut self, event: Event) {
        if self.count < self.list.len() {
            self.list[self.count] = Some(event);
            self.count += 1;
        }
    }

    /// The events, in order.
    pub fn iter(&self) -> impl Iterator<Item = Event> + '_ {
        self.list.iter().flatten().copied()
    }
}

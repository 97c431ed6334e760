//! Thermostat, relays, protections, and the speeds of the motors they switch.

use serde::{Deserialize, Serialize};

use crate::state::Event;
use crate::system::System;
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
    /// Internal overload of the compressor has opened.
    pub overload_open: bool,
    /// Contactor is pulled in.
    pub contactor_in: bool,
    /// Time since the compressor last stopped, s.
    pub off_for_s: f64,
    /// Time the compressor has run without a stop, s.
    pub on_for_s: f64,
    /// Speeds, 0 to 1.
    pub compressor_speed: f64,
    pub outdoor_fan_speed: f64,
    pub blower_speed: f64,
}

/// What thermostat and protections feel.
pub(crate) struct Sensed {
    pub room_k: f64,
    pub high_side_pa: f64,
    pub winding_k: f64,
}

impl Default for Control {
    fn default() -> Self {
        Control {
            y: false,
            g: false,
            high_pressure_open: false,
            overload_open: false,
            contactor_in: false,
            off_for_s: 1.0e6,
            on_for_s: 0.0,
            compressor_speed: 0.0,
            outdoor_fan_speed: 0.0,
            blower_speed: 0.0,
        }
    }
}

fn ramp(speed: &mut f64, target: f64, up_s: f64, down_s: f64, dt_s: f64) {
    let step = dt_s / if target > *speed { up_s } else { down_s };
    *speed = if target > *speed { (*speed + step).min(target) } else { (*speed - step).max(target) };
}

impl Control {
    /// One step of the controls.
    pub(crate) fn step(
        &mut self,
        system: &System,
        inputs: &Inputs,
        sensed: &Sensed,
        dt_s: f64,
        events: &mut Events,
    ) {
        let powered_indoors = inputs.indoor_service_switch == Switch::Closed;
        let powered_outdoors = inputs.outdoor_disconnect == Switch::Closed;
        let t = &inputs.thermostat;
        let data = &system.controls;

        // The thermostat lives on the transformer of the air handler.
        if !powered_indoors || t.mode == Mode::Off {
            self.y = false;
        } else if self.y {
            self.y = sensed.room_k > t.set_point_k - 0.5 * data.differential_k;
        } else {
            self.y = sensed.room_k > t.set_point_k + 0.5 * data.differential_k
                && self.off_for_s >= data.off_time_min_s;
        }
        self.g = powered_indoors && (self.y || t.fan == FanSetting::On);

        if sensed.high_side_pa > data.high_pressure_opens_pa && !self.high_pressure_open {
            self.high_pressure_open = true;
            events.push(Event::HighPressureSwitchOpened);
        } else if sensed.high_side_pa < data.high_pressure_closes_pa {
            self.high_pressure_open = false;
        }
        let c = &system.compressor;
        if sensed.winding_k > c.overload_opens_k && !self.overload_open {
            self.overload_open = true;
            events.push(Event::OverloadOpened);
        } else if sensed.winding_k < c.overload_closes_k {
            self.overload_open = false;
        }

        self.contactor_in = self.y && !self.high_pressure_open;
        let outdoor_on = self.contactor_in && powered_outdoors;
        let compressor_on = outdoor_on && !self.overload_open;
        let was_running = self.compressor_speed > 0.0;
        // A scroll is at speed in half a second and stops at once; fans coast.
        ramp(&mut self.compressor_speed, f64::from(u8::from(compressor_on)), 0.5, 0.5, dt_s);
        ramp(&mut self.outdoor_fan_speed, f64::from(u8::from(outdoor_on)), 2.0, 6.0, dt_s);
        ramp(&mut self.blower_speed, f64::from(u8::from(self.g)), 3.0, 12.0, dt_s);
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

//! Fan motors at work: the speed at which motor and wheel agree, and how warm the windings get.
//!
//! A run capacitor that has lost capacitance leaves the motor with more of the backward field: more slip, more heat. Heat
//! raises the resistance of windings and rotor, which costs more slip, and a slow wheel cools its motor less: a slow, hot
//! wheel, until the protector opens. All of it follows from the two revolving fields, nothing is set by how weak the
//! capacitor is.

use super::data::{Blower, Electrical};
use super::motors::{FanLoad, Protector, SplitPhaseMotor, Supply};
use super::network::{Complex, SUPPLY_RAD_S};
use super::state::{ENERGISED_V, ElectricState, FanDrive, Speeds};
use crate::System;

/// Change of a winding's temperature, K, and of the wheel's power, as a share, after which the speed is found anew: steps of
/// 2e-4 of a sound motor's speed, which nobody measures, and a hundred of them in a warm-up.
const MOVED_K: f64 = 0.5;
const MOVED_SHARE: f64 = 5.0e-4;
/// A slip above this is a rotor at rest.
const STANDS_FROM: f64 = 0.97;
/// Speed below which a rotor starts from rest.
const AT_REST_BELOW: f64 = 0.05;

/// When the speed at which motor and wheel agree is found anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Refresh {
    /// When temperature or load have moved enough to show.
    WhenMoved,
    /// Now.
    Now,
}

impl FanDrive {
    /// Runs or does not, whatever it carries.
    pub(crate) fn switched(runs: bool) -> FanDrive {
        FanDrive { speed: f64::from(u8::from(runs)), ..FanDrive::default() }
    }

    /// Energised and at rest.
    fn at_rest(power_w: f64) -> FanDrive {
        FanDrive { slip: 1.0, power_w, loss_w: power_w, ..FanDrive::default() }
    }

    /// The load of a wheel for which the sound, warm motor takes `wheel_w` at 240 V: its power gives the load in the motor's own
    /// terms. The one that was found before, if it is the same.
    fn load_of(&self, sound: &SplitPhaseMotor, wheel_w: f64) -> FanLoad {
        if wheel_w == self.found_at_w && self.load.reference_nm > 0.0 {
            return self.load;
        }
        let warm = sound.warmed(sound.rated_rise_k);
        let reference_slip = warm.slip_for_input(wheel_w);
        FanLoad {
            reference_nm: warm.point(warm.rated_supply(), reference_slip).torque_nm,
            reference_slip,
            breakaway_nm: sound.breakaway_share * sound.rated().torque_nm,
        }
    }

    fn has_moved(&self, rise_k: f64, wheel_w: f64) -> bool {
        (rise_k - self.found_at_k).abs() > MOVED_K
            || (wheel_w - self.found_at_w).abs() > MOVED_SHARE * self.found_at_w
    }
}

/// Where a motor settles.
///
/// `motor` is the one that is there, on its tap and as warm as it is.
fn settled(motor: &SplitPhaseMotor, supply: Supply, load: FanLoad, speed: f64) -> FanDrive {
    let from_slip =
        if speed < AT_REST_BELOW { 1.0 } else { (1.0 - speed * (1.0 - load.reference_slip)).clamp(0.0, 1.0) };
    let slip = motor.fan_slip(supply, load, from_slip);
    if slip > STANDS_FROM {
        return FanDrive::at_rest(motor.point(supply, 1.0).power_w);
    }
    let point = motor.point(supply, slip);
    FanDrive {
        speed: load.speed(slip),
        slip,
        power_w: point.power_w,
        loss_w: point.power_w - motor.shaft_w(&point, slip),
        ..FanDrive::default()
    }
}

/// With the run winding open only start winding and capacitor carry current: a hum and no torque.
fn start_winding_alone(motor: &SplitPhaseMotor, supply: Supply) -> FanDrive {
    if supply.capacitance_f <= 1.0e-12 {
        return FanDrive::default();
    }
    let z = motor.impedances(1.0)[1][1] + Complex::new(0.0, -1.0 / (SUPPLY_RAD_S * supply.capacitance_f));
    FanDrive::at_rest(supply.volt * supply.volt * z.inverse().re)
}

impl ElectricState {
    /// Bring the speeds of the fan motors in line with supply, load and temperature.
    pub(crate) fn drive_fans(&mut self, system: &System, speeds: &Speeds, refresh: Refresh) {
        let Some(s) = &self.solved else { return };
        let due = |drive: &FanDrive, supply: Supply, rise_k: f64, wheel_w: f64| {
            supply.volt > ENERGISED_V && (refresh == Refresh::Now || drive.has_moved(rise_k, wheel_w))
        };
        let fan_due = due(&self.fan, s.fan_supply, self.fan_rise_k, system.condenser.fan_power_w);
        let is_psc = system.plate.blower_capacitor_f.is_some();
        let blower_due = is_psc && due(&self.blower, s.blower_supply, self.blower_rise_k, self.wheel_w);
        if fan_due || blower_due {
            let data = system.electrical();
            if fan_due {
                self.fan = self.find_fan(&data, system.condenser.fan_power_w, speeds.fan);
            }
            if blower_due {
                self.blower = self.find_blower(&data, speeds.blower);
            }
        }
        let Some(s) = &self.solved else { return };
        if s.fan_supply.volt <= ENERGISED_V {
            self.fan = FanDrive::default();
        }
        if !is_psc {
            self.blower = FanDrive::switched(s.ecm_runs);
        } else if s.blower_supply.volt <= ENERGISED_V {
            self.blower = FanDrive::default();
        }
    }

    fn find_fan(&self, data: &Electrical, wheel_w: f64, speed: f64) -> FanDrive {
        let Some(s) = &self.solved else { return FanDrive::default() };
        let motor = &data.outdoor_fan;
        let load = self.fan.load_of(motor, wheel_w);
        let found = settled(&motor.warmed(self.fan_rise_k), s.fan_supply, load, speed);
        FanDrive { found_at_k: self.fan_rise_k, found_at_w: wheel_w, load, ..found }
    }

    fn find_blower(&self, data: &Electrical, speed: f64) -> FanDrive {
        let (Some(s), Blower::Psc(motor)) = (&self.solved, &data.blower) else { return FanDrive::default() };
        let faults = &s.contacts.faults;
        let (supply, rise_k) = (s.blower_supply, self.blower_rise_k);
        let load = self.blower.load_of(motor, self.wheel_w);
        let there = motor.on_tap(faults.tap_turns()).warmed(rise_k);
        let found = if faults.blower_winding_open {
            start_winding_alone(&there, supply)
        } else if faults.blower_seized {
            FanDrive::at_rest(there.point(supply, 1.0).power_w)
        } else {
            settled(&there, supply, load, speed)
        };
        FanDrive { found_at_k: rise_k, found_at_w: self.wheel_w, load, ..found }
    }

    /// Rates of the windings of outdoor fan and blower, K/s.
    pub(crate) fn winding_rates_k_s(&self, system: &System, speeds: &Speeds) -> [f64; 2] {
        let rate = |p: &Protector, loss_w: f64, rise_k: f64, speed: f64| {
            (loss_w - p.lost_w(rise_k, speed)) / p.capacity_j_k
        };
        let fan = super::data::fan_protector(system);
        let blower = super::data::blower_protector(system);
        [
            rate(&fan, self.fan.loss_w, self.fan_rise_k, speeds.fan),
            rate(&blower, self.blower.loss_w, self.blower_rise_k, speeds.blower),
        ]
    }

    /// A step of the windings of the fan motors, and of the protectors that feel them.
    pub(crate) fn warm_fans(&mut self, system: &System, speeds: &Speeds, dt_s: f64) {
        let rests = |drive: &FanDrive, rise_k: f64| drive.loss_w <= 0.0 && rise_k <= 0.0;
        if rests(&self.fan, self.fan_rise_k) && rests(&self.blower, self.blower_rise_k) {
            return;
        }
        let [fan_k_s, blower_k_s] = self.winding_rates_k_s(system, speeds);
        let fan = super::data::fan_protector(system);
        let blower = super::data::blower_protector(system);
        self.fan_rise_k = warmed_k(self.fan_rise_k, fan_k_s * dt_s, &self.fan);
        self.blower_rise_k = warmed_k(self.blower_rise_k, blower_k_s * dt_s, &self.blower);
        trip(&fan, self.fan_rise_k, &mut self.fan_protector_open);
        trip(&blower, self.blower_rise_k, &mut self.blower_protector_open);
    }
}

fn warmed_k(rise_k: f64, by_k: f64, drive: &FanDrive) -> f64 {
    let rise_k = (rise_k + by_k).max(0.0);
    if rise_k < 1.0e-3 && drive.loss_w <= 0.0 { 0.0 } else { rise_k }
}

fn trip(p: &Protector, rise_k: f64, open: &mut bool) {
    if rise_k > p.opens_rise_k {
        *open = true;
    } else if rise_k < p.closes_rise_k {
        *open = false;
    }
}

//! What the solved network does to armatures and rotors: who pulls in, who turns how fast, who hums and trips.

use super::circuit::{Circuit, Contacts, Excitation, Loads, capacitor_terminals};
use super::data::{Blower, Capacitor, Coil, Electrical};
use super::ecm::ecm_path;
use super::fans::Refresh;
use super::fuse::{Fuse, fuse_current_square_a2};
use super::motors::{SplitPhaseMotor, Supply};
use super::network::Complex;
use super::state::{CompressorDrive, ENERGISED_V, ElectricState, Solved, Speeds};
use super::terminals::{BLOWER_STAR, COMPRESSOR_STAR, FAN_STAR, NODES, Terminal};
use crate::System;
use crate::air::{AirPath, Passages, air_path};
use crate::compressor::Compression;
use crate::system::AirSide;

fn across(potentials: &[Complex; NODES], a: usize, b: usize) -> f64 {
    (potentials[a] - potentials[b]).magnitude()
}

fn armature(was_in: bool, coil: &Coil, volt: f64) -> bool {
    volt > if was_in { coil.drops_out_v } else { coil.pulls_in_v }
}

impl ElectricState {
    /// Bring the solution in line with `contacts`, letting armatures move; the contacts as they end up, and whether they came to
    /// rest.
    pub(crate) fn settle(
        &mut self,
        system: &System,
        mut contacts: Contacts,
        speeds: &Speeds,
    ) -> (Contacts, bool) {
        // Armatures settle in two or three rounds; a chain that keeps chattering is left where it is.
        let mut settled = false;
        for _ in 0..6 {
            settled = self.solved.as_ref().is_some_and(|s| s.is_for(&contacts));
            if settled {
                break;
            }
            let data = system.electrical();
            let solved = solve(&data, &contacts);
            let contactor_in = armature(contacts.contactor_in, &data.contactor_coil, solved.contactor_coil_v);
            let relay_in = armature(contacts.relay_in, &data.relay_coil, solved.relay_coil_v);
            self.solved = Some(solved);
            contacts.contactor_in = contactor_in;
            contacts.relay_in = relay_in;
            self.drive_fans(system, speeds, Refresh::Now);
        }
        self.relay_in = contacts.relay_in;
        (contacts, settled)
    }

    /// Heat of the fan motors and the fuse and charge of the capacitors over a step.
    pub(crate) fn warm(&mut self, system: &System, speeds: &Speeds, dt_s: f64) {
        self.warm_fans(system, speeds, dt_s);
        let Some(s) = &self.solved else { return };
        self.fan_power_w = if self.fan.speed > 0.0 {
            self.fan.power_w * speeds.fan / self.fan.speed
        } else {
            self.fan.power_w
        };
        self.fuse.warm(s.fuse_settles_at, dt_s);
        for (charge, volt) in self.charge_v.iter_mut().zip(s.capacitor_v) {
            if volt > 1.0 {
                // At the worst instant for whoever touches it: the peak.
                *charge = core::f64::consts::SQRT_2 * volt;
            } else if *charge > 0.0 {
                *charge -= *charge * dt_s / CHARGE_TIME_S;
                if *charge < 0.5 {
                    *charge = 0.0;
                }
            }
        }
        self.charge_module(system, dt_s);
    }

    /// The rectifier charges the module's storage capacitor to the peak of the line; a dead module lets nothing in.
    fn charge_module(&mut self, system: &System, dt_s: f64) {
        let Some(s) = self.solved.as_ref().filter(|_| system.plate.blower_capacitor_f.is_none()) else {
            return;
        };
        let volt = s.blower_supply.volt;
        if volt > ENERGISED_V && !s.contacts.faults.module_dead {
            self.module_charge_v = core::f64::consts::SQRT_2 * volt;
        } else if self.module_charge_v > 0.0
            && let Blower::Ecm(ecm) = system.electrical().blower
        {
            self.module_charge_v *= libm::exp(-dt_s / ecm.charge_time_s());
            if self.module_charge_v < 0.1 {
                self.module_charge_v = 0.0;
            }
        }
    }

    /// Whether the fuse is as warm as its current makes it.
    pub(crate) fn fuse_rests(&self) -> bool {
        self.solved.as_ref().is_some_and(|solved| self.fuse.rests(solved.fuse_settles_at))
    }

    /// The air that the blower moves.
    pub(crate) fn blower_path(&self, system: &System, blower_speed: f64, passages: &Passages) -> AirPath {
        let air: &AirSide = &system.air;
        let Some(s) = &self.solved else { return AirPath::default() };
        if system.plate.blower_capacitor_f.is_none() {
            let Blower::Ecm(ecm) = system.electrical().blower else { return AirPath::default() };
            let path = ecm_path(air, &ecm, blower_speed, s.contacts.faults.target_share(), passages);
            return AirPath { blower_power_w: if s.ecm_runs { path.blower_power_w } else { 0.0 }, ..path };
        }
        let path = air_path(air, blower_speed, passages);
        let settled = self.blower.speed;
        let blower_power_w = if settled > 0.0 {
            let share = blower_speed / settled;
            self.blower.power_w * share * share * share
        } else {
            self.blower.power_w
        };
        AirPath { blower_power_w, ..path }
    }

    /// Motor losses of a weak or locked compressor, on top of what the sound motor takes.
    pub(crate) fn load_compressor(&self, compression: &mut Compression) {
        let Some(s) = &self.solved else { return };
        let more_w = if self.locked {
            s.compressor.locked_w
        } else if s.compressor_v > ENERGISED_V {
            compression.power_w * (s.compressor.power_share - 1.0)
        } else {
            0.0
        };
        compression.power_w += more_w;
        compression.motor_heat_w += more_w;
    }
}

/// Time constant of the charge of a capacitor without bleed resistor, s (typ.). In a whole motor the windings drain
/// it far sooner; nobody can see whether they do, so the plant keeps the case that a technician must reckon with.
const CHARGE_TIME_S: f64 = 900.0;

fn solve(data: &Electrical, contacts: &Contacts) -> Solved {
    use Terminal::*;
    let slip = |turns: bool, motor: &SplitPhaseMotor| if turns { motor.rated_slip } else { 1.0 };
    let f = &contacts.faults;
    let (blower_slip, ecm_w) = match &data.blower {
        Blower::Psc(motor) => (slip(contacts.blower_turns, motor), 0.0),
        Blower::Ecm(ecm) => (1.0, ecm.standby_w),
    };
    let loads = Loads {
        compressor_slip: slip(contacts.compressor_turns, &data.compressor),
        fan_slip: slip(contacts.fan_turns, &data.outdoor_fan),
        blower_slip,
        fan_rise_k: data.outdoor_fan.rated_rise_k,
        blower_rise_k: match &data.blower {
            Blower::Psc(motor) => motor.rated_rise_k,
            Blower::Ecm(_) => 0.0,
        },
        ecm_w,
    };
    let v = Circuit { data, contacts: *contacts, loads }.network(Excitation::Supply).solve();
    let volt = |a: Terminal, b: Terminal| across(&v, a.node(), b.node());
    let compressor_v = across(&v, CompressorRun.node(), COMPRESSOR_STAR);
    let fan_v = across(&v, FanMotorRun.node(), FAN_STAR);
    let capacitance = |which: Capacitor, label_f: f64| {
        if contacts.leads_off[which.index()] { 0.0 } else { label_f * f.capacitance_share(which) }
    };
    let fan_supply = Supply {
        volt: fan_v,
        capacitance_f: capacitance(Capacitor::OutdoorFan, data.outdoor_fan.capacitor_f),
    };
    let compressor_supply = Supply {
        volt: compressor_v,
        capacitance_f: capacitance(Capacitor::Compressor, data.compressor.capacitor_f),
    };
    let (blower_supply, ecm_runs) = match &data.blower {
        Blower::Psc(motor) => {
            let blower_v = across(&v, BlowerMotor1.node(), BLOWER_STAR);
            (
                Supply { volt: blower_v, capacitance_f: capacitance(Capacitor::Blower, motor.capacitor_f) },
                false,
            )
        }
        Blower::Ecm(ecm) => {
            let blower_v = volt(EcmLine1, EcmLine2);
            let works = !(f.module_dead || f.blower_seized || f.blower_winding_open);
            let runs = works && blower_v > ENERGISED_V && volt(EcmCommand, EcmCommon) > ecm.command_v;
            (Supply { volt: blower_v, capacitance_f: 0.0 }, runs)
        }
    };
    Solved {
        contacts: *contacts,
        bits: contacts.bits(),
        control_v: volt(ThermostatR, C),
        contactor_coil_v: if f.contactor_coil_open || f.contactor_coil_shorted {
            0.0
        } else {
            volt(ContactorCoilY, ContactorCoilC)
        },
        relay_coil_v: volt(BlowerRelayCoilG, BlowerRelayCoilC),
        compressor_v,
        fan_supply,
        blower_supply,
        capacitor_v: Capacitor::ALL.map(|which| {
            let (a, b) = capacitor_terminals(which);
            volt(a, b)
        }),
        fuse_settles_at: Fuse::settles_at(fuse_current_square_a2(&v)),
        ecm_runs,
        compressor: compressor_drive(data, compressor_supply),
    }
}

fn compressor_drive(data: &Electrical, supply: Supply) -> CompressorDrive {
    if supply.volt <= ENERGISED_V {
        return CompressorDrive::default();
    }
    let motor = &data.compressor;
    let rated = motor.rated();
    let shaft_w = motor.shaft_w(&rated, motor.rated_slip);
    let locked = motor.point(supply, 1.0);
    let rated_locked_a = motor.point(Supply { volt: 240.0, capacitance_f: motor.capacitor_f }, 1.0).line_a();
    let rise_k =
        |ampere: f64| data.start.locked_rise_k * (ampere / rated_locked_a) * (ampere / rated_locked_a);
    let (breakdown_w, _) = motor.breakdown(supply);
    let sound = Supply { capacitance_f: motor.capacitor_f, ..supply };
    let (power_share, run_rise_k) = if supply == sound {
        (1.0, 0.0)
    } else {
        let now = motor.point(supply, motor.slip_of_shaft(supply, shaft_w));
        let then = motor.point(sound, motor.slip_of_shaft(sound, shaft_w));
        (now.power_w / then.power_w, rise_k(now.line_a()) - rise_k(then.line_a()))
    };
    CompressorDrive {
        start_share: locked.torque_nm / rated.torque_nm,
        breakdown_w,
        power_share,
        run_rise_k,
        locked_rise_k: rise_k(locked.line_a()),
        locked_w: locked.power_w,
    }
}

impl CompressorDrive {
    /// Whether the motor breaks away against a pressure difference across the scroll set.
    pub(crate) fn starts(&self, data: &Electrical, difference_pa: f64) -> bool {
        let motor = &data.compressor;
        let sound = motor.point(Supply { volt: 240.0, capacitance_f: motor.capacitor_f }, 1.0).torque_nm
            / motor.rated().torque_nm;
        let against = (sound - motor.breakaway_share) * difference_pa.max(0.0) / data.start.pressure_max_pa;
        self.start_share > motor.breakaway_share + against
    }
}

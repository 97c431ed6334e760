//! Parameters of the electrical parts. Currents, capacitors and the kind of blower are those of the data plate; the
//! rest follows from three motors of our own design (typ.), scaled so that each agrees with its plate.

use serde::{Deserialize, Serialize};

use super::motors::{Protector, SplitPhaseMotor};
use crate::System;

/// Time constant of the disc of the compressor's overload, s (typ.: trips some 8 s after a start attempt with a cold motor).
pub(crate) const DISC_TIME_S: f64 = 60.0;

/// The electrical side of a system.
#[derive(Clone, Debug, PartialEq)]
pub struct Electrical {
    /// Each leg of the supply to ground, V (two legs, 240 V between them).
    pub leg_v: f64,
    /// Inner resistance of each leg with its feeder, ohm (typ.).
    pub leg_ohm: f64,
    /// Control transformer.
    pub transformer: Transformer,
    /// Coil of the contactor.
    pub contactor_coil: Coil,
    /// Coil of the blower relay on the board.
    pub relay_coil: Coil,
    /// Compressor motor.
    pub compressor: SplitPhaseMotor,
    /// What the compressor can start against, and its overload.
    pub start: CompressorStart,
    /// Outdoor fan motor.
    pub outdoor_fan: SplitPhaseMotor,
    /// Blower motor.
    pub blower: Blower,
}

/// Control transformer: 40 VA, class 2.
#[derive(Clone, Debug, PartialEq)]
pub struct Transformer {
    /// Open-circuit voltage of the secondary at 240 V, V (typ.: 24 V at 40 VA).
    pub open_v: f64,
    /// Inner resistance seen from the secondary, ohm (typ.).
    pub inner_ohm: f64,
    /// Magnetising impedance seen from the primary, ohm (typ.: 5 VA without load).
    pub magnetising_ohm: f64,
    /// DC resistance of the primary, ohm (typ.).
    pub primary_ohm: f64,
    /// DC resistance of the secondary, ohm (typ.).
    pub secondary_ohm: f64,
}

/// A 24 V coil.
#[derive(Clone, Debug, PartialEq)]
pub struct Coil {
    /// DC resistance, ohm.
    pub ohm: f64,
    /// Reactance at 60 Hz with the armature in, ohm.
    pub reactance_ohm: f64,
    /// Voltage at which it pulls in, V (typ. three quarters of 24 V).
    pub pulls_in_v: f64,
    /// Voltage at which it drops out, V (typ.).
    pub drops_out_v: f64,
}

/// Start and protection of the compressor.
#[derive(Clone, Debug, PartialEq)]
pub struct CompressorStart {
    /// Pressure difference across the scroll set against which it just starts with a sound capacitor, Pa
    /// (typ. of a motor with run capacitor and no hard-start kit: 1.0 to 1.4 MPa).
    pub pressure_max_pa: f64,
    /// Time constant with which gas in the scroll set passes back after a stop, s (typ., seconds; the check valve in
    /// the discharge holds the rest, so that a scroll starts unloaded soon after a stop).
    pub unload_time_s: f64,
    /// Rise of the overload's disc over the winding with the rotor locked, if it went on, K (typ.).
    pub locked_rise_k: f64,
}

/// The blower motor.
#[derive(Clone, Debug, PartialEq)]
pub enum Blower {
    /// Permanent split capacitor motor behind the relay of the board.
    Psc(SplitPhaseMotor),
    /// Electronically commutated motor: line power always, command of 24 V.
    Ecm(Ecm),
}

/// An electronically commutated blower motor with its module.
#[derive(Clone, Debug, PartialEq)]
pub struct Ecm {
    /// Airflow that it holds, m³/s.
    pub target_flow_m3_s: f64,
    /// Fastest speed over the speed at rated airflow (typ.).
    pub speed_max: f64,
    /// Largest power, W (typ.: half more than at rated airflow).
    pub power_max_w: f64,
    /// Power of the module in standby, W (typ.).
    pub standby_w: f64,
    /// Power factor (typ. of a rectifier without correction).
    pub power_factor: f64,
    /// Resistance of the command input, ohm (typ.).
    pub command_ohm: f64,
    /// Voltage of the command above which it runs, V (typ.).
    pub command_v: f64,
    /// Resistance of each of the three phases of the motor, ohm (typ.: a few ohms, the same in all; from memory).
    pub phase_ohm: f64,
    /// Storage capacitor behind the module's rectifier, F (typ.).
    pub storage_f: f64,
    /// Bleeder over it, ohm (typ.). With it five minutes without power leave nothing that a meter shows, as makers of
    /// such motors ask for before a plug is pulled (common practice, from memory).
    pub bleeder_ohm: f64,
}

impl Ecm {
    /// Time constant of the charge of the module without power, s.
    pub(crate) fn charge_time_s(&self) -> f64 {
        self.storage_f * self.bleeder_ohm
    }
}

/// A run capacitor, or a section of a dual one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Capacitor {
    /// Compressor section (Herm to C) of the dual capacitor outdoors.
    Compressor,
    /// Fan section (Fan to C) of the dual capacitor outdoors.
    OutdoorFan,
    /// Blower capacitor; an ECM has none.
    Blower,
}

impl Capacitor {
    /// Every capacitor.
    pub const ALL: [Capacitor; 3] = [Capacitor::Compressor, Capacitor::OutdoorFan, Capacitor::Blower];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            Capacitor::Compressor => "compressor section of the dual capacitor",
            Capacitor::OutdoorFan => "fan section of the dual capacitor",
            Capacitor::Blower => "blower capacitor",
        }
    }

    pub(crate) fn index(self) -> usize {
        self as usize
    }
}

/// A motor of the system.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Motor {
    /// The compressor.
    Compressor,
    /// The outdoor fan.
    OutdoorFan,
    /// The blower.
    Blower,
}

impl Motor {
    /// Every motor.
    pub const ALL: [Motor; 3] = [Motor::Compressor, Motor::OutdoorFan, Motor::Blower];

    /// What a technician calls it.
    pub fn label(self) -> &'static str {
        match self {
            Motor::Compressor => "compressor",
            Motor::OutdoorFan => "outdoor fan motor",
            Motor::Blower => "blower motor",
        }
    }

    pub(crate) fn index(self) -> usize {
        self as usize
    }
}

/// Compressor motor of 3 tons: two poles, 2.68 kW at slip 0.028, efficiency 0.895, power factor 0.96,
/// 80 A with the rotor locked, 40 uF. Found by a search for these values and for start and breakdown torque of
/// 0.28 and 2.9 times the rated one (typ.).
const COMPRESSOR: SplitPhaseMotor = SplitPhaseMotor {
    poles: 2.0,
    main_ohm: 1.0685,
    main_leakage_ohm: 0.9723,
    rotor_leakage_ohm: 0.9798,
    rotor_ohm: 1.1516,
    magnetising_ohm: 35.499,
    turns_ratio: 1.2927,
    start_ohm: 3.3228,
    start_leakage_ohm: 1.7338,
    capacitor_f: 40.0e-6,
    rated_slip: 0.028,
    rated_rise_k: 0.0,
    breakaway_share: 0.10,
};
const COMPRESSOR_LOCKED_A: f64 = 80.1;

/// Blower motor of half a horsepower: six poles, 486 W at 1075 rpm, 7.5 uF. Found by a search for these values and for, cold,
/// a breakdown torque of 1.36, a start torque of 0.40 times the rated one and twice the running current with the rotor
/// locked (typ. of fan motors: 1.3 to 1.6, 0.3 to 0.8, 2 to 2.5, from memory), with 0.59 of the power at the shaft and a
/// start winding of 1.9 times the ohms of the run winding. A wheel on sleeve bearings breaks away at 5 to 10 % of the
/// rated torque (typ.).
const BLOWER: SplitPhaseMotor = SplitPhaseMotor {
    poles: 6.0,
    main_ohm: 27.0,
    main_leakage_ohm: 17.5613,
    rotor_leakage_ohm: 17.5613,
    rotor_ohm: 17.4965,
    magnetising_ohm: 142.3982,
    turns_ratio: 1.43964,
    start_ohm: 50.3633,
    start_leakage_ohm: 27.2797,
    capacitor_f: 7.5e-6,
    rated_slip: 0.104,
    rated_rise_k: 63.0,
    breakaway_share: 0.05,
};
const BLOWER_W: f64 = 486.0;

/// Outdoor fan motor: six poles, 230 W at 1080 rpm, 5 uF. By the same search, with a breakdown torque of 1.39, a start torque
/// of 0.42 times the rated one, twice the running current with the rotor locked, and 0.63 of the power at the shaft.
const OUTDOOR_FAN: SplitPhaseMotor = SplitPhaseMotor {
    poles: 6.0,
    main_ohm: 34.5886,
    main_leakage_ohm: 43.1646,
    rotor_leakage_ohm: 43.1646,
    rotor_ohm: 37.9138,
    magnetising_ohm: 260.7498,
    turns_ratio: 1.27215,
    start_ohm: 57.0589,
    start_leakage_ohm: 42.9815,
    capacitor_f: 5.0e-6,
    rated_slip: 0.10,
    rated_rise_k: 57.0,
    breakaway_share: 0.05,
};
const OUTDOOR_FAN_W: f64 = 230.0;

/// Thermal protector of the blower motor: opens at some 155 °C of the winding in air of 15 °C off the coil, minutes after the
/// rotor locks, and closes at 90 °C, in about ten minutes (typ., class B). The heat transfer gives the rated load a rise of 63 K
/// (class B allows 80 K by resistance, from memory).
const BLOWER_PROTECTOR: Protector = Protector {
    capacity_j_k: 900.0,
    still_w_k: 0.9,
    moving_w_k: 2.3,
    opens_rise_k: 140.0,
    closes_rise_k: 75.0,
};
/// That of the outdoor fan motor, in air of 45 °C off the condenser (typ.).
const OUTDOOR_FAN_PROTECTOR: Protector = Protector {
    capacity_j_k: 420.0,
    still_w_k: 0.42,
    moving_w_k: 1.07,
    opens_rise_k: 115.0,
    closes_rise_k: 55.0,
};

impl System {
    /// The electrical side, as the data plate and the air side say.
    pub fn electrical(&self) -> Electrical {
        let plate = &self.plate;
        let air = &self.air;
        let blower_w = rated_blower_w(self);
        let blower = match plate.blower_capacitor_f {
            Some(capacitor_f) => Blower::Psc(BLOWER.scaled(blower_w / BLOWER_W, capacitor_f)),
            None => Blower::Ecm(Ecm {
                target_flow_m3_s: air.rated_flow_m3_s,
                speed_max: 1.25,
                power_max_w: 1.5 * blower_w,
                standby_w: 5.0,
                power_factor: 0.65,
                command_ohm: 5.0e3,
                command_v: 12.0,
                phase_ohm: 4.0,
                storage_f: 180.0e-6,
                bleeder_ohm: 220.0e3,
            }),
        };
        Electrical {
            leg_v: 120.0,
            leg_ohm: 0.025,
            transformer: Transformer {
                open_v: 26.5,
                inner_ohm: 1.5,
                magnetising_ohm: 11.5e3,
                primary_ohm: 62.0,
                secondary_ohm: 0.9,
            },
            contactor_coil: Coil { ohm: 14.0, reactance_ohm: 85.0, pulls_in_v: 18.0, drops_out_v: 9.0 },
            relay_coil: Coil { ohm: 95.0, reactance_ohm: 130.0, pulls_in_v: 18.0, drops_out_v: 8.0 },
            compressor: COMPRESSOR
                .scaled(plate.locked_rotor_a / COMPRESSOR_LOCKED_A, plate.compressor_capacitor_f),
            start: CompressorStart { pressure_max_pa: 1.2e6, unload_time_s: 3.0, locked_rise_k: 720.0 },
            outdoor_fan: OUTDOOR_FAN
                .scaled(self.condenser.fan_power_w / OUTDOOR_FAN_W, plate.fan_capacitor_f),
            blower,
        }
    }
}

/// Heat data of the outdoor fan motor's windings.
pub(crate) fn fan_protector(system: &System) -> Protector {
    OUTDOOR_FAN_PROTECTOR.scaled(system.condenser.fan_power_w / OUTDOOR_FAN_W)
}

/// Heat data of the blower motor's windings.
pub(crate) fn blower_protector(system: &System) -> Protector {
    BLOWER_PROTECTOR.scaled(rated_blower_w(system) / BLOWER_W)
}

/// Power of the blower at rated airflow, W.
fn rated_blower_w(system: &System) -> f64 {
    let air = &system.air;
    air.blower_power_shutoff_w + air.blower_power_slope_w_s_m3 * air.rated_flow_m3_s
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What both fan motors were designed for, cold and at 240 V; and that the rise they are rated at is the one at which
    /// they settle.
    #[test]
    fn fan_motors_are_what_they_are_said_to_be() {
        for (motor, protector, watt, shaft_share) in [
            (BLOWER, BLOWER_PROTECTOR, BLOWER_W, 0.587),
            (OUTDOOR_FAN, OUTDOOR_FAN_PROTECTOR, OUTDOOR_FAN_W, 0.63),
        ] {
            let rated = motor.rated();
            let supply = motor.rated_supply();
            let warm = motor.warmed(motor.rated_rise_k);
            let shaft_w = warm.shaft_w(&rated, motor.rated_slip);
            assert!((rated.power_w / watt - 1.0).abs() < 0.005, "{} W", rated.power_w);
            assert!((shaft_w / rated.power_w - shaft_share).abs() < 0.01, "{shaft_w} W");
            let rise_k = (rated.power_w - shaft_w) / (protector.still_w_k + protector.moving_w_k);
            assert!((rise_k - motor.rated_rise_k).abs() < 1.0, "{rise_k} K");
            let locked = motor.point(supply, 1.0);
            let breakdown = (1..60)
                .map(|n| motor.point(supply, f64::from(n) / 100.0).torque_nm / rated.torque_nm)
                .fold(0.0, f64::max);
            let (start, current) = (locked.torque_nm / rated.torque_nm, locked.line_a() / rated.line_a());
            assert!((1.3..1.6).contains(&breakdown), "{breakdown}");
            assert!((0.3..0.8).contains(&start), "{start}");
            assert!((1.98..2.5).contains(&current), "{current}");
            // At its own input the slip is its own.
            assert!((warm.slip_for_input(rated.power_w) / motor.rated_slip - 1.0).abs() < 1.0e-6);
        }
    }
}

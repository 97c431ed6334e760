//! What instruments read on the wiring: volts, ohms, microfarads, amperes, watts.

use serde::{Deserialize, Serialize};

use super::circuit::{Circuit, Excitation, Loads, capacitor_terminals};
use super::data::{Blower, Capacitor, Electrical, Motor};
use super::motors::{SplitPhaseMotor, Supply};
use super::network::Complex;
use super::state::FanDrive;
use super::terminals::{BlowerKind, Conductor, NODES, Terminal, WIRE_OHM};
use crate::Inputs;
use crate::fault::Wiring;
use crate::state::Plant;

/// What an ohmmeter shows.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum OhmReading {
    /// A resistance, ohm.
    Resistance {
        /// Value, ohm.
        ohm: f64,
    },
    /// No continuity: beyond the range of the meter (40 megohm, typ.).
    Open,
    /// The circuit was live, or a capacitor still charged: the number means nothing.
    Disturbed {
        /// Value shown, ohm.
        ohm: f64,
        /// What stood between the probes, V.
        across_v: f64,
    },
    /// Line voltage or a charged capacitor between the probes: the meter's fuse is gone.
    MeterDamaged {
        /// What stood between the probes, V.
        across_v: f64,
    },
}

/// What a capacitance meter shows.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum CapacitanceReading {
    /// A capacitance, F.
    Capacitance {
        /// Value, F.
        farad: f64,
    },
    /// Nothing that holds a charge: below the range of the meter (10 nF, typ.).
    Open,
    /// A winding lies across it: take the leads off first.
    Shunted,
    /// The circuit was live, or the capacitor still charged: the number means nothing.
    Disturbed {
        /// Value shown, F.
        farad: f64,
        /// What stood between the probes, V.
        across_v: f64,
    },
    /// Line voltage or a charged capacitor between the probes: the meter is damaged.
    MeterDamaged {
        /// What stood between the probes, V.
        across_v: f64,
    },
}

/// Leads of a capacitor or a motor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Leads {
    /// On their terminals.
    On,
    /// Taken off: a capacitor's from the terminal of the start winding, a motor's all.
    Off,
}

/// Input impedance of a meter, ohm.
const METER_OHM: f64 = 1.0e7;
/// Largest resistance that it shows, ohm.
const METER_RANGE_OHM: f64 = 4.0e7;
/// Test current of its ohm range, A (typ.).
const TEST_A: f64 = 1.0e-3;
/// Frequency of its capacitance range, rad/s (typ., 100 Hz).
const CAPACITANCE_RAD_S: f64 = 2.0 * core::f64::consts::PI * 100.0;
/// Smallest capacitance that it shows, F.
const CAPACITANCE_MIN_F: f64 = 1.0e-8;
/// Voltage between the probes above which its ohm and capacitance ranges read nonsense, and above which they burn, V (typ.).
const DISTURBS_V: f64 = 0.3;
const BURNS_V: f64 = 60.0;

impl Plant {
    /// Kind of blower motor.
    pub fn blower_kind(&self) -> BlowerKind {
        match self.system.plate.blower_capacitor_f {
            Some(_) => BlowerKind::Psc,
            None => BlowerKind::Ecm,
        }
    }

    /// Terminals that this system has.
    pub fn terminals(&self) -> impl Iterator<Item = Terminal> + '_ {
        let kind = self.blower_kind();
        Terminal::ALL.into_iter().filter(move |t| t.blower_only().is_none_or(|only| only == kind))
    }

    /// Conductors that this system has.
    pub fn conductors(&self) -> impl Iterator<Item = Conductor> + '_ {
        let kind = self.blower_kind();
        Conductor::ALL.into_iter().filter(move |c| c.blower_only().is_none_or(|only| only == kind))
    }

    /// RMS voltage that a meter of 10 megohm reads between two terminals, V. Between circuits that share nothing it
    /// reads next to nothing.
    pub fn voltage_v(&self, inputs: &Inputs, from: Terminal, to: Terminal) -> f64 {
        if from == to {
            return 0.0;
        }
        self.with_circuit(inputs, |circuit| {
            let mut network = circuit.network(Excitation::Supply);
            network.resistor(from.node(), to.node(), METER_OHM);
            let v = network.solve();
            (v[from.node()] - v[to.node()]).magnitude()
        })
    }

    /// RMS current that a clamp around one conductor reads, A.
    pub fn current_a(&self, inputs: &Inputs, conductor: Conductor) -> f64 {
        self.current_around_a(inputs, &[conductor])
    }

    /// RMS current that a clamp around several conductors at once reads, A: their sum, so that both legs of a load
    /// together show nothing. All pass the clamp towards the load.
    pub fn current_around_a(&self, inputs: &Inputs, conductors: &[Conductor]) -> f64 {
        self.with_circuit(inputs, |circuit| {
            let v = circuit.network(Excitation::Supply).solve();
            let sum = conductors.iter().fold(Complex::ZERO, |sum, c| sum + current(circuit, &v, *c));
            sum.magnitude()
        })
    }

    /// Electric power that the outdoor unit takes from its supply, W.
    pub fn outdoor_power_w(&self, inputs: &Inputs) -> f64 {
        self.supply_power_w(
            inputs,
            [
                (Conductor::SupplyLeg1, Terminal::DisconnectLoad1),
                (Conductor::SupplyLeg2, Terminal::DisconnectLoad2),
            ],
        )
    }

    /// Electric power that the indoor unit with the control circuit takes from its supply, W.
    pub fn indoor_power_w(&self, inputs: &Inputs) -> f64 {
        self.supply_power_w(
            inputs,
            [
                (Conductor::IndoorLeg1, Terminal::ServiceLoad1),
                (Conductor::IndoorLeg2, Terminal::ServiceLoad2),
            ],
        )
    }

    fn supply_power_w(&self, inputs: &Inputs, legs: [(Conductor, Terminal); 2]) -> f64 {
        self.with_circuit(inputs, |circuit| {
            let v = circuit.network(Excitation::Supply).solve();
            let leg = |(conductor, at): (Conductor, Terminal)| {
                (v[at.node()] * current(circuit, &v, conductor).conjugate()).re
            };
            legs.map(leg).iter().sum()
        })
    }

    /// What an ohmmeter shows between two terminals. On a dead, discharged circuit it is the resistance of everything
    /// that lies between the probes; on a live one, or over a charged capacitor, a wrong use with its consequence.
    pub fn resistance_ohm(&self, inputs: &Inputs, from: Terminal, to: Terminal) -> OhmReading {
        let across_v = self.across_v(inputs, from, to);
        if across_v > BURNS_V {
            return OhmReading::MeterDamaged { across_v };
        }
        let admittance = self.admittance_s(inputs, from, to, 0.0);
        let ohm = if admittance.re > 0.0 { 1.0 / admittance.re } else { f64::INFINITY };
        if across_v > DISTURBS_V {
            return OhmReading::Disturbed { ohm: across_v / TEST_A, across_v };
        }
        if ohm > METER_RANGE_OHM { OhmReading::Open } else { OhmReading::Resistance { ohm } }
    }

    /// What a capacitance meter shows between two terminals. It needs a dead circuit, a discharged capacitor and its
    /// leads off: see [`Plant::discharge_capacitor`] and [`Plant::set_capacitor_leads`].
    pub fn capacitance_f(&self, inputs: &Inputs, from: Terminal, to: Terminal) -> CapacitanceReading {
        let across_v = self.across_v(inputs, from, to);
        if across_v > BURNS_V {
            return CapacitanceReading::MeterDamaged { across_v };
        }
        let admittance = self.admittance_s(inputs, from, to, CAPACITANCE_RAD_S);
        let farad = admittance.im / CAPACITANCE_RAD_S;
        if across_v > DISTURBS_V {
            // The charge that is already there counts as charge that the meter put in.
            return CapacitanceReading::Disturbed { farad: farad.abs() * (1.0 + across_v), across_v };
        }
        if admittance.magnitude() / CAPACITANCE_RAD_S < CAPACITANCE_MIN_F {
            CapacitanceReading::Open
        } else if admittance.re > 0.3 * admittance.im {
            CapacitanceReading::Shunted
        } else {
            CapacitanceReading::Capacitance { farad }
        }
    }

    /// Charge that stands on a capacitor, V. While the motor runs it is the peak of the alternating voltage.
    pub fn capacitor_charge_v(&self, capacitor: Capacitor) -> f64 {
        self.control.electric.charge_v[capacitor.index()]
    }

    /// Discharge a capacitor through a resistor tool. On a live circuit it is charged again at once.
    pub fn discharge_capacitor(&mut self, capacitor: Capacitor) {
        self.control.electric.charge_v[capacitor.index()] = 0.0;
    }

    /// Charge that stands on the storage capacitor of an ECM's module, V; without power it is gone in five minutes.
    pub fn module_charge_v(&self) -> f64 {
        self.control.electric.module_charge_v
    }

    /// Leave the module of an ECM without power until nothing is left on its storage capacitor.
    pub fn drain_module(&mut self) {
        self.control.electric.module_charge_v = 0.0;
    }

    /// Take the leads of a capacitor off, or put them back on.
    pub fn set_capacitor_leads(&mut self, capacitor: Capacitor, leads: Leads) {
        self.control.electric.leads_off[capacitor.index()] = leads == Leads::Off;
    }

    /// Whether the leads of a capacitor are on.
    pub fn capacitor_leads(&self, capacitor: Capacitor) -> Leads {
        if self.control.electric.leads_off[capacitor.index()] { Leads::Off } else { Leads::On }
    }

    /// Take the leads of a motor off at the motor, or put them back on; those of an ECM with the plug of its module.
    pub fn set_motor_leads(&mut self, motor: Motor, leads: Leads) {
        self.control.electric.motor_leads_off[motor.index()] = leads == Leads::Off;
    }

    /// Whether the leads of a motor are on.
    pub fn motor_leads(&self, motor: Motor) -> Leads {
        if self.control.electric.motor_leads_off[motor.index()] { Leads::Off } else { Leads::On }
    }

    /// The two terminals of a capacitor: the first on the line, the second at the start winding.
    pub fn capacitor_terminals(capacitor: Capacitor) -> (Terminal, Terminal) {
        capacitor_terminals(capacitor)
    }

    /// Electric power of the outdoor fan, turning or humming, W.
    pub fn outdoor_fan_power_w(&self) -> f64 {
        self.control.electric.fan_power_w
    }

    /// Whether a motor is energised and its rotor stands still: it hums.
    pub fn hums(&self, motor: Motor) -> bool {
        let e = &self.control.electric;
        match motor {
            Motor::Compressor => e.locked,
            Motor::OutdoorFan => {
                e.fan.loss_w > 0.0 && self.control.outdoor_fan_speed <= 0.0 && e.fan.speed <= 0.0
            }
            Motor::Blower => {
                e.blower.loss_w > 0.0 && self.control.blower_speed <= 0.0 && e.blower.speed <= 0.0
            }
        }
    }

    /// Voltage that a meter would meet between its probes, V: alternating, or the charge of a capacitor.
    fn across_v(&self, inputs: &Inputs, from: Terminal, to: Terminal) -> f64 {
        let charge = Capacitor::ALL.into_iter().filter(|c| {
            let (a, b) = capacitor_terminals(*c);
            (a, b) == (from, to) || (b, a) == (from, to)
        });
        let charge_v = charge.map(|c| self.capacitor_charge_v(c)).fold(0.0, f64::max);
        // With the plug in, the phases of an ECM hang on the module.
        let on_module = (from.is_ecm_phase() || to.is_ecm_phase())
            && from != to
            && self.motor_leads(Motor::Blower) == Leads::On;
        let module_v = if on_module { self.module_charge_v() } else { 0.0 };
        charge_v.max(module_v).max(self.voltage_v(inputs, from, to))
    }

    /// Admittance between two terminals with the supply off, S.
    fn admittance_s(&self, inputs: &Inputs, from: Terminal, to: Terminal, rad_s: f64) -> Complex {
        if from == to {
            return Complex::real(1.0 / WIRE_OHM);
        }
        self.with_circuit(inputs, |circuit| {
            let mut network = circuit.network(Excitation::Meter { rad_s });
            network.inject(from.node(), to.node(), 1.0);
            let v = network.solve();
            (v[from.node()] - v[to.node()]).inverse()
        })
    }

    /// The circuit as it is now: switches as the inputs say, contacts and rotors as the last step left them.
    fn with_circuit<T>(&self, inputs: &Inputs, read: impl FnOnce(&Circuit<'_>) -> T) -> T {
        let data = self.system.electrical();
        let contacts = self.control.contacts(inputs, self.effects().wiring);
        let loads = self.loads(&data, &contacts.faults);
        read(&Circuit { data: &data, contacts, loads })
    }

    /// Slips by speed, or by power where the load varies.
    fn loads(&self, data: &Electrical, faults: &Wiring) -> Loads {
        let c = &self.control;
        let by_speed = |motor: &SplitPhaseMotor, speed: f64| 1.0 - speed * (1.0 - motor.rated_slip);
        let left = |which: Capacitor, motor: &SplitPhaseMotor| {
            let off = c.electric.leads_off[which.index()];
            let share = if off { 0.0 } else { faults.capacitance_share(which) };
            Supply { volt: 2.0 * data.leg_v, capacitance_f: motor.capacitor_f * share }
        };
        let compressor_slip = if c.compressor_speed >= 1.0 {
            let supply = left(Capacitor::Compressor, &data.compressor);
            data.compressor.slip_of_input(supply, self.last.compressor_power_w)
        } else {
            by_speed(&data.compressor, c.compressor_speed)
        };
        let fan_slip = |motor: &SplitPhaseMotor, drive: &FanDrive, speed: f64| {
            if (speed - drive.speed).abs() < 1.0e-3 && drive.speed > 0.0 {
                drive.slip
            } else {
                by_speed(motor, speed)
            }
        };
        let (blower_slip, ecm_w) = match &data.blower {
            Blower::Psc(motor) => (fan_slip(motor, &c.electric.blower, c.blower_speed), 0.0),
            Blower::Ecm(ecm) => {
                let runs = c.electric.solved.as_ref().is_some_and(|s| s.ecm_runs);
                let dead = faults.module_dead;
                let taken_w = if runs { self.slow.blower_power_w.max(ecm.standby_w) } else { ecm.standby_w };
                (1.0, if dead { 0.0 } else { taken_w })
            }
        };
        Loads {
            compressor_slip,
            fan_slip: fan_slip(&data.outdoor_fan, &c.electric.fan, c.outdoor_fan_speed),
            blower_slip,
            fan_rise_k: c.electric.fan_rise_k,
            blower_rise_k: c.electric.blower_rise_k,
            ecm_w,
        }
    }
}

fn current(circuit: &Circuit<'_>, v: &[Complex; NODES], conductor: Conductor) -> Complex {
    if !circuit.conducts(conductor) {
        return Complex::ZERO;
    }
    let (from, to) = conductor.ends();
    (v[from] - v[to]).scale(1.0 / conductor.ohm())
}

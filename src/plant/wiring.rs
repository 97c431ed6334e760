//! Terminals of the wiring and the voltages between them.

use serde::{Deserialize, Serialize};

/// A point where a meter probe can be put.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Terminal {
    /// Low-voltage terminal R at the air handler (24 V hot).
    R,
    /// Low-voltage terminal C at the air handler (common).
    C,
    /// Low-voltage terminal Y at the air handler (call for the compressor).
    Y,
    /// Low-voltage terminal G at the air handler (call for the blower).
    G,
    /// Contactor coil at the outdoor unit, Y side.
    ContactorCoilY,
    /// Contactor coil at the outdoor unit, C side.
    ContactorCoilC,
    /// Line 1 at the supply side of the outdoor disconnect.
    DisconnectLine1,
    /// Line 2 at the supply side of the outdoor disconnect.
    DisconnectLine2,
    /// Line 1 at the load side of the outdoor disconnect.
    DisconnectLoad1,
    /// Line 2 at the load side of the outdoor disconnect.
    DisconnectLoad2,
    /// Switched pole of the contactor, leg 1 (compressor and outdoor fan).
    ContactorLoad1,
    /// Switched pole of the contactor, leg 2.
    ContactorLoad2,
    /// Blower motor terminal, leg 1 (behind the blower relay).
    BlowerMotor1,
    /// Blower motor terminal, leg 2.
    BlowerMotor2,
}

use crate::state::Plant;
use crate::{Inputs, Switch};

/// RMS voltage of the two-leg supply, V.
const LINE_V: f64 = 240.0;
/// Open-circuit voltage of the control transformer, V (40 VA, class 2).
const CONTROL_V: f64 = 26.5;
/// Inner resistance of the transformer seen from its 24 V side, ohm (typ.: 24 V at 40 VA).
const TRANSFORMER_OHM: f64 = 1.5;
/// Inner resistance of the line supply, ohm.
const SUPPLY_OHM: f64 = 0.05;
const CLOSED_OHM: f64 = 0.02;
/// Impedance of loads, ohm (typ.): contactor coil, relay coil, compressor and fan together, blower.
const CONTACTOR_COIL_OHM: f64 = 90.0;
const RELAY_COIL_OHM: f64 = 160.0;
const OUTDOOR_MOTORS_OHM: f64 = 17.0;
const BLOWER_OHM: f64 = 70.0;
/// Input impedance of a meter, ohm.
const METER_OHM: f64 = 1.0e7;
/// Tie of every node to a common reference, S: keeps isolated circuits solvable and shows nothing on a meter.
const STRAY_S: f64 = 1.0e-10;

/// Nodes of the network: the terminals, then inner points.
const TERMINALS: [Terminal; 14] = [
    Terminal::R,
    Terminal::C,
    Terminal::Y,
    Terminal::G,
    Terminal::ContactorCoilY,
    Terminal::ContactorCoilC,
    Terminal::DisconnectLine1,
    Terminal::DisconnectLine2,
    Terminal::DisconnectLoad1,
    Terminal::DisconnectLoad2,
    Terminal::ContactorLoad1,
    Terminal::ContactorLoad2,
    Terminal::BlowerMotor1,
    Terminal::BlowerMotor2,
];
const AIR_HANDLER_LINE_1: usize = 14;
const AIR_HANDLER_LINE_2: usize = 15;
const NODES: usize = 16;

impl Terminal {
    /// Every terminal.
    pub const ALL: [Terminal; 14] = TERMINALS;

    /// What it is called on the wiring diagram.
    pub fn label(self) -> &'static str {
        match self {
            Terminal::R => "R (24 V hot)",
            Terminal::C => "C (24 V common)",
            Terminal::Y => "Y (cooling call)",
            Terminal::G => "G (blower call)",
            Terminal::ContactorCoilY => "contactor coil, Y side",
            Terminal::ContactorCoilC => "contactor coil, C side",
            Terminal::DisconnectLine1 => "disconnect, line 1",
            Terminal::DisconnectLine2 => "disconnect, line 2",
            Terminal::DisconnectLoad1 => "disconnect, load 1",
            Terminal::DisconnectLoad2 => "disconnect, load 2",
            Terminal::ContactorLoad1 => "contactor, load 1",
            Terminal::ContactorLoad2 => "contactor, load 2",
            Terminal::BlowerMotor1 => "blower motor, lead 1",
            Terminal::BlowerMotor2 => "blower motor, lead 2",
        }
    }

    fn node(self) -> usize {
        TERMINALS.iter().position(|t| *t == self).unwrap_or(0)
    }
}

struct Network {
    matrix: [[f64; NODES]; NODES],
    source: [f64; NODES],
}

impl Network {
    fn new() -> Self {
        let mut n = Network { matrix: [[0.0; NODES]; NODES], source: [0.0; NODES] };
        for i in 0..NODES {
            n.matrix[i][i] = STRAY_S;
        }
        n
    }

    fn resistor(&mut self, a: usize, b: usize, ohm: f64) {
        let s = 1.0 / ohm;
        self.matrix[a][a] += s;
        self.matrix[b][b] += s;
        self.matrix[a][b] -= s;
        self.matrix[b][a] -= s;
    }

    fn voltage_source(&mut self, plus: usize, minus: usize, volt: f64, ohm: f64) {
        self.resistor(plus, minus, ohm);
        self.source[plus] += volt / ohm;
        self.source[minus] -= volt / ohm;
    }

    /// Node potentials by elimination with pivoting, V.
    fn solve(mut self) -> [f64; NODES] {
        for k in 0..NODES {
            let pivot = (k..NODES)
                .max_by(|&a, &b| self.matrix[a][k].abs().total_cmp(&self.matrix[b][k].abs()))
                .unwrap_or(k);
            self.matrix.swap(k, pivot);
            self.source.swap(k, pivot);
            let row_k = self.matrix[k];
            for i in k + 1..NODES {
                let factor = self.matrix[i][k] / row_k[k];
                if factor != 0.0 {
                    for (value, above) in self.matrix[i].iter_mut().zip(row_k).skip(k) {
                        *value -= factor * above;
                    }
                    self.source[i] -= factor * self.source[k];
                }
            }
        }
        let mut x = [0.0; NODES];
        for i in (0..NODES).rev() {
            let sum: f64 = (i + 1..NODES).map(|j| self.matrix[i][j] * x[j]).sum();
            x[i] = (self.source[i] - sum) / self.matrix[i][i];
        }
        x
    }
}

impl Plant {
    /// RMS voltage that a meter reads between two terminals, V. All loads are taken as resistive with
    /// their running impedance, so magnitudes add; between circuits that share nothing it reads 0.
    pub fn voltage_v(&self, inputs: &Inputs, from: Terminal, to: Terminal) -> f64 {
        let mut n = Network::new();
        let indoor = inputs.indoor_service_switch == Switch::Closed;
        let node = Terminal::node;
        let c = &self.control;
        n.voltage_source(
            node(Terminal::DisconnectLine1),
            node(Terminal::DisconnectLine2),
            LINE_V,
            SUPPLY_OHM,
        );
        if inputs.outdoor_disconnect == Switch::Closed {
            n.resistor(node(Terminal::DisconnectLine1), node(Terminal::DisconnectLoad1), CLOSED_OHM);
            n.resistor(node(Terminal::DisconnectLine2), node(Terminal::DisconnectLoad2), CLOSED_OHM);
        }
        if c.contactor_in {
            n.resistor(node(Terminal::DisconnectLoad1), node(Terminal::ContactorLoad1), CLOSED_OHM);
            n.resistor(node(Terminal::DisconnectLoad2), node(Terminal::ContactorLoad2), CLOSED_OHM);
        }
        n.resistor(node(Terminal::ContactorLoad1), node(Terminal::ContactorLoad2), OUTDOOR_MOTORS_OHM);
        if indoor {
            n.voltage_source(AIR_HANDLER_LINE_1, AIR_HANDLER_LINE_2, LINE_V, SUPPLY_OHM);
            n.voltage_source(node(Terminal::R), node(Terminal::C), CONTROL_V, TRANSFORMER_OHM);
        }
        if c.y {
            n.resistor(node(Terminal::R), node(Terminal::Y), CLOSED_OHM);
        }
        if c.g {
            n.resistor(node(Terminal::R), node(Terminal::G), CLOSED_OHM);
            n.resistor(AIR_HANDLER_LINE_1, node(Terminal::BlowerMotor1), CLOSED_OHM);
        }
        n.resistor(AIR_HANDLER_LINE_2, node(Terminal::BlowerMotor2), CLOSED_OHM);
        n.resistor(node(Terminal::BlowerMotor1), node(Terminal::BlowerMotor2), BLOWER_OHM);
        n.resistor(node(Terminal::G), node(Terminal::C), RELAY_COIL_OHM);
        // Y runs through the high-pressure switch to the contactor coil.
        if !c.high_pressure_open {
            n.resistor(node(Terminal::Y), node(Terminal::ContactorCoilY), CLOSED_OHM);
        }
        n.resistor(node(Terminal::C), node(Terminal::ContactorCoilC), CLOSED_OHM);
        n.resistor(node(Terminal::ContactorCoilY), node(Terminal::ContactorCoilC), CONTACTOR_COIL_OHM);
        if from != to {
            n.resistor(node(from), node(to), METER_OHM);
        }
        let v = n.solve();
        (v[node(from)] - v[node(to)]).abs()
    }
}

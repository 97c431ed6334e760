//! The wiring as a network: every wire, switch, coil, winding and capacitor between its terminals.

use serde::{Deserialize, Serialize};

use super::data::{Blower, Capacitor, Coil, Electrical, Motor};
use super::motors::SplitPhaseMotor;
use super::network::{Complex, Network, SUPPLY_RAD_S};
use super::terminals::{
    BLOWER_LINE, BLOWER_STAR, BlowerKind, COMPRESSOR_STAR, Conductor, FAN_STAR, FEED1, NODES, Terminal,
    WIRE_OHM,
};
use crate::fault::Wiring;

/// Resistance where two bare conductors touch, ohm (typ. 0.1 to 1: a light touch of copper on copper).
const CHAFED_OHM: f64 = 0.2;
/// Resistance of a contactor's coil whose turns have burnt together, ohm (typ. under 1 to 2; a sound one has 8 to 20).
const SHORTED_COIL_OHM: f64 = 0.6;
/// An electronic thermostat between R and C, ohm (typ. 5 to 10 mA at 24 V). Its rectifier passes nothing at the low voltage
/// of an ohmmeter.
const THERMOSTAT_OHM: f64 = 4.0e3;
/// Resistance of a closed contact, ohm (typ.).
const CONTACT_OHM: f64 = 0.01;
/// Leakage of a capacitor, ohm (typ.).
const LEAKAGE_OHM: f64 = 2.0e9;
/// Turns of the run winding on the lowest speed tap over those on the right one (typ.).
const LOWEST_TAP_TURNS: f64 = 1.6;

impl Wiring {
    /// Turns of the blower's run winding over those of the right tap.
    pub(crate) fn tap_turns(&self) -> f64 {
        1.0 + (LOWEST_TAP_TURNS - 1.0) * self.tap_too_low
    }

    /// Airflow that an ECM is set to over the right one: its lowest tap asks for 0.6 of it (typ.).
    pub(crate) fn target_share(&self) -> f64 {
        1.0 - 0.4 * self.tap_too_low
    }
}

/// What decides the network: switches, contacts, rotors, faults.
#[derive(Clone, Copy, Debug, Default, Serialize, Deserialize)]
pub(crate) struct Contacts {
    pub outdoor_disconnect: bool,
    pub service_switch: bool,
    pub thermostat_y: bool,
    pub thermostat_g: bool,
    /// Armatures of contactor and blower relay are in.
    pub contactor_in: bool,
    pub relay_in: bool,
    pub high_pressure_open: bool,
    pub low_pressure_open: bool,
    /// Internal overload of the compressor, protectors of the fan motors.
    pub overload_open: bool,
    pub fan_protector_open: bool,
    pub blower_protector_open: bool,
    /// The low-voltage fuse has melted.
    pub fuse_blown: bool,
    /// Rotors that turn (near their running speed, as far as the network is concerned).
    pub compressor_turns: bool,
    pub fan_turns: bool,
    pub blower_turns: bool,
    /// Capacitors with their leads taken off, by [`Capacitor`].
    pub leads_off: [bool; 3],
    /// Motors with their leads taken off, by [`super::Motor`].
    pub motor_leads_off: [bool; 3],
    pub faults: Wiring,
}

/// In one number and not field by field.
impl PartialEq for Contacts {
    #[inline]
    fn eq(&self, other: &Contacts) -> bool {
        self.bits() == other.bits() && self.faults == other.faults
    }
}

impl Contacts {
    /// All that is on or off. Named one by one, so that a new field is not forgotten.
    #[inline]
    pub(crate) fn bits(&self) -> u32 {
        let Contacts {
            outdoor_disconnect,
            service_switch,
            thermostat_y,
            thermostat_g,
            contactor_in,
            relay_in,
            high_pressure_open,
            low_pressure_open,
            overload_open,
            fan_protector_open,
            blower_protector_open,
            fuse_blown,
            compressor_turns,
            fan_turns,
            blower_turns,
            leads_off: [lead_a, lead_b, lead_c],
            motor_leads_off: [motor_a, motor_b, motor_c],
            faults: _,
        } = *self;
        let bit = |on: bool, place: u32| u32::from(on) << place;
        bit(outdoor_disconnect, 0)
            | bit(service_switch, 1)
            | bit(thermostat_y, 2)
            | bit(thermostat_g, 3)
            | bit(contactor_in, 4)
            | bit(relay_in, 5)
            | bit(high_pressure_open, 6)
            | bit(low_pressure_open, 7)
            | bit(overload_open, 8)
            | bit(fan_protector_open, 9)
            | bit(blower_protector_open, 10)
            | bit(fuse_blown, 11)
            | bit(compressor_turns, 12)
            | bit(fan_turns, 13)
            | bit(blower_turns, 14)
            | bit(lead_a, 15)
            | bit(lead_b, 16)
            | bit(lead_c, 17)
            | bit(motor_a, 18)
            | bit(motor_b, 19)
            | bit(motor_c, 20)
    }

    pub(crate) fn contactor_closed(&self) -> bool {
        self.contactor_in || self.faults.contacts_welded
    }

    pub(crate) fn relay_closed(&self) -> bool {
        self.relay_in && !self.faults.relay_open
    }

    /// Whether the low-voltage fuse conducts.
    pub(crate) fn fuse_whole(&self) -> bool {
        !self.fuse_blown && !self.faults.fuse_open
    }

    /// Whether the board passes a call at G on: to the coil of its blower relay, or to the command pin of an ECM.
    pub(crate) fn board_passes_g(&self) -> bool {
        !self.faults.board_dead
    }
}

/// Slips of the three motors and the power that an ECM takes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Loads {
    pub compressor_slip: f64,
    pub fan_slip: f64,
    pub blower_slip: f64,
    /// Rises of the windings of the fan motors, K.
    pub fan_rise_k: f64,
    pub blower_rise_k: f64,
    pub ecm_w: f64,
}

/// With what the network is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Excitation {
    /// The supply, 60 Hz.
    Supply,
    /// A meter's own test current at this angular frequency, rad/s (0: direct current), the supply off.
    Meter { rad_s: f64 },
}

/// Builds and holds the network of one instant.
pub(crate) struct Circuit<'a> {
    pub data: &'a Electrical,
    pub contacts: Contacts,
    pub loads: Loads,
}

impl Circuit<'_> {
    pub(crate) fn network(&self, excitation: Excitation) -> Network<NODES> {
        let mut n = Network::new();
        n.ground(Terminal::Ground.node());
        self.wires(&mut n);
        self.line_side(&mut n, excitation);
        self.control_side(&mut n, excitation);
        self.outdoor_motors(&mut n, excitation);
        self.blower(&mut n, excitation);
        n
    }

    /// Whether a conductor is there, whole and connected.
    pub(crate) fn conducts(&self, conductor: Conductor) -> bool {
        let c = &self.contacts;
        let kind = match self.data.blower {
            Blower::Psc(_) => BlowerKind::Psc,
            Blower::Ecm(_) => BlowerKind::Ecm,
        };
        if conductor.blower_only().is_some_and(|only| only != kind) {
            return false;
        }
        let leads_on = |capacitor: Capacitor| !c.leads_off[capacitor.index()];
        let motor_on = |motor: Motor| !c.motor_leads_off[motor.index()];
        match conductor {
            Conductor::YToOutdoor => !c.faults.y_open,
            Conductor::CompressorStart => leads_on(Capacitor::Compressor) && motor_on(Motor::Compressor),
            Conductor::CompressorCommon | Conductor::CompressorRun => motor_on(Motor::Compressor),
            Conductor::FanStart => leads_on(Capacitor::OutdoorFan) && motor_on(Motor::OutdoorFan),
            Conductor::FanCommon | Conductor::FanRun => motor_on(Motor::OutdoorFan),
            Conductor::BlowerStart => leads_on(Capacitor::Blower) && motor_on(Motor::Blower),
            Conductor::BlowerLine | Conductor::BlowerReturn => motor_on(Motor::Blower),
            Conductor::EcmCommand => !c.faults.command_open,
            _ => true,
        }
    }

    fn wires(&self, n: &mut Network<NODES>) {
        for conductor in Conductor::ALL {
            if self.conducts(conductor) {
                let (from, to) = conductor.ends();
                n.resistor(from, to, conductor.ohm());
            }
        }
    }

    fn line_side(&self, n: &mut Network<NODES>, excitation: Excitation) {
        use Terminal::*;
        let (c, d) = (&self.contacts, self.data);
        let contact = |n: &mut Network<NODES>, closed: bool, a: Terminal, b: Terminal| {
            if closed {
                n.resistor(a.node(), b.node(), CONTACT_OHM);
            }
        };
        if excitation == Excitation::Supply {
            for (leg1, leg2) in [(DisconnectLine1, DisconnectLine2), (ServiceLine1, ServiceLine2)] {
                n.voltage_source(leg1.node(), Ground.node(), d.leg_v, d.leg_ohm);
                n.voltage_source(leg2.node(), Ground.node(), -d.leg_v, d.leg_ohm);
            }
        }
        contact(n, c.outdoor_disconnect, DisconnectLine1, DisconnectLoad1);
        contact(n, c.outdoor_disconnect, DisconnectLine2, DisconnectLoad2);
        contact(n, c.service_switch, ServiceLine1, ServiceLoad1);
        contact(n, c.service_switch, ServiceLine2, ServiceLoad2);
        contact(n, c.contactor_closed(), ContactorLine1, ContactorLoad1);
        contact(n, c.contactor_closed(), ContactorLine2, ContactorLoad2);
    }

    fn control_side(&self, n: &mut Network<NODES>, excitation: Excitation) {
        use Terminal::*;
        let (c, d) = (&self.contacts, self.data);
        let f = &c.faults;
        // Transformer: a burnt-out primary neither takes nor gives.
        let t = &d.transformer;
        let (p1, p2) = (TransformerPrimary1.node(), TransformerPrimary2.node());
        let (s1, s2) = (TransformerSecondary1.node(), TransformerSecondary2.node());
        let sound = !f.primary_open;
        match excitation {
            Excitation::Supply if sound => {
                let turns = t.open_v / (2.0 * d.leg_v);
                let y = Complex::real(1.0 / t.inner_ohm);
                n.coupled(
                    [(p1, p2), (s1, s2)],
                    [[y.scale(turns * turns), -y.scale(turns)], [-y.scale(turns), y]],
                );
                n.admittance(p1, p2, Complex::new(0.0, -1.0 / t.magnetising_ohm));
            }
            Excitation::Supply => {}
            Excitation::Meter { .. } => {
                if sound {
                    n.resistor(p1, p2, t.primary_ohm);
                }
                n.resistor(s1, s2, t.secondary_ohm);
            }
        }
        let mut closed = |is: bool, a: Terminal, b: Terminal| {
            if is {
                n.resistor(a.node(), b.node(), CONTACT_OHM);
            }
        };
        closed(c.fuse_whole(), FuseSupply, FuseLoad);
        closed(c.thermostat_y && !f.thermostat_y_open, ThermostatR, ThermostatY);
        closed(c.thermostat_g && !f.thermostat_g_open, ThermostatR, ThermostatG);
        closed(!f.float_switch_open, FloatSwitchIn, FloatSwitchOut);
        closed(!c.high_pressure_open, HighPressureIn, HighPressureOut);
        closed(!c.low_pressure_open, LowPressureIn, LowPressureOut);
        if f.y_to_common {
            n.resistor(OutdoorY.node(), OutdoorC.node(), CHAFED_OHM);
        }
        if excitation == Excitation::Supply {
            n.resistor(ThermostatR.node(), C.node(), THERMOSTAT_OHM);
        }
        if !f.contactor_coil_open {
            // Burnt turns magnetise nothing: what is left is a bit of wire.
            let y = if f.contactor_coil_shorted {
                Complex::real(1.0 / SHORTED_COIL_OHM)
            } else {
                coil(&d.contactor_coil, excitation)
            };
            n.admittance(ContactorCoilY.node(), ContactorCoilC.node(), y);
        }
        let from_board = match d.blower {
            Blower::Psc(_) => {
                n.admittance(
                    BlowerRelayCoilG.node(),
                    BlowerRelayCoilC.node(),
                    coil(&d.relay_coil, excitation),
                );
                n.resistor(BlowerRelayCoilC.node(), C.node(), WIRE_OHM);
                BlowerRelayCoilG
            }
            Blower::Ecm(_) => EcmBoardCommand,
        };
        if c.board_passes_g() {
            n.resistor(G.node(), from_board.node(), CONTACT_OHM);
        }
    }

    fn outdoor_motors(&self, n: &mut Network<NODES>, excitation: Excitation) {
        use Terminal::*;
        let (c, d) = (&self.contacts, self.data);
        self.capacitor(n, Capacitor::Compressor, d.compressor.capacitor_f, excitation);
        self.capacitor(n, Capacitor::OutdoorFan, d.outdoor_fan.capacitor_f, excitation);
        if !c.overload_open {
            n.resistor(CompressorCommon.node(), COMPRESSOR_STAR, CONTACT_OHM);
        }
        let windings = Windings {
            run: CompressorRun.node(),
            start: CompressorStart.node(),
            star: COMPRESSOR_STAR,
            run_winding_whole: true,
        };
        windings.stamp(n, &d.compressor, self.loads.compressor_slip, excitation);
        // A dead fan motor has burnt off inside at its common lead.
        if !c.fan_protector_open && !c.faults.fan_open {
            n.resistor(FanMotorCommon.node(), FAN_STAR, CONTACT_OHM);
        }
        let windings = Windings {
            run: FanMotorRun.node(),
            start: FanMotorStart.node(),
            star: FAN_STAR,
            run_winding_whole: true,
        };
        windings.stamp(n, &d.outdoor_fan.warmed(self.loads.fan_rise_k), self.loads.fan_slip, excitation);
    }

    fn blower(&self, n: &mut Network<NODES>, excitation: Excitation) {
        use Terminal::*;
        let c = &self.contacts;
        match &self.data.blower {
            Blower::Psc(motor) => {
                if c.relay_closed() {
                    n.resistor(BlowerRelayCommon.node(), BlowerRelayOut.node(), CONTACT_OHM);
                }
                n.resistor(BlowerRelayOut.node(), BLOWER_LINE, WIRE_OHM);
                n.resistor(BlowerMotor1.node(), BlowerCapacitor1.node(), WIRE_OHM);
                self.capacitor(n, Capacitor::Blower, motor.capacitor_f, excitation);
                if !c.blower_protector_open {
                    n.resistor(BlowerMotor2.node(), BLOWER_STAR, CONTACT_OHM);
                }
                let windings = Windings {
                    run: BlowerMotor1.node(),
                    start: BlowerMotorStart.node(),
                    star: BLOWER_STAR,
                    run_winding_whole: !c.faults.blower_winding_open,
                };
                let motor = motor.on_tap(c.faults.tap_turns()).warmed(self.loads.blower_rise_k);
                windings.stamp(n, &motor, self.loads.blower_slip, excitation);
            }
            Blower::Ecm(ecm) => {
                n.resistor(FEED1, BLOWER_LINE, WIRE_OHM);
                n.resistor(BlowerMotor1.node(), EcmLine1.node(), WIRE_OHM);
                n.resistor(BlowerMotor2.node(), EcmLine2.node(), WIRE_OHM);
                n.resistor(EcmCommand.node(), EcmCommon.node(), ecm.command_ohm);
                // The motor's half of its plug. An open winding has burnt off at the first phase.
                for phase in [EcmMotor1, EcmMotor2, EcmMotor3] {
                    if phase != EcmMotor1 || !c.faults.blower_winding_open {
                        n.resistor(phase.node(), BLOWER_STAR, ecm.phase_ohm);
                    }
                }
                let line = (EcmLine1.node(), EcmLine2.node());
                match excitation {
                    Excitation::Supply => {
                        // A rectifier's distorted current, as an equal RMS current at the same power factor.
                        let volt = 2.0 * self.data.leg_v;
                        let active = self.loads.ecm_w / (volt * volt);
                        let pf = ecm.power_factor;
                        let reactive = active * (1.0 - pf * pf).sqrt() / pf;
                        n.admittance(line.0, line.1, Complex::new(active, reactive));
                    }
                    // The bleeder over the module's storage capacitor.
                    Excitation::Meter { .. } => n.resistor(line.0, line.1, ecm.bleeder_ohm),
                }
            }
        }
    }

    fn capacitor(&self, n: &mut Network<NODES>, which: Capacitor, label_f: f64, excitation: Excitation) {
        let (a, b) = capacitor_terminals(which);
        let farad = label_f * self.contacts.faults.capacitance_share(which);
        let rad_s = match excitation {
            Excitation::Supply => SUPPLY_RAD_S,
            Excitation::Meter { rad_s } => rad_s,
        };
        n.admittance(a.node(), b.node(), Complex::new(1.0 / LEAKAGE_OHM, rad_s * farad));
    }
}

/// The two terminals of a capacitor: the first on the line, the second at the start winding.
pub(crate) fn capacitor_terminals(which: Capacitor) -> (Terminal, Terminal) {
    match which {
        Capacitor::Compressor => (Terminal::CapacitorCommon, Terminal::CapacitorHerm),
        Capacitor::OutdoorFan => (Terminal::CapacitorCommon, Terminal::CapacitorFan),
        Capacitor::Blower => (Terminal::BlowerCapacitor1, Terminal::BlowerCapacitor2),
    }
}

fn coil(data: &Coil, excitation: Excitation) -> Complex {
    let reactance = match excitation {
        Excitation::Supply => data.reactance_ohm,
        Excitation::Meter { rad_s } => data.reactance_ohm * rad_s / SUPPLY_RAD_S,
    };
    Complex::new(data.ohm, reactance).inverse()
}

/// Where the windings of a motor end.
struct Windings {
    run: usize,
    start: usize,
    star: usize,
    run_winding_whole: bool,
}

impl Windings {
    fn stamp(&self, n: &mut Network<NODES>, motor: &SplitPhaseMotor, slip: f64, excitation: Excitation) {
        let [[run, minus_coupling], [coupling, start]] = match excitation {
            Excitation::Supply => motor.impedances(slip),
            // A meter sees resistance and leakage of each winding; the rotor's part is left out.
            Excitation::Meter { rad_s } => {
                let share = rad_s / SUPPLY_RAD_S;
                [
                    [Complex::new(motor.main_ohm, motor.main_leakage_ohm * share), Complex::ZERO],
                    [Complex::ZERO, Complex::new(motor.start_ohm, motor.start_leakage_ohm * share)],
                ]
            }
        };
        if self.run_winding_whole {
            let determinant = run * start - minus_coupling * coupling;
            n.coupled(
                [(self.run, self.star), (self.start, self.star)],
                [
                    [start / determinant, -(minus_coupling / determinant)],
                    [-(coupling / determinant), run / determinant],
                ],
            );
        } else {
            n.admittance(self.start, self.star, start.inverse());
        }
    }
}

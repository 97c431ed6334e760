//! What can be measured: one row for each quantity, with its instrument, its unit, what it is truly, what it hangs on, and what a member
//! plant of the diagnosis is off by.

use plant::{Conductor, Inputs, Plant, Readout, Terminal};
use serde::{Deserialize, Serialize};

use crate::instruments::bag::{
    AMPERES, CLAMP, DRY_BULB, GAUGE, Instrument, MANOMETER, METER, MICROFARADS, MICRON, OHMS, SCALE, WET_BULB,
};
use crate::place::{AirPoint, Bulb, PipePoint, Port, StaticTap};
use crate::truth::{air_k, gauge_pressure_pa, pipe_k, static_pa};

/// What a reading measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, strum::VariantNames)]
pub enum Measured {
    /// Gauge pressure at a port, Pa.
    GaugePressure(Port),
    /// Pipe temperature, K.
    PipeTemperature(PipePoint),
    /// Air temperature, K.
    AirTemperature(AirPoint, Bulb),
    /// Voltage, V.
    Voltage(Terminal, Terminal),
    /// Resistance, ohm.
    Resistance(Terminal, Terminal),
    /// Capacitance, F.
    Capacitance(Terminal, Terminal),
    /// Current, A.
    Current(Conductor),
    /// Refrigerant recovered on the scale, kg.
    RecoveredMass,
    /// Vacuum, Pa absolute.
    Vacuum,
    /// Refrigerant weighed in or added, kg.
    AddedMass,
    /// By how much the static pressure of the air is higher at the first tap than at the second, Pa.
    StaticPressure(StaticTap, StaticTap),
}

/// In what a value is kept, and by that how it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Pressure over that of the atmosphere, Pa.
    GaugePressure,
    /// Absolute pressure of a vacuum, Pa.
    Vacuum,
    /// Temperature, K.
    Temperature,
    /// V.
    Voltage,
    /// Ohm.
    Resistance,
    /// F.
    Capacitance,
    /// A.
    Current,
    /// Mass on a scale, kg.
    Weighed,
    /// Difference of static pressures of the air, Pa.
    StaticPressure,
}

impl Unit {
    /// SI unit in which the value is kept.
    pub fn si(self) -> &'static str {
        match self {
            Unit::GaugePressure | Unit::Vacuum | Unit::StaticPressure => "Pa",
            Unit::Temperature => "K",
            Unit::Voltage => "V",
            Unit::Resistance => "ohm",
            Unit::Capacitance => "F",
            Unit::Current => "A",
            Unit::Weighed => "kg",
        }
    }
}

/// Everything that is to be said of a quantity. Each field is required: the compiler names the one that is missing.
pub struct Quantity {
    /// Its instrument, with accuracy, resolution and settling.
    pub instrument: &'static Instrument,
    /// In what it is kept.
    pub unit: Unit,
    /// Least that the instrument shows, in `unit`.
    pub shows_from: f64,
    /// The piece of the bag that reads it: what one piece shows wrong, it shows wrong each time.
    pub(crate) piece: Piece,
    /// How it is read.
    pub(crate) read: Read,
    /// What it hangs on to mean anything.
    pub(crate) needs: Needs,
    /// How far it may stand off its slow average and still count as steady, in `unit`; `None` for what no compressor moves.
    pub(crate) still_within: Option<f64>,
    /// What a member plant at the true severity is off by, one standard deviation in `unit`: what stays all visit long, and what is off
    /// at the moment, by how far the reading can be relied on.
    pub off: fn(Measured, f64, Trust) -> [f64; 2],
    /// In how wide a range a value lies that means nothing, in `unit`.
    pub range: f64,
}

/// A piece of the bag, or a row of pieces that are taken as they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Piece {
    /// This one.
    Own(u8),
    /// A pipe clamp.
    Clamp(PipePoint),
    /// An air probe, with the number of its first sensor of the kind.
    Probe(AirPoint, u8),
}

/// How a quantity is read.
#[derive(Clone, Copy)]
pub(crate) enum Read {
    /// By what hangs on and follows with a lag.
    Attached,
    /// By what lies under a cylinder.
    Scale,
    /// By two probes at an instant: what the meter settles to.
    AtOnce(fn(&Plant, &Inputs, Measured) -> f64),
    /// By a move that asks the plant itself, since the meter may be harmed or show nothing.
    ByItsMove,
}

/// Whether a reading can be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Trust {
    /// SteadyState, on a plant that has run steadily.
    Sound,
    /// The value was still moving.
    Unsettled,
    /// The compressor was not running.
    CompressorStopped,
    /// Ice stood on the coil.
    IceOnCoil,
}

/// What a reading hangs on to mean anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Needs {
    /// Nothing, and it is settled at once.
    Nothing,
    /// The instrument has come to rest.
    Rest,
    /// The compressor has run for a while, and nothing moves any more.
    RunningPlant,
    /// No ice is on the coil, and the blower has come up or run down.
    Air,
}

/// Suction pressure may stand off its average by so much, Pa.
const SUCTION_STILL_PA: f64 = 15.0e3;
/// Liquid pressure, Pa.
const LIQUID_STILL_PA: f64 = 30.0e3;
/// Pipes, K.
const PIPE_STILL_K: f64 = 1.2;
/// Supply air, K.
const AIR_STILL_K: f64 = 0.6;
/// A gauge stops at a perfect vacuum, Pa gauge: 29.9 inHg below the atmosphere, the end of every compound scale (common
/// practice, no source). Its standing error does not carry it past that.
const GAUGE_STOP_PA: f64 = -101_253.0;
/// Voltages below this are those of the control circuit, V.
const CONTROL_BELOW_V: f64 = 60.0;

/// Of four figures the one for how far a reading can be relied on: sound, compressor stopped, unsettled, iced.
fn by_trust(trust: Trust, [sound, stopped, unsettled, iced]: [f64; 4]) -> f64 {
    match trust {
        Trust::Sound => sound,
        Trust::CompressorStopped => stopped,
        Trust::Unsettled => unsettled,
        Trust::IceOnCoil => iced,
    }
}

impl Measured {
    /// The row of the table. What member plants are off by was measured on development calls (numbers from 10,000 on), quantity by
    /// quantity and without the errors of instruments: `cargo run --release -p trials --bin residuals -- --drawn --strides`. What passes is
    /// more than that: by how much a plant that has just started, stands or carries ice lies elsewhere in other surroundings (without
    /// `--strides`).
    pub fn row(self) -> Quantity {
        match self {
            Measured::GaugePressure(port) => Quantity {
                instrument: &GAUGE,
                unit: Unit::GaugePressure,
                shows_from: GAUGE_STOP_PA,
                piece: Piece::Own(match port {
                    Port::Suction => 1,
                    Port::Liquid => 2,
                }),
                read: Read::Attached,
                needs: Needs::RunningPlant,
                still_within: Some(match port {
                    Port::Suction => SUCTION_STILL_PA,
                    Port::Liquid => LIQUID_STILL_PA,
                }),
                off: |_, _, trust| [200.0, by_trust(trust, [0.0, 6.0e3, 20.0e3, 45.0e3])],
                range: 3.0e6,
            },
            Measured::PipeTemperature(point) => Quantity {
                instrument: &CLAMP,
                unit: Unit::Temperature,
                shows_from: f64::NEG_INFINITY,
                piece: Piece::Clamp(point),
                read: Read::Attached,
                needs: Needs::RunningPlant,
                still_within: Some(PIPE_STILL_K),
                off: |quantity, _, trust| match quantity {
                    Measured::PipeTemperature(PipePoint::Discharge) => {
                        [0.02, by_trust(trust, [0.0, 0.8, 3.0, 7.0])]
                    }
                    Measured::PipeTemperature(
                        PipePoint::SuctionAtServiceValve | PipePoint::SuctionAtBulb,
                    ) => [0.02, by_trust(trust, [0.0, 0.3, 1.5, 3.0])],
                    _ => [0.01, by_trust(trust, [0.0, 0.2, 1.5, 0.6])],
                },
                range: 100.0,
            },
            Measured::AirTemperature(point, bulb) => Quantity {
                instrument: match bulb {
                    Bulb::Dry => &DRY_BULB,
                    Bulb::Wet => &WET_BULB,
                },
                unit: Unit::Temperature,
                shows_from: f64::NEG_INFINITY,
                piece: Piece::Probe(
                    point,
                    match bulb {
                        Bulb::Dry => 32,
                        Bulb::Wet => 48,
                    },
                ),
                read: Read::Attached,
                needs: match point {
                    AirPoint::Supply => Needs::RunningPlant,
                    AirPoint::Return | AirPoint::Outdoor => Needs::Rest,
                },
                still_within: match point {
                    AirPoint::Supply => Some(AIR_STILL_K),
                    AirPoint::Return | AirPoint::Outdoor => None,
                },
                off: |quantity, _, trust| match quantity {
                    Measured::AirTemperature(AirPoint::Supply, _) => {
                        [0.01, by_trust(trust, [0.0, 0.15, 0.8, 0.5])]
                    }
                    Measured::AirTemperature(AirPoint::Return, _) => {
                        [0.015, by_trust(trust, [0.0, 0.0, 0.1, 0.2])]
                    }
                    _ => [0.002, 0.0],
                },
                range: 40.0,
            },
            Measured::Voltage(..) => Quantity {
                instrument: &METER,
                unit: Unit::Voltage,
                // A meter shows no sign for alternating voltage.
                shows_from: 0.0,
                piece: Piece::Own(3),
                read: Read::AtOnce(|plant, inputs, quantity| {
                    let Measured::Voltage(from, to) = quantity else { return 0.0 };
                    plant.voltage_v(inputs, from, to)
                }),
                needs: Needs::Nothing,
                still_within: None,
                // A contactor more or less pulls a control transformer down by as much.
                off: |_, value, _| if value.abs() < CONTROL_BELOW_V { [0.01, 0.02] } else { [0.01, 0.01] },
                range: 250.0,
            },
            Measured::Resistance(..) => Quantity {
                instrument: &OHMS,
                unit: Unit::Resistance,
                shows_from: 0.0,
                piece: Piece::Own(6),
                read: Read::ByItsMove,
                needs: Needs::Nothing,
                still_within: None,
                off: |quantity, value, _| match quantity {
                    Measured::Resistance(from, _) if from.is_of_a_winding() => [0.0, 0.002 * value.abs()],
                    _ => [0.0, 0.0],
                },
                range: 100.0,
            },
            Measured::Capacitance(..) => Quantity {
                instrument: &MICROFARADS,
                unit: Unit::Capacitance,
                shows_from: 0.0,
                piece: Piece::Own(7),
                read: Read::ByItsMove,
                needs: Needs::Nothing,
                still_within: None,
                off: |_, _, _| [0.0, 0.0],
                range: 100.0e-6,
            },
            Measured::Current(_) => Quantity {
                instrument: &AMPERES,
                unit: Unit::Current,
                shows_from: 0.0,
                piece: Piece::Own(8),
                read: Read::ByItsMove,
                needs: Needs::Nothing,
                still_within: None,
                off: |quantity, value, trust| match quantity {
                    Measured::Current(Conductor::FanCommon) => [2.0e-4 * value.abs(), 0.0],
                    Measured::Current(Conductor::CompressorCommon) => {
                        [1.5e-3 * value.abs(), by_trust(trust, [0.0, 0.0, 0.03, 0.08]) * value.abs()]
                    }
                    _ => [2.0e-4 * value.abs(), by_trust(trust, [0.0, 0.0, 0.03, 0.08]) * value.abs()],
                },
                range: 60.0,
            },
            Measured::RecoveredMass | Measured::AddedMass => Quantity {
                instrument: &SCALE,
                unit: Unit::Weighed,
                // What has gone over a scale doesn't come back.
                shows_from: 0.0,
                piece: Piece::Own(4),
                read: Read::Scale,
                needs: Needs::Nothing,
                still_within: None,
                off: |_, value, _| [0.02 + 0.01 * value.abs(), 0.0],
                range: 5.0,
            },
            Measured::Vacuum => Quantity {
                instrument: &MICRON,
                unit: Unit::Vacuum,
                shows_from: 0.0,
                piece: Piece::Own(5),
                read: Read::Attached,
                needs: Needs::Rest,
                still_within: None,
                off: |_, value, _| [20.0 + 0.2 * value.abs(), 0.0],
                range: 1.0e5,
            },
            Measured::StaticPressure(..) => Quantity {
                instrument: &MANOMETER,
                unit: Unit::StaticPressure,
                shows_from: f64::NEG_INFINITY,
                piece: Piece::Own(9),
                read: Read::AtOnce(|plant, _, quantity| {
                    let Measured::StaticPressure(high, low) = quantity else { return 0.0 };
                    let truth = plant.readout();
                    static_pa(truth, high) - static_pa(truth, low)
                }),
                needs: Needs::Air,
                still_within: None,
                // The air's way is the same in every weather; ice shuts as much of the coil as the weather makes (engineering values).
                off: |_, value, trust| {
                    [0.2 + 0.002 * value.abs(), by_trust(trust, [0.0, 0.0, 0.05, 0.3]) * value.abs()]
                },
                range: 500.0,
            },
        }
    }

    /// SI unit in which the value is kept.
    pub fn unit(self) -> &'static str {
        self.row().unit.si()
    }

    /// Whether the instrument shows nothing below zero.
    pub fn shows_no_sign(self) -> bool {
        self.row().shows_from >= 0.0
    }

    /// What is true of it where an instrument hangs on, with the dew point of the weather, K; `None` for what none follows.
    pub(crate) fn truth(self, truth: &Readout, dew_point_k: f64) -> Option<f64> {
        match self {
            Measured::GaugePressure(port) => Some(gauge_pressure_pa(truth, port)),
            Measured::PipeTemperature(point) => Some(pipe_k(truth, point)),
            Measured::AirTemperature(point, bulb) => Some(air_k(truth, dew_point_k, point, bulb)),
            Measured::Vacuum => Some(truth.suction_pressure_pa),
            Measured::Voltage(..)
            | Measured::Resistance(..)
            | Measured::Capacitance(..)
            | Measured::Current(_)
            | Measured::RecoveredMass
            | Measured::AddedMass
            | Measured::StaticPressure(..) => None,
        }
    }
}

/// The instrument that measures a quantity.
pub fn instrument(quantity: Measured) -> &'static Instrument {
    quantity.row().instrument
}

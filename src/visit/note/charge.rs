//! Notes of charging.

use serde::{Deserialize, Serialize};

use crate::margin::ShownMargin;
use crate::place::ChargeBy;

/// Of charging.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ChargeNote {
    /// The thermostat is turned off while the liquid goes in.
    ThermostatOff,
    /// The thermostat is back as it was.
    ThermostatBack,
    /// The set point is put down, so that the system keeps running.
    SetPointDown,
    /// Cylinder and circuit are at the same pressure, and the system can not run.
    StopsAtPressure,
    /// The liquid stops short; the rest goes through the suction side of the running system.
    GoesOnThroughSuction,
    /// A blend is drawn as vapor.
    BlendAsVapor,
    /// Only the pressure of the cylinder drives anything in.
    CompressorOff,
    /// What went in by the scale.
    Weighed {
        /// What the scale shows, kg.
        weighed_kg: f64,
    },
    /// That is short of what was wanted.
    ShortOfWanted,
    /// The cylinder is empty.
    CylinderEmpty,
    /// Half an hour is over and the scale has not got there.
    HalfHourOver,
    /// The instruments are no longer in place.
    InstrumentsGone,
    /// The compressor has stopped; there is nothing to charge by.
    CompressorStopped {
        /// What was charged by.
        by: ChargeBy,
    },
    /// On target.
    OnTarget {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// All that was to go in at most is in.
    AllIn {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// Too many steps were made.
    GoingInCircles {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// The charging cylinder is empty.
    NothingToAdd {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// Too much is in, and the recovery cylinder is full.
    NoRoomForIt {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// A step in.
    StepIn {
        /// What the instruments show.
        shown: ShownMargin,
        /// How much, kg.
        step_kg: f64,
    },
    /// A step out.
    StepOut {
        /// What the instruments show.
        shown: ShownMargin,
        /// How much, kg.
        step_kg: f64,
    },
    /// The time is over before the target was reached.
    TimeOver {
        /// Target, K.
        target_difference_k: f64,
        /// Steps that were made.
        steps: u32,
    },
    /// What the instruments show at the end.
    Now {
        /// What the instruments show.
        shown: ShownMargin,
    },
    /// Nothing had been connected yet.
    NotConnected,
    /// What went into the recovery cylinder.
    IntoRecovery {
        /// What the scale shows, kg.
        weighed_kg: f64,
    },
}

//! What comes of a step: events, or why it could not be made.

use serde::{Deserialize, Serialize};

/// Time step of the refrigerant side used by [`advance`](crate::advance), s.
pub const BASE_STEP_S: f64 = 0.25;

/// What happened in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Event {
    /// The compressor started.
    CompressorStarted,
    /// The compressor stopped.
    CompressorStopped,
    /// The high-pressure switch opened.
    HighPressureSwitchOpened,
    /// The low-pressure switch opened.
    LowPressureSwitchOpened,
    /// The internal overload of the compressor opened.
    OverloadOpened,
    /// The internal thermal disc of the compressor opened on hot discharge gas.
    ThermalDiscOpened,
    /// The relief device let refrigerant out.
    ReliefOpened,
    /// The first ice formed on the coil.
    FrostBegan,
    /// The last ice melted.
    FrostGone,
    /// Liquid refrigerant is on its way to the running compressor: out of the coil, or in at the suction service port.
    FloodBack,
}

/// A step that could not be made.
#[derive(Clone, Debug, PartialEq)]
pub enum StepError {
    /// A state became non-finite; its name and the plant time are given.
    NonFinite {
        /// Which state.
        state: &'static str,
        /// Plant time, s.
        time_s: f64,
    },
    /// The time step is not in the range a step can take.
    TimeStep {
        /// The refused step, s.
        dt_s: f64,
    },
}

impl core::fmt::Display for StepError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            StepError::NonFinite { state, time_s } => {
                write!(f, "the plant's {state} is no longer a number at {time_s:.2} s of plant time")
            }
            StepError::TimeStep { dt_s } => {
                write!(f, "a time step of {dt_s} s is not allowed: above 0 up to 0.5 s")
            }
        }
    }
}

impl core::error::Error for StepError {}

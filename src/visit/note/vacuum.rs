//! Notes of evacuation.

use serde::{Deserialize, Serialize};

/// Of evacuation and the decay test.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum VacuumNote {
    /// The pump is on a unit that can start.
    DisconnectIn,
    /// How it comes down.
    Falls {
        /// Since the pump was started, s.
        after_s: f64,
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
    },
    /// It has stood at the target for a minute.
    StoodAtTarget {
        /// Since the pump was started, s.
        after_s: f64,
    },
    /// The pump had not been started yet.
    NotStarted,
    /// The pump is valved off; whether the vacuum holds is not shown.
    ValvedOff {
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
    },
    /// The target was not reached.
    TargetNotReached,
    /// Ten minutes after the pump was valved off.
    TenMinutesLater {
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
    },
    /// It stays under 1000 microns.
    Holds,
    /// It has risen above them.
    DoesNotHold,
    /// After an hour the pump has not reached 500 microns.
    NotReached,
    /// The pump is valved off for a decay test.
    TestBegins {
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
    },
    /// Half way through the test.
    HalfWay {
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
    },
    /// At its end.
    TestEnds {
        /// What the micron gauge shows, Pa absolute.
        shown_vacuum_pa: f64,
        /// Rise in its first half, Pa.
        first_half_vacuum_pa: f64,
        /// Rise in its second half, Pa.
        second_half_vacuum_pa: f64,
    },
    /// It is under 1000 microns, and the test was too short to show that it holds.
    TooShort,
    /// It is above 1000 microns.
    Above,
    /// The compressor runs on a circuit that is open or empty.
    CompressorRunsOnOpenCircuit,
}

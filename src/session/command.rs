//! What a session is asked for: by panels, by tests, by whatever drives it.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};
use visit::Move;
use words::Units;

/// One wish.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Drive to a call and arrive there.
    Arrive {
        /// Which call.
        call: CallChoice,
        /// Seed that closes the call's ranges.
        seed: u64,
    },
    /// Stop preparing an arrival or a replay.
    CancelArrival,
    /// The path of a file stands on the start screen: if it is a record, it will most likely be opened.
    LookAhead(PathBuf),
    /// Open a visit record and show the review, or go on with the visit if it is still open.
    OpenRecord(PathBuf),
    /// Make a move.
    Perform(Move),
    /// Make moves one after another; a refused one ends it.
    PerformAll(Vec<Move>),
    /// Say which tests would tell most.
    AskTests,
    /// The suspects that still stand are looked at.
    LookAtStanding,
    /// End the running wait now.
    StopWaiting,
    /// Stop or restart the clock.
    TogglePause,
    /// How fast the clock runs, now and from now on.
    SetSpeed(Speed),
    /// Units on display, now and from now on.
    SetUnits(Units),
    /// The message was read.
    DismissNotice,
    /// Go on with a visit that was interrupted, from its journal.
    GoOn(PathBuf),
    /// Write the visit record.
    SaveRecord,
    /// Write the visit record and go back to the list of calls; stay if it can't be written.
    SaveAndLeave,
    /// Write the review as one HTML page, in the units on display.
    SavePage,
    /// Back to the list of calls; the visit is left.
    Leave,
    /// Close the window.
    Quit,
}

/// Where a call comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CallChoice {
    /// One of the calls that come with the program, by its id.
    BuiltIn(String),
    /// A call file.
    File(PathBuf),
}

/// How fast plant time runs against real time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Speed {
    /// As in life.
    #[default]
    Real,
    /// Ten times.
    Ten,
    /// A minute a second.
    Sixty,
    /// Five minutes a second.
    ThreeHundred,
}

impl Speed {
    /// Every speed, slowest first.
    pub const ALL: [Speed; 4] = [Speed::Real, Speed::Ten, Speed::Sixty, Speed::ThreeHundred];

    /// Plant seconds a real second.
    pub fn factor(self) -> f64 {
        match self {
            Speed::Real => 1.0,
            Speed::Ten => 10.0,
            Speed::Sixty => 60.0,
            Speed::ThreeHundred => 300.0,
        }
    }

    /// The next slower one, or the slowest.
    pub fn slower(self) -> Speed {
        match self {
            Speed::Real | Speed::Ten => Speed::Real,
            Speed::Sixty => Speed::Ten,
            Speed::ThreeHundred => Speed::Sixty,
        }
    }

    /// The next faster one, or the fastest.
    pub fn faster(self) -> Speed {
        match self {
            Speed::Real => Speed::Ten,
            Speed::Ten => Speed::Sixty,
            Speed::Sixty | Speed::ThreeHundred => Speed::ThreeHundred,
        }
    }
}

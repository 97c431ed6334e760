//! Events of a visit: the learner's moves, and what happens to the system or the site without them.

use plant::{Fault, FaultKind, LeakPlace};
use serde::{Deserialize, Serialize};

use crate::action::Move;

/// Something of a visit that is recorded and made again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Event {
    /// The learner makes a move.
    Move(Move),
    /// Something happens that is not the learner's doing.
    Happening(Happening),
}

/// An event with the plant time at which it began.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timed {
    /// Plant time, s.
    pub at_s: f64,
    /// The event.
    pub event: Event,
}

impl Timed {
    /// The move, if it is one.
    pub fn action(&self) -> Option<&Move> {
        match &self.event {
            Event::Move(action) => Some(action),
            Event::Happening(_) => None,
        }
    }
}

impl Timed {
    /// Whether it makes a fault come, go or change: no learner can.
    pub fn changes_what_is_wrong(&self) -> bool {
        match &self.event {
            Event::Move(_)
            | Event::Happening(Happening::Pause | Happening::Resume | Happening::Message(_)) => false,
            Event::Happening(
                Happening::Inject { .. } | Happening::Worsen { .. } | Happening::Clear { .. },
            ) => true,
        }
    }
}

/// What happens to the system or the site and is not the learner's doing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Happening {
    /// A fault sets in.
    Inject {
        /// Its kind.
        kind: FaultKind,
        /// Where, if the kind has places.
        #[serde(default)]
        place: Option<LeakPlace>,
        /// How bad, 0 to 1.
        severity: f64,
    },
    /// A fault that is there gets another severity.
    Worsen {
        /// Its kind.
        kind: FaultKind,
        /// Where, if the kind has places.
        #[serde(default)]
        place: Option<LeakPlace>,
        /// How bad from now on, 0 to 1.
        severity: f64,
    },
    /// A fault that is there goes.
    Clear {
        /// Its kind.
        kind: FaultKind,
        /// Where, if the kind has places.
        #[serde(default)]
        place: Option<LeakPlace>,
    },
    /// The clock is stopped from outside. Whoever drives the clock keeps it so until [`Happening::Resume`].
    Pause,
    /// It goes on.
    Resume,
    /// A message to the learner.
    Message(String),
}

/// Why something can't happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CannotHappen {
    /// The ticket is closed.
    TicketClosed,
    /// A severity is a number from 0, not itself, to 1.
    Severity,
    /// The system does not have the part.
    NoSuchPart,
    /// The kind needs a place.
    PlaceMissing,
    /// The kind has no places.
    PlaceTooMuch,
    /// The kind is a state of the charge, which holds from the start.
    HoldsFromTheStart,
    /// The fault is there already: worsen it.
    ThereAlready,
    /// No such fault is there.
    NotThere,
    /// It is paused already.
    PausedAlready,
    /// It is not paused.
    NotPaused,
    /// A message is longer than anybody reads, or empty.
    MessageLength,
    /// A message holds a character that steers what shows it, or turns the direction of writing.
    MessageHidden,
}

/// Letters of the longest message.
pub const MESSAGE_MOST: usize = 500;

/// Most events of a record: a week of half minutes.
pub(crate) const MOST_EVENTS: usize = 20_160;

/// A fault with the time for which it was there.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrong {
    /// The fault; its onset is when it set in.
    pub fault: Fault,
    /// Plant time at which it went, s; `None` if it is still there.
    pub until_s: Option<f64>,
}

impl Wrong {
    /// Whether it was there at a plant time, s.
    pub fn is_at(&self, time_s: f64) -> bool {
        self.fault.onset_s <= time_s && self.until_s.is_none_or(|until_s| time_s < until_s)
    }
}

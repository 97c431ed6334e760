//! Events of a visit: the learner's moves, and what happens to the system or the site without them.

use plant::{Fault, FaultKind, LeakPlace};
use serde::{Deserialize, Serialize};

use crate::moves::Move;
use crate::visit::Visit;

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

fn is(fault: &Fault, kind: FaultKind, place: Option<LeakPlace>) -> bool {
    fault.kind == kind && fault.place == place
}

impl Visit {
    /// Something happens now, also while a move is under way.
    ///
    /// # Errors
    /// If it can't happen; nothing is recorded then.
    pub fn happen(&mut self, happening: Happening) -> Result<(), CannotHappen> {
        if self.site.closed {
            return Err(CannotHappen::TicketClosed);
        }
        let now_s = self.time_s();
        match &happening {
            Happening::Inject { kind, place, severity } => {
                self.check_fault(*kind, *place, *severity)?;
                if self.is_wrong(*kind, *place) {
                    return Err(CannotHappen::ThereAlready);
                }
                self.plant.inject(Fault { kind: *kind, place: *place, severity: *severity, onset_s: now_s });
            }
            Happening::Worsen { kind, place, severity } => {
                self.check_fault(*kind, *place, *severity)?;
                if !self.is_wrong(*kind, *place) {
                    return Err(CannotHappen::NotThere);
                }
                self.plant.clear(*kind, *place);
                self.follow_wrong();
                self.plant.inject(Fault { kind: *kind, place: *place, severity: *severity, onset_s: now_s });
            }
            Happening::Clear { kind, place } => {
                if !self.is_wrong(*kind, *place) {
                    return Err(CannotHappen::NotThere);
                }
                self.plant.clear(*kind, *place);
            }
            Happening::Pause if self.paused => return Err(CannotHappen::PausedAlready),
            Happening::Pause => self.paused = true,
            Happening::Resume if !self.paused => return Err(CannotHappen::NotPaused),
            Happening::Resume => self.paused = false,
            Happening::Message(text) => {
                let letters = text.trim().chars().count();
                if letters == 0 || text.chars().count() > MESSAGE_MOST {
                    return Err(CannotHappen::MessageLength);
                }
                if text.chars().any(ron_file::is_hidden) {
                    return Err(CannotHappen::MessageHidden);
                }
            }
        }
        self.follow_wrong();
        self.timed.push(Timed { at_s: now_s, event: Event::Happening(happening) });
        Ok(())
    }

    fn check_fault(
        &self,
        kind: FaultKind,
        place: Option<LeakPlace>,
        severity: f64,
    ) -> Result<(), CannotHappen> {
        if !(severity > 0.0 && severity <= 1.0) {
            return Err(CannotHappen::Severity);
        }
        if kind.holds_from_the_start() {
            return Err(CannotHappen::HoldsFromTheStart);
        }
        if !kind.is_possible_in(self.plant.system()) {
            return Err(CannotHappen::NoSuchPart);
        }
        match (kind.needs_place(), place) {
            (true, None) => Err(CannotHappen::PlaceMissing),
            (false, Some(_)) => Err(CannotHappen::PlaceTooMuch),
            _ => Ok(()),
        }
    }

    fn is_wrong(&self, kind: FaultKind, place: Option<LeakPlace>) -> bool {
        self.plant.faults().iter().any(|fault| is(fault, kind, place))
    }

    /// Whether the clock was stopped from outside.
    pub fn is_paused(&self) -> bool {
        self.paused
    }

    /// Every event so far, in order; the last move may still be under way.
    pub fn events(&self) -> &[Timed] {
        &self.timed
    }

    /// Everything that was wrong in this visit, and when: in the order in which it set in.
    pub fn wrong(&self) -> &[Wrong] {
        &self.wrong
    }

    /// What was wrong at a plant time, s.
    pub fn wrong_at(&self, time_s: f64) -> impl Iterator<Item = &Fault> {
        self.wrong.iter().filter(move |wrong| wrong.is_at(time_s)).map(|wrong| &wrong.fault)
    }

    /// Everything that had gone wrong by a plant time, s, whether it was still there or not, each kind and place once with its last
    /// severity.
    pub fn wrong_by(&self, time_s: f64) -> Vec<&Fault> {
        let mut faults: Vec<&Fault> = Vec::new();
        for wrong in self.wrong.iter().filter(|wrong| wrong.fault.onset_s <= time_s) {
            let fault = &wrong.fault;
            match faults.iter_mut().find(|other| is(other, fault.kind, fault.place)) {
                Some(other) => *other = fault,
                None => faults.push(fault),
            }
        }
        faults
    }

    /// Everything that was ever wrong in this visit, each kind and place once with its last severity.
    pub fn ever_wrong(&self) -> Vec<&Fault> {
        self.wrong_by(f64::INFINITY)
    }

    /// Notes which faults have come and gone.
    pub(crate) fn follow_wrong(&mut self) {
        let now_s = self.time_s();
        let there = self.plant.faults();
        for wrong in self.wrong.iter_mut().filter(|wrong| wrong.until_s.is_none()) {
            if !there.contains(&wrong.fault) {
                wrong.until_s = Some(now_s);
            }
        }
        for fault in there {
            if !self.wrong.iter().any(|wrong| wrong.until_s.is_none() && wrong.fault == *fault) {
                self.wrong.push(Wrong { fault: fault.clone(), until_s: None });
            }
        }
    }
}

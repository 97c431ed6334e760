//! What happens to the system or the site and is not the learner's doing, and what was wrong when.

use plant::{Fault, FaultKind, LeakPlace};

use crate::event::{CannotHappen, Event, Happening, MESSAGE_MOST, Timed, Wrong};
use crate::visit::Visit;

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

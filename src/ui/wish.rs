//! What panels wish for. A panel holds its own state and changes no other: what concerns another panel, or the session, is a wish that
//! the frame carries out.

use std::collections::BTreeSet;

use session::Command;
use visit::{Move, Place};

/// One wish of a panel.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Wish {
    /// Something for the session.
    Do(Command),
    /// A move, which may need to be told more first.
    Choose(Move),
    /// A dialog.
    Open(Ask),
    /// Another place.
    Go(Place),
    /// Entries that are cited as evidence.
    Cite(BTreeSet<u32>),
    /// Help is opened or closed.
    Help,
    /// The page beside the moves is turned.
    Turn,
}

/// Which dialog.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Ask {
    /// A question for the customer.
    Question,
    /// How long to wait.
    Wait,
    /// Thermostat settings.
    Thermostat,
    /// Between which terminals.
    Voltage,
    /// The cause with its evidence.
    Declare,
    /// A move that is asked for once more.
    Confirm(Move),
    /// Leaving the visit.
    Leave,
}

/// The wishes of a frame, in order.
#[derive(Debug, Default)]
pub(crate) struct Wishes(Vec<Wish>);

impl Wishes {
    /// Takes one in.
    pub(crate) fn push(&mut self, wish: Wish) {
        self.0.push(wish);
    }

    /// Takes something for the session in.
    pub(crate) fn command(&mut self, command: Command) {
        self.push(Wish::Do(command));
    }

    /// All of them, taken out.
    pub(crate) fn take(&mut self) -> Vec<Wish> {
        std::mem::take(&mut self.0)
    }
}

//! Every panel of the screen as a function of egui and a view of the visit.
//!
//! [`show`] draws one frame of a [`Stage`] and returns the [`Command`]s that the person gave. Panels read the
//! [`View`] and never write to a visit; what only the screen knows (chosen place, open dialog, words, entries
//! ticked as evidence) lives in [`UiState`]. No engine, file or clock is known here.

mod clock;
mod command;
mod dial;
mod dialogs;
mod help;
mod hints;
mod instruments;
mod keys;
mod moves;
mod notebook;
mod palette;
mod parts;
mod places;
mod plots;
mod review;
mod site;
mod stage;
mod start;
mod state;
mod tickets;
mod trace;
mod units;
mod view;
mod wording;

pub use command::{CallChoice, Command, Speed};
pub use hints::{HintLook, HintsTaken, TestsLook};
pub use site::Motion;
pub use stage::{
    CallCard, ClockLook, FiguresLook, LeftCard, Pace, PathLook, Preparing, ReviewLook, Stage, Weighing, show,
};
pub use state::{Notice, UiState};
pub use trace::Trace;
pub use view::{Busy, CoilFace, CoilLook, LiveValue, SiteLook, View};

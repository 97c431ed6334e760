//! Every panel of the screen as a function of egui and a view of the visit.
//!
//! [`show`] draws one frame of what a session shows and returns the commands that the person gave. Each panel owns its state, reads the
//! [`View`] and pushes wishes; only `stage` knows all of them. No engine, file or clock is known here.

mod clock;
mod dial;
mod dialogs;
mod help;
mod hints;
mod instruments;
mod keys;
mod moves;
mod notebook;
mod notice;
mod palette;
mod parts;
mod places;
mod plots;
mod review;
mod site;
mod stage;
mod start;
mod tickets;
mod units;
mod view;
mod wish;
mod wording;

pub use hints::taken as hints_taken;
pub use site::Motion;
pub use stage::{Shown, UiState, show};
pub use view::{Busy, CoilFace, CoilLook, LiveValue, SiteLook, View};

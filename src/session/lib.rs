//! A session: the program without engine and screen.
//!
//! [`Session`] is at the list of calls, preparing (arriving, opening, marking), working or reviewing. Commands go in, a [`Stage`] comes out;
//! the clock on the wall is handed in. Long work runs in the [`background`], in one way. Window and tests drive the same session; the
//! command line uses what it is made of: records opened ([`opening`]), marks ([`marking`]), and calls, files and the journal of a visit in
//! progress from `store`.

mod adviser;
mod ahead;
pub mod background;
mod brought;
mod cards;
mod command;
mod failure;
mod job;
mod look;
pub mod marking;
pub mod opening;
mod pace;
mod reviewing;
mod saving;
mod session;
mod settings;
mod time;
mod weighing;
mod working;

pub use cards::cards;
pub use command::{CallChoice, Command, Speed};
pub use failure::{Failure, Written};
pub use look::{
    CallCard, ClockLook, FiguresLook, HintLook, HintsTaken, LeftCard, Notice, Pace, PathLook, Preparing,
    ReviewLook, Stage, Task, TestsLook, WeighingLook,
};
pub use session::{Liveliness, Options, Quit, Session};
pub use settings::{Settings, Store};
pub use store::{Interrupted, Journal, JournalError, calls, files, interrupted};
pub use time::{Clock, HandClock, WallClock};

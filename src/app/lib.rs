//! The window: Bevy runs it, `ui` draws it, [`screen::Session`] carries out what the person asks for.
//!
//! Only this crate knows the engine and the clock on the wall; how files are written is `session`'s.

mod ahead;
mod clock;
mod failure;
mod files;
mod hints;
mod job;
mod marking;
mod path;
mod probe;
mod reviewing;
mod screen;
mod weighing;
mod window;
mod working;

use std::path::PathBuf;

/// What the window opens with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Call to choose in the list: the id of a built-in call, or the path of a call file.
    pub call: Option<String>,
    /// Seed.
    pub seed: Option<u64>,
    /// Folder for visit records; the current folder if none is given.
    pub record_dir: Option<PathBuf>,
}

/// Opens the window and runs it until it is closed.
///
/// # Errors
/// A message for the person at the terminal when there is no display or no graphics adapter, with the way to
/// work without a window.
pub fn run(options: Options) -> Result<(), String> {
    probe::display()?;
    probe::graphics()?;
    window::run(options)
}

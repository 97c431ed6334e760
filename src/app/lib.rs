//! The window: Bevy runs it, `ui` draws it, a [`session::Session`] carries out what the person asks for.
//!
//! Only this crate knows the engine.

mod probe;
mod window;

use session::Options;

/// Opens the window and runs it until it is closed.
///
/// # Errors
/// A message for the person at the terminal when there is no display or no graphics adapter, with the way to
/// work without a window; and when the window broke down, with the place where the visit was saved.
pub fn run(options: &Options) -> Result<(), String> {
    probe::display()?;
    probe::graphics()?;
    window::run(options)
}

//! What window and command line share around a visit: files that are written whole, and a journal of a visit in progress. Knows
//! neither an engine nor a screen.

pub mod calls;
pub mod files;
mod journal;

pub use journal::{Interrupted, Journal, JournalError, interrupted};

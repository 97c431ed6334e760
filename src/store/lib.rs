//! What lies on the disk: files that are written whole or not at all, calls found by name and by record, the journal of a
//! visit in progress. What is the matter with them is told as facts.

pub mod calls;
pub mod files;
mod journal;

pub use journal::{Interrupted, Journal, JournalError, interrupted};

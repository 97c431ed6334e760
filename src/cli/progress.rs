//! How far long work is, on standard error, so that standard output stays what was asked for.

use std::io::{IsTerminal, Write, stderr};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use diagnosis::{Done, Progress};
use words::Words;

/// Time between two lines where the output goes into a file.
const BETWEEN_LINES: Duration = Duration::from_secs(15);
/// Time between two states of the line on a terminal.
const BETWEEN_STATES: Duration = Duration::from_millis(100);

/// The progress of one piece of work: a line that is written over on a terminal, now and then a line elsewhere.
pub(crate) struct Line {
    what: String,
    written: Mutex<Option<Instant>>,
    place: Place,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Terminal,
    File,
}

impl Line {
    /// Of some work, named at once by the message of a key.
    pub(crate) fn of(key: &str) -> Line {
        let place = if stderr().is_terminal() { Place::Terminal } else { Place::File };
        let what = Words::default().label(key);
        let progress = Line { what, written: Mutex::new(None), place };
        progress.tell(&Words::default().label("cli-begun"));
        progress
    }

    /// How far it is.
    pub(crate) fn tell(&self, state: &str) {
        let mut written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        let between = match self.place {
            Place::Terminal => BETWEEN_STATES,
            Place::File => BETWEEN_LINES,
        };
        if written.is_some_and(|at| at.elapsed() < between) {
            return;
        }
        *written = Some(Instant::now());
        // Nobody may be reading any more, which is no reason to stop the work.
        let _ = match self.place {
            Place::Terminal => write!(stderr(), "\r{}: {state}\x1b[K", self.what),
            Place::File => writeln!(stderr(), "{}: {state}", self.what),
        };
    }

    /// Takes the line away, for output that goes to the same terminal; the next state writes it anew.
    pub(crate) fn make_way(&self) {
        if self.place == Place::Terminal {
            let _ = write!(stderr(), "\r\x1b[K");
        }
    }
}

impl Progress for Line {
    fn report(&self, done: Done) {
        match done {
            Done::Share(share) => self.tell(&percent(share)),
            Done::Steps(steps) => self.tell(&Words::default().count("cli-moves-so-far", steps, &[])),
        }
    }

    fn is_cancelled(&self) -> bool {
        false
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        self.make_way();
    }
}

/// A share in whole percent.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

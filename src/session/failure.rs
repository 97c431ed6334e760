//! What did not work, and how the person is told.

use std::path::Path;

use call::CallProblems;
use plant::StepError;
use ron_file::{Mistake, Problems};
use store::JournalError;
use store::calls::{CallError, CallFault};
use store::files::FileFault;
use visit::{Breakdown, FileProblems, ReplayError};
use words::Words;

use crate::opening::OpenError;

/// Something that did not work.
#[derive(Clone, Debug, PartialEq)]
pub enum Failure {
    /// The plant broke down.
    Breakdown(Breakdown),
    /// A record can't be worked again.
    Replay(ReplayError),
    /// There is no call.
    NoCall(CallFault),
    /// A call has problems.
    Call(CallProblems),
    /// A record has problems.
    Record(FileProblems),
    /// Faults came or went in a record without the learner.
    Outside,
    /// A thread could not be begun, for this reason.
    NotBegun(String),
    /// Work ended without a result.
    NoResult,
    /// Work ended in a panic, which said this.
    BrokeOff(String),
    /// The settings could not be read: their path, and why.
    SettingsNotRead(String, FileFault),
    /// The settings have mistakes.
    SettingsMistaken(Problems<Mistake>),
    /// The settings could not be written: their path, and why.
    SettingsNotWritten(String, FileFault),
    /// A file could not be read: its path, and why.
    NotRead(String, FileFault),
    /// A file could not be written: what it is, its path, and why.
    NotWritten(Written, String, FileFault),
    /// The record of an interrupted visit could not be written, for this reason.
    InterruptedNotWritten(JournalError),
    /// The journal of the visit can't be written, for this reason.
    NoJournal(JournalError),
    /// The page was asked for before its figures were there.
    FiguresToCome,
    /// There are no figures for a page.
    NoFigures,
    /// The work on the suspects ended in a panic.
    HintsBrokeOff,
    /// The plant reached a state that it can't go on from, for this reason.
    ClockStopped(Breakdown),
}

/// A file that is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// The record of a visit.
    Record,
    /// The page of a review.
    Page,
}

impl From<StepError> for Failure {
    fn from(error: StepError) -> Failure {
        Failure::Breakdown(error.into())
    }
}

impl From<ReplayError> for Failure {
    fn from(error: ReplayError) -> Failure {
        Failure::Replay(error)
    }
}

impl From<OpenError> for Failure {
    fn from(error: OpenError) -> Failure {
        match error {
            OpenError::File(path, fault) => Failure::NotRead(path.display().to_string(), fault),
            OpenError::Problems(problems) => Failure::Record(problems),
            OpenError::Outside => Failure::Outside,
            OpenError::Call(error) => Failure::from(error),
            OpenError::Replay(error) => Failure::Replay(error),
        }
    }
}

impl From<CallError> for Failure {
    fn from(error: CallError) -> Failure {
        match error {
            CallError::Fault(fault) => Failure::NoCall(fault),
            CallError::Problems(problems) => Failure::Call(problems),
        }
    }
}

impl Failure {
    /// A file that could not be written.
    pub(crate) fn not_written(what: Written, path: &Path, reason: impl Into<FileFault>) -> Failure {
        Failure::NotWritten(what, path.display().to_string(), reason.into())
    }

    /// What and why, a line each.
    pub fn told(&self, words: Words) -> Vec<String> {
        match self {
            Failure::Breakdown(breakdown) => vec![words.say(breakdown)],
            Failure::Replay(error) => vec![words.say(error)],
            Failure::NoCall(fault) => vec![words.say(fault)],
            Failure::Call(problems) => words.problems(problems),
            Failure::Record(problems) => words.problems(problems),
            Failure::Outside => vec![words.label("screen-failed-outside")],
            Failure::NotBegun(reason) => {
                vec![words.fill("screen-failed-not-begun", &[("reason", reason.clone())])]
            }
            Failure::NoResult => vec![words.label("screen-failed-no-result")],
            Failure::BrokeOff(reason) => {
                vec![words.fill("screen-failed-broke-off", &[("reason", reason.clone())])]
            }
            Failure::SettingsNotRead(path, reason) => vec![words.fill(
                "screen-failed-settings-not-read",
                &[("path", path.clone()), ("reason", words.say(reason))],
            )],
            Failure::SettingsMistaken(problems) => words.problems(problems),
            Failure::SettingsNotWritten(path, reason) => vec![words.fill(
                "screen-failed-settings-not-written",
                &[("path", path.clone()), ("reason", words.say(reason))],
            )],
            Failure::NotRead(path, reason) => vec![
                words
                    .fill("screen-failed-not-read", &[("path", path.clone()), ("reason", words.say(reason))]),
                words.label("screen-failed-not-read-advice"),
            ],
            Failure::NotWritten(Written::Record, path, reason) => vec![words.fill(
                "screen-failed-record-not-written",
                &[("path", path.clone()), ("reason", words.say(reason))],
            )],
            Failure::NotWritten(Written::Page, path, reason) => vec![words.fill(
                "screen-failed-page-not-written",
                &[("path", path.clone()), ("reason", words.say(reason))],
            )],
            Failure::InterruptedNotWritten(reason) => {
                vec![words.fill("screen-failed-interrupted-not-written", &[("reason", words.say(reason))])]
            }
            Failure::NoJournal(reason) => vec![
                words.fill("screen-failed-no-journal", &[("reason", words.say(reason))]),
                words.label("screen-failed-no-journal-advice"),
            ],
            Failure::FiguresToCome => vec![words.label("screen-failed-figures-to-come")],
            Failure::NoFigures => vec![words.label("screen-failed-no-figures")],
            Failure::HintsBrokeOff => vec![words.label("screen-failed-hints-broke-off")],
            Failure::ClockStopped(reason) => {
                vec![words.say(reason), words.label("screen-failed-clock-stopped")]
            }
        }
    }
}

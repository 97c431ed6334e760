//! What did not work, and how the person is told.

use std::fmt::Display;
use std::path::Path;

use words::Words;

/// Something that did not work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Failure {
    /// As it is told below the window, a line each.
    Told(Vec<String>),
    /// A thread could not be begun, for this reason.
    NotBegun(String),
    /// Work ended without a result.
    NoResult,
    /// Work ended in a panic, which said this.
    BrokeOff(String),
    /// The settings could not be read: their path, and why.
    SettingsNotRead(String, String),
    /// The settings could not be written: their path, and why.
    SettingsNotWritten(String, String),
    /// A file could not be read: its path, and why.
    NotRead(String, String),
    /// A file could not be written: what it is, its path, and why.
    NotWritten(Written, String, String),
    /// The record of an interrupted visit could not be written, for this reason.
    InterruptedNotWritten(String),
    /// The journal of the visit can't be written, for this reason.
    NoJournal(String),
    /// The page was asked for before its figures were there.
    FiguresToCome,
    /// There are no figures for a page.
    NoFigures,
    /// The work on the suspects ended in a panic.
    HintsBrokeOff,
    /// The plant reached a state that it can't go on from, for this reason.
    ClockStopped(String),
}

/// A file that is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// The record of a visit.
    Record,
    /// The page of a review.
    Page,
}

impl Failure {
    /// As an error below the window says it, a line each.
    pub(crate) fn of(error: impl Display) -> Failure {
        Failure::Told(error.to_string().lines().map(str::to_owned).collect())
    }

    /// A file that could not be written.
    pub(crate) fn not_written(what: Written, path: &Path, reason: impl Display) -> Failure {
        Failure::NotWritten(what, path.display().to_string(), reason.to_string())
    }

    /// What and why, a line each.
    pub fn told(&self, words: Words) -> Vec<String> {
        match self {
            Failure::Told(lines) => lines.clone(),
            Failure::NotBegun(reason) => {
                vec![words.fill("screen-failed-not-begun", &[("reason", reason.clone())])]
            }
            Failure::NoResult => vec![words.label("screen-failed-no-result")],
            Failure::BrokeOff(reason) => {
                vec![words.fill("screen-failed-broke-off", &[("reason", reason.clone())])]
            }
            Failure::SettingsNotRead(path, reason) => vec![words.fill(
                "screen-failed-settings-not-read",
                &[("path", path.clone()), ("reason", reason.clone())],
            )],
            Failure::SettingsNotWritten(path, reason) => vec![words.fill(
                "screen-failed-settings-not-written",
                &[("path", path.clone()), ("reason", reason.clone())],
            )],
            Failure::NotRead(path, reason) => vec![
                words.fill("screen-failed-not-read", &[("path", path.clone()), ("reason", reason.clone())]),
                words.label("screen-failed-not-read-advice"),
            ],
            Failure::NotWritten(Written::Record, path, reason) => vec![words.fill(
                "screen-failed-record-not-written",
                &[("path", path.clone()), ("reason", reason.clone())],
            )],
            Failure::NotWritten(Written::Page, path, reason) => vec![words.fill(
                "screen-failed-page-not-written",
                &[("path", path.clone()), ("reason", reason.clone())],
            )],
            Failure::InterruptedNotWritten(reason) => {
                vec![words.fill("screen-failed-interrupted-not-written", &[("reason", reason.clone())])]
            }
            Failure::NoJournal(reason) => vec![
                words.fill("screen-failed-no-journal", &[("reason", reason.clone())]),
                words.label("screen-failed-no-journal-advice"),
            ],
            Failure::FiguresToCome => vec![words.label("screen-failed-figures-to-come")],
            Failure::NoFigures => vec![words.label("screen-failed-no-figures")],
            Failure::HintsBrokeOff => vec![words.label("screen-failed-hints-broke-off")],
            Failure::ClockStopped(reason) => {
                vec![reason.clone(), words.label("screen-failed-clock-stopped")]
            }
        }
    }
}

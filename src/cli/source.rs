//! Finding, reading and writing files: calls by name or path, other files by path.

use std::path::Path;

use call::Call;
use ron_file::{OldName, Problems};
use serde::Serialize;
use session::calls::CallError;
use session::files::{self, FileFault};
use words::Words;

use super::output::Failure;

/// Reads a call that must be good: a built-in one by its name, or a file by its path.
pub(crate) fn call(name: &str) -> Result<Call, Failure> {
    call_with_notes(name).map(|(call, _)| call)
}

/// The same, with old names that were read as those of today.
pub(crate) fn call_with_notes(name: &str) -> Result<(Call, Vec<OldName>), Failure> {
    session::calls::call_with_notes(name).map_err(|error| match error {
        CallError::Problems(problems) => Failure::Problems(listed(&problems)),
        CallError::Fault(fault) => {
            Failure::Problems(Words::default().fill("cli-error", &[("what", Words::default().say(&fault))]))
        }
    })
}

/// Reads a record.
pub(crate) fn read(path: &Path) -> Result<String, Failure> {
    files::read(path).map_err(|fault| of_file(path, fault))
}

/// Reads a file that a person wrote: moves.
pub(crate) fn read_written(path: &Path) -> Result<String, Failure> {
    files::read_written(path).map_err(|fault| of_file(path, fault))
}

/// Writes a file whole or not at all.
pub(crate) fn write(path: &Path, text: &str) -> Result<(), Failure> {
    files::write_whole(path, text).map_err(|error| of_file(path, error))
}

/// What is the matter with a file as a whole.
pub(crate) fn of_file(path: &Path, fault: impl Into<FileFault>) -> Failure {
    let words = Words::default();
    let (path, why) = (path.display().to_string(), words.say(&fault.into()));
    Failure::Problems(words.fill("cli-file-error", &[("path", path), ("why", why)]))
}

/// Problems, one a line.
pub(crate) fn listed<K: Serialize>(problems: &Problems<K>) -> String {
    Words::default().problems(problems).join("\n")
}

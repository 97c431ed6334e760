//! Finding and reading files: calls by name or path, other files by path.

use std::path::Path;

use call::{Call, Problem};
use session::calls::CallError;
use session::files;
use words::Words;

use super::output::Failure;

/// Reads a call that must be good: a built-in one by its name, or a file by its path.
pub(crate) fn call(name: &str) -> Result<Call, Failure> {
    session::calls::call(name).map_err(|error| match error {
        CallError::Problems(problems) => Failure::Problems(listed(&problems)),
        other => Failure::Problems(format!("error: {other}")),
    })
}

/// A line for each name in a text of calls or moves that is called otherwise now.
pub(crate) fn former_names(text: &str, file: &str, words: Words) -> Vec<String> {
    let line = |one: call::FormerName| {
        let at =
            [("file", file.to_owned()), ("line", one.line.to_string()), ("column", one.column.to_string())];
        let names = [("written", one.written), ("now", one.now.to_owned())];
        words.fill("cli-former-name", &[at.as_slice(), names.as_slice()].concat())
    };
    call::former_names(text).into_iter().map(line).collect()
}

/// Reads a text file.
pub(crate) fn read(path: &Path) -> Result<String, Failure> {
    files::read(path).map_err(|error| Failure::Problems(format!("error: {}: {error}", path.display())))
}

/// Problems, one a line.
pub(crate) fn listed(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

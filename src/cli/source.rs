//! Finding and reading files: calls by name or path, other files by path.

use std::path::Path;

use call::{Call, Problem};
use session::files;

use super::output::Failure;

/// Text of a call and the name under which its problems are reported.
pub(crate) struct CallSource {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// A built-in call by its name, or a call file by its path.
pub(crate) fn call_source(name: &str) -> Result<CallSource, Failure> {
    let path = Path::new(name);
    if let Some((id, text)) = call::built_in().iter().find(|(id, _)| *id == name) {
        return Ok(CallSource { name: format!("{id}.ron"), text: (*text).to_owned() });
    }
    if path.exists() {
        return Ok(CallSource { name: name.to_owned(), text: read(path)? });
    }
    let known: Vec<&str> = call::built_in().iter().map(|(id, _)| *id).collect();
    Err(Failure::Problems(format!(
        "error: there is no call \"{name}\": neither a built-in call ({}) nor a file of that name",
        known.join(", ")
    )))
}

/// Reads a call that must be good.
pub(crate) fn call(name: &str) -> Result<Call, Failure> {
    let source = call_source(name)?;
    call::read(&source.text, &source.name).map_err(|problems| Failure::Problems(listed(&problems)))
}

/// Reads a text file.
pub(crate) fn read(path: &Path) -> Result<String, Failure> {
    files::read(path).map_err(|error| Failure::Problems(format!("error: {}: {error}", path.display())))
}

/// Problems, one a line.
pub(crate) fn listed(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

//! Finding and reading files: calls by name or path, other files by path.

use std::io::Read as _;
use std::path::Path;

use call::{Call, Problem};

use super::output::Failure;

/// Largest file that is read, bytes. A call is a few thousand, a long visit's record some hundred thousand.
const SIZE_MAX_BYTES: u64 = 16 * 1024 * 1024;

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
    let problem = |what: String| Failure::Problems(format!("error: {}: {what}", path.display()));
    let size_bytes = std::fs::metadata(path).map_err(|error| problem(error.to_string()))?.len();
    if size_bytes > SIZE_MAX_BYTES {
        return Err(problem(format!("{size_bytes} bytes are too many; at most {SIZE_MAX_BYTES} are read")));
    }
    // What is no regular file tells no size.
    let mut bytes = Vec::new();
    std::fs::File::open(path)
        .and_then(|file| file.take(SIZE_MAX_BYTES + 1).read_to_end(&mut bytes))
        .map_err(|error| problem(error.to_string()))?;
    if bytes.len() as u64 > SIZE_MAX_BYTES {
        return Err(problem(format!("more than {SIZE_MAX_BYTES} bytes are too many")));
    }
    String::from_utf8(bytes).map_err(|_| problem("this is not a text file in UTF-8".to_owned()))
}

/// Problems, one a line.
pub(crate) fn listed(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

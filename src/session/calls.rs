//! Finding calls: by name, by file, and by what a record says of its call.

use std::fmt;
use std::path::{Path, PathBuf};

use call::{Call, Problem};
use visit::CallName;

use crate::files;
use crate::look::CallCard;

/// Ending of a call file's name.
const ENDING: &str = "ron";

/// Why a call was not found.
#[derive(Clone, Debug, PartialEq)]
pub enum CallError {
    /// There is neither a built-in call nor a file of that name.
    NoneOfThatName(String),
    /// The file can't be read.
    File(PathBuf, String),
    /// The file is no valid call.
    Problems(Vec<Problem>),
    /// A record names a call that is neither built in nor beside it.
    NotHere(CallName),
    /// There is a call of that name, and it is another one than the record names.
    Another(CallName),
}

impl fmt::Display for CallError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CallError::NoneOfThatName(name) => {
                let known: Vec<&str> = call::built_in().iter().map(|(id, _)| *id).collect();
                write!(
                    f,
                    "there is no call \"{name}\": neither a built-in call ({}) nor a file of that name",
                    known.join(", ")
                )
            }
            CallError::File(path, why) => write!(f, "{}: {why}", path.display()),
            CallError::Problems(problems) => {
                let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
                write!(f, "{}", told.join("\n"))
            }
            CallError::NotHere(named) => write!(
                f,
                "its call \"{}\" is neither built in nor a file beside it; give the call's file",
                named.id
            ),
            CallError::Another(named) => write!(
                f,
                "its call \"{}\" has been changed since, or another version of the program wrote it; give the file of the call \
                 as it was",
                named.id
            ),
        }
    }
}

impl std::error::Error for CallError {}

/// The calls that come with the program.
pub fn cards() -> Vec<CallCard> {
    let read = |id: &str, text: &str| {
        // Each one is valid: a test holds that.
        let call = call::read(text, id).ok()?;
        Some(CallCard {
            id: id.to_owned(),
            title: call.title,
            complaint: call.complaint,
            par_time_s: call.par_time_s,
        })
    };
    call::built_in().iter().filter_map(|(id, text)| read(id, text)).collect()
}

/// A built-in call by its name, or a call by the path of its file.
///
/// # Errors
/// If there is none, or it can't be read.
pub fn call(name: &str) -> Result<Call, CallError> {
    if let Some((id, text)) = call::built_in().iter().find(|(id, _)| *id == name) {
        return call::read(text, &format!("{id}.{ENDING}")).map_err(CallError::Problems);
    }
    let path = Path::new(name);
    if path.exists() { call_file(path) } else { Err(CallError::NoneOfThatName(name.to_owned())) }
}

fn call_file_of(path: &Path, named: &CallName) -> Option<Call> {
    call_file(path).ok().filter(|call| named.names(call)).map(|call| under(named, call))
}

/// The same call under the name that the record has for it, whatever its file is called by now.
fn under(named: &CallName, call: Call) -> Call {
    Call { id: named.id.clone(), ..call }
}

/// The call in a file.
///
/// # Errors
/// If it can't be read.
pub fn call_file(path: &Path) -> Result<Call, CallError> {
    let text = files::read(path).map_err(|error| CallError::File(path.to_owned(), error.to_string()))?;
    call::read(&text, &path.display().to_string()).map_err(CallError::Problems)
}

/// The call that a record names: in a file that is known to hold it, built in, or in a file of its name beside the record.
///
/// # Errors
/// If it is in none of them, or is another one by now.
pub fn call_of(named: &CallName, folder: Option<&Path>, known_at: Option<&Path>) -> Result<Call, CallError> {
    if let Some(call) = known_at.and_then(|path| call_file_of(path, named)) {
        return Ok(call);
    }
    if !named.is_plain() {
        return Err(CallError::NotHere(named.clone()));
    }
    let is_built_in = call::built_in().iter().any(|(id, _)| *id == named.id);
    let beside =
        folder.map(|folder| folder.join(format!("{}.{ENDING}", named.id))).filter(|path| path.is_file());
    // A call of one's own under the name of a built-in one would be taken for it by whoever reads the marks.
    let found = match beside {
        _ if is_built_in => call(&named.id)?,
        Some(path) => call_file(&path)?,
        None => return Err(CallError::NotHere(named.clone())),
    };
    if named.names(&found) { Ok(under(named, found)) } else { Err(CallError::Another(named.clone())) }
}

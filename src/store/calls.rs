//! Finding calls: by name, by file, and by what a record says of its call.

use std::path::Path;

use call::{Call, CallProblems};
use ron_file::OldName;
use serde::{Deserialize, Serialize};
use visit::CallName;

use crate::files::{self, FileFault};

/// Ending of a call file's name.
const ENDING: &str = "ron";

/// Why a call was not found.
#[derive(Clone, Debug, PartialEq)]
pub enum CallError {
    /// There is none, or not the one that is asked for.
    Fault(CallFault),
    /// The file is no valid call.
    Problems(CallProblems),
}

impl From<CallFault> for CallError {
    fn from(fault: CallFault) -> CallError {
        CallError::Fault(fault)
    }
}

/// Why there is no call to read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CallFault {
    /// There is neither a built-in call nor a file of that name.
    NoneOfThatName {
        /// The name.
        name: String,
        /// The built-in calls.
        known: Vec<String>,
    },
    /// The file can't be read.
    File {
        /// The file.
        path: String,
        /// Why not.
        why: FileFault,
    },
    /// A record names a call that is neither built in nor beside it.
    NotHere {
        /// The name.
        name: String,
    },
    /// There is a call of that name, and it is another one than the record names.
    Another {
        /// The name.
        name: String,
    },
}

/// A built-in call by its name, or a call by the path of its file.
///
/// # Errors
/// If there is none, or it can't be read.
pub fn call(name: &str) -> Result<Call, CallError> {
    call_with_notes(name).map(|(call, _)| call)
}

/// The same, with the names of older files that were read as those of today.
///
/// # Errors
/// Those of [`call`].
pub fn call_with_notes(name: &str) -> Result<(Call, Vec<OldName>), CallError> {
    if let Some((id, text)) = call::built_in().iter().find(|(id, _)| *id == name) {
        return call::read_with_notes(text, &format!("{id}.{ENDING}")).map_err(CallError::Problems);
    }
    let path = Path::new(name);
    if path.exists() { call_file_with_notes(path) } else { Err(none_of_that_name(name).into()) }
}

fn none_of_that_name(name: &str) -> CallFault {
    let known = call::built_in().iter().map(|(id, _)| (*id).to_owned()).collect();
    CallFault::NoneOfThatName { name: ron_file::shown(name), known }
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
    call_file_with_notes(path).map(|(call, _)| call)
}

fn call_file_with_notes(path: &Path) -> Result<(Call, Vec<OldName>), CallError> {
    let text =
        files::read_written(path).map_err(|why| CallFault::File { path: path.display().to_string(), why })?;
    call::read_with_notes(&text, &path.display().to_string()).map_err(CallError::Problems)
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
        return Err(CallFault::NotHere { name: named.id.clone() }.into());
    }
    let is_built_in = call::built_in().iter().any(|(id, _)| *id == named.id);
    let beside =
        folder.map(|folder| folder.join(format!("{}.{ENDING}", named.id))).filter(|path| path.is_file());
    // A call of one's own under the name of a built-in one would be taken for it by whoever reads the marks.
    let found = match beside {
        _ if is_built_in => call(&named.id)?,
        Some(path) => call_file(&path)?,
        None => return Err(CallFault::NotHere { name: named.id.clone() }.into()),
    };
    if named.names(&found) {
        Ok(under(named, found))
    } else {
        Err(CallFault::Another { name: named.id.clone() }.into())
    }
}

//! Opening records: the one way from a file to a visit that was made again.

use std::path::{Path, PathBuf};

use call::Call;
use visit::{FileProblems, Record, Recorded, ReplayError, Timed};

use store::calls::{self, CallError};
use store::files;
use store::files::FileFault;

/// What a record is held against.
#[derive(Clone, Debug, Default)]
pub struct HeldAgainst {
    /// The call that is given, if one is. Else it is the one that the record names.
    pub call: Option<Call>,
    /// A file that is known to hold the call.
    pub call_file: Option<PathBuf>,
    /// What is made of happenings that no learner can make.
    pub outside: Outside,
}

/// What is made of a record in which faults came or went without the learner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Outside {
    /// It is refused: whoever writes a record could clear the fault in it.
    Refused,
    /// It is taken.
    #[default]
    Taken,
}

/// Why a record was not opened.
#[derive(Clone, Debug, PartialEq)]
pub enum OpenError {
    /// The file can't be read.
    File(PathBuf, FileFault),
    /// It is no valid record.
    Problems(FileProblems),
    /// Faults came or went without the learner.
    Outside,
    /// Its call was not found.
    Call(CallError),
    /// It could not be made again.
    Replay(ReplayError),
}

/// A record that was read, and its call.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The record.
    pub record: Record,
    /// Its call.
    pub call: Call,
}

impl Opened {
    /// Reads a record and finds its call.
    ///
    /// # Errors
    /// If the file can't be read, is no record, holds what is not taken, or its call is not there or another one by now.
    pub fn read(path: &Path, held_against: &HeldAgainst) -> Result<Opened, OpenError> {
        let text = files::read(path).map_err(|error| OpenError::File(path.to_owned(), error))?;
        let record = Record::from_text(&text, &path.display().to_string()).map_err(OpenError::Problems)?;
        if held_against.outside == Outside::Refused && record.events.iter().any(Timed::changes_what_is_wrong)
        {
            return Err(OpenError::Outside);
        }
        let call = match &held_against.call {
            Some(call) => call.clone(),
            None => calls::call_of(&record.call, path.parent(), held_against.call_file.as_deref())
                .map_err(OpenError::Call)?,
        };
        Ok(Opened { record, call })
    }

    /// Makes its visit again; an edited record is refused.
    ///
    /// # Errors
    /// If the record does not fit its call or its notebook.
    pub fn replay(&self) -> Result<Recorded, OpenError> {
        Recorded::replay(&self.record, &self.call).map_err(OpenError::Replay)
    }
}

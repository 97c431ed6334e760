//! The journal of a visit in progress: a file that grows by a line with each move, so that a kill loses the move in progress at most.
//!
//! The first line is the visit's record without a move, each further one a move with what the record would say after it. A line
//! that is not whole was being written when the program ended; it and what follows don't count. The file is locked while its
//! visit is worked; one that nobody holds is what an interrupted visit left.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use call::{Call, OLD_NAMES};
use ron_file::{Manner, Mistake, Reading};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use visit::{RECORD_VERSION, Record, Timed, Visit};

use crate::calls::{self, CallError};
use crate::files::{self, FileFault};

/// Ending of a journal's name.
const ENDING: &str = ".journal";

/// The first line: the record without an event, and where the call's file lies if it is not a built-in one.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    record: Record,
    call_file: Option<PathBuf>,
}

/// An event, and what the record says after it.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    made: Timed,
    ended_s: f64,
    closed: bool,
    notebook_digest: String,
}

/// Why a journal can't be used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum JournalError {
    /// The file can't be read or written.
    File {
        /// The file.
        path: String,
        /// Why not.
        why: FileFault,
    },
    /// Its first line is no record of a visit.
    NoRecord {
        /// The file.
        path: String,
    },
}

impl JournalError {
    fn file(path: &Path, why: impl Into<FileFault>) -> JournalError {
        JournalError::File { path: path.display().to_string(), why: why.into() }
    }
}

/// The journal of one visit, held open.
#[derive(Debug)]
pub struct Journal {
    path: PathBuf,
    file: File,
    /// Events that are written.
    events: usize,
}

impl Journal {
    /// Begins the journal of a visit in a folder, with what was done already. A call that is not built in is found again by its file.
    ///
    /// # Errors
    /// If the file can't be written.
    pub fn begin(visit: &Visit, call_file: Option<&Path>, folder: &Path) -> Result<Journal, JournalError> {
        let stem = format!("{}-seed{}", visit.call().id, visit.seed());
        let told = |error| JournalError::file(folder, error);
        fs::create_dir_all(folder).map_err(told)?;
        let (path, file) = create(folder, &stem).map_err(told)?;
        let mut journal = Journal { path, file, events: 0 };
        let written = journal.write_from_the_start(visit, call_file);
        if let Err(error) = written {
            let path = journal.path.clone();
            journal.over();
            return Err(JournalError::file(&path, error));
        }
        Ok(journal)
    }

    fn write_from_the_start(&mut self, visit: &Visit, call_file: Option<&Path>) -> io::Result<()> {
        let record = visit.record();
        let bare = Record { events: Vec::new(), closed: false, ..record };
        let head = Head { record: bare, call_file: call_file.map(Path::to_owned) };
        writeln!(self.file, "{}", ron_file::write_line(&head))?;
        self.append(visit)?;
        files::folder_to_disk(&self.path);
        Ok(())
    }

    /// Writes the events that were finished since the last time, down to the disk.
    ///
    /// # Errors
    /// If the file can't be written.
    pub fn follow(&mut self, visit: &Visit) -> Result<(), JournalError> {
        if visit.finished_events().len() <= self.events {
            return Ok(());
        }
        self.append(visit).map_err(|error| JournalError::file(&self.path, error))
    }

    fn append(&mut self, visit: &Visit) -> io::Result<()> {
        let record = visit.record();
        let mut text = String::new();
        for made in record.events.get(self.events..).unwrap_or_default() {
            // What it was after an earlier one of several is not known any more; the last one counts.
            let line = Line {
                made: made.clone(),
                ended_s: record.ended_s,
                closed: record.closed,
                notebook_digest: record.notebook_digest.clone(),
            };
            text.push_str(&ron_file::write_line(&line));
            text.push('\n');
        }
        self.file.write_all(text.as_bytes())?;
        self.file.sync_data()?;
        self.events = record.events.len();
        Ok(())
    }

    /// The visit was saved whole, or is not to be kept: the journal goes.
    pub fn over(self) {
        let Journal { path, file, .. } = self;
        drop(file);
        // If it can't be removed, the visit is offered again: better than lost.
        let _ = fs::remove_file(path);
    }
}

/// A new file that no one else has, locked.
fn create(folder: &Path, stem: &str) -> io::Result<(PathBuf, File)> {
    let (path, file) = files::create_new(folder, stem, ENDING)?;
    // Where files can't be locked, a second program offers a visit that is being worked; nothing is lost by it.
    let _ = file.try_lock();
    Ok((path, file))
}

/// What a line holds, if it is whole and without a mistake.
fn in_line<T: DeserializeOwned>(line: &str) -> Option<T> {
    let mut reading = Reading::<Mistake>::new(line);
    let value = reading.value(&Manner { examples: &[], old_names: OLD_NAMES })?;
    (!reading.has_problems()).then_some(value)
}

/// A visit that was interrupted.
#[derive(Clone, Debug, PartialEq)]
pub struct Interrupted {
    /// Where its journal lies.
    pub path: PathBuf,
    /// The visit as far as it went.
    pub record: Record,
    /// Where its call's file lay, if it is not a built-in one.
    pub call_file: Option<PathBuf>,
}

impl Interrupted {
    /// Its call: from where it lay when the visit began, built in, or beside the journal.
    ///
    /// # Errors
    /// If it is not there any more, or has been changed.
    pub fn call(&self) -> Result<Call, CallError> {
        calls::call_of(&self.record.call, self.path.parent(), self.call_file.as_deref())
    }

    /// Reads a journal that an interrupted visit left.
    ///
    /// # Errors
    /// If it can't be read, or doesn't begin with a record.
    pub fn read(path: &Path) -> Result<Interrupted, JournalError> {
        let text = files::read(path).map_err(|error| JournalError::file(path, error))?;
        // What has no end of line was being written.
        let whole = &text[..text.rfind('\n').map_or(0, |end| end + 1)];
        let mut lines = whole.lines();
        let first = lines.next().and_then(in_line::<Head>);
        let first = first.filter(|head| head.record.version == RECORD_VERSION && head.record.call.is_plain());
        let Head { mut record, call_file } =
            first.ok_or_else(|| JournalError::NoRecord { path: path.display().to_string() })?;
        for line in lines {
            let Some(line) = in_line::<Line>(line) else { break };
            record.events.push(line.made);
            record.ended_s = line.ended_s;
            record.closed = line.closed;
            record.notebook_digest = line.notebook_digest;
        }
        Ok(Interrupted { path: path.to_owned(), record, call_file })
    }

    /// Writes its record beside the journal under a name of its own, and removes the journal. Returns where the record lies.
    ///
    /// # Errors
    /// If the record can't be written; the journal stays then.
    pub fn to_record(&self, ending: &str) -> Result<PathBuf, JournalError> {
        let folder = self.path.parent().unwrap_or(Path::new("."));
        let stem = format!("{}-seed{}", self.record.call.id, self.record.seed);
        let path = files::write_new(folder, &stem, ending, &self.record.to_text())
            .map_err(|error| JournalError::file(folder, error))?;
        let _ = fs::remove_file(&self.path);
        Ok(path)
    }
}

/// What interrupted visits left in a folder, by name: journals that nobody holds, of at least one move. One without a move, or
/// without a record, has nothing to go on from.
pub fn interrupted(folder: &Path) -> Vec<Interrupted> {
    let Ok(all) = fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = all
        .filter_map(|one| Some(one.ok()?.path()))
        .filter(|path| path.to_string_lossy().ends_with(ENDING) && path.is_file())
        .collect();
    paths.sort();
    paths
        .iter()
        .filter(|path| is_left(path))
        .filter_map(|path| Interrupted::read(path).ok())
        .filter(|left| !left.record.events.is_empty())
        .collect()
}

/// Whether nobody holds it.
fn is_left(path: &Path) -> bool {
    let Ok(file) = File::open(path) else { return false };
    !matches!(file.try_lock_shared(), Err(fs::TryLockError::WouldBlock))
}

//! The visit record: the file from which the same visit is made again.

use std::cmp::Ordering;

use call::{Call, is_call, text_digest};
use plant::StepError;
use ron_file::Reading;
use serde::{Deserialize, Serialize};

use crate::action::Move;
use crate::again::{AgainError, Onlooker, Onlookers, earliest_instead};
use crate::event::{CannotHappen, MOST_EVENTS, Timed};
use crate::file_mistake::{FileMistake, FileProblems};
use crate::moves_file::MANNER;
use crate::visit::Visit;

/// Version of the record's form.
pub const RECORD_VERSION: u32 = 2;

/// Which call a visit is of. Its text, and with it the answer, stays with the program or with whoever wrote it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CallName {
    /// Short name: the file's stem.
    pub id: String,
    /// Digest of its text ([`call::Call::digest`]).
    pub digest: String,
}

impl CallName {
    /// The name of a call.
    pub fn of(call: &Call) -> CallName {
        CallName { id: call.id.clone(), digest: call.digest() }
    }

    /// Whether the name can be that of a file, and no path.
    pub fn is_plain(&self) -> bool {
        let is_plain = |letter: char| letter.is_ascii_alphanumeric() || "-._".contains(letter);
        (1..=100).contains(&self.id.len()) && self.id.chars().all(is_plain) && !self.id.starts_with('.')
    }

    /// Whether a call is the one that is named.
    pub fn names(&self, call: &Call) -> bool {
        self.digest == call.digest()
    }
}

/// A visit as a file: the name of the call, the seed, and every event with its time. Nothing that was read or earned is in
/// it but the notebook's digest; the visit is made again to see.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Version of this form.
    pub version: u32,
    /// Which call.
    pub call: CallName,
    /// The seed.
    pub seed: u64,
    /// Every finished move and everything that happened until the end, in order.
    pub events: Vec<Timed>,
    /// Plant time at the end, s.
    pub ended_s: f64,
    /// Whether the ticket was closed.
    pub closed: bool,
    /// FNV-1a (64 bit, hexadecimal) of the notebook's facts in RON. It guards against mistakes and against a program
    /// that computes differently. It guards no marks: those come from replay alone, and whether a record may hold what made a fault
    /// come or go is for who grades it ([`Timed::changes_what_is_wrong`]).
    pub notebook_digest: String,
}

impl Record {
    /// The moves among the events, with the plant time of each, s.
    pub fn moves(&self) -> impl Iterator<Item = (f64, &Move)> {
        self.events.iter().filter_map(|timed| Some((timed.at_s, timed.action()?)))
    }

    /// The record as RON text.
    pub fn to_text(&self) -> String {
        ron_file::write(self, 3)
    }

    /// Reads a record.
    ///
    /// # Errors
    /// What is wrong with the text, each with its line; also another version than [`RECORD_VERSION`].
    pub fn from_text(text: &str, file_name: &str) -> Result<Record, FileProblems> {
        if is_call(text) {
            return Err(FileProblems::whole(file_name, FileMistake::IsCall));
        }
        let mut reading = Reading::<FileMistake>::new(text);
        let version = reading.word("version").and_then(|word| word.parse::<u32>().ok());
        if let Some(mistake) = version.and_then(other_version) {
            // What another version has to say of itself would not be understood.
            let mut reading = Reading::<FileMistake>::new(text);
            reading.report("version", mistake);
            reading.finish(file_name)?;
        }
        let record = reading.value::<Record>(&MANNER);
        if let Some(record) = &record {
            record.check(&mut reading);
        }
        reading.finish(file_name)?;
        // A text without problems has a value.
        record.ok_or(FileProblems { file: file_name.to_owned(), told: Vec::new(), more: 0 })
    }

    fn check(&self, reading: &mut Reading<'_, FileMistake>) {
        // Again, since a number can be written in more ways than one (`0x1F`, `1_000`).
        if let Some(mistake) = other_version(self.version) {
            reading.report("version", mistake);
        }
        if self.events.len() > MOST_EVENTS {
            let events = self.events.len();
            reading.report("events", FileMistake::TooManyEvents { events, most: MOST_EVENTS });
        }
        for (path, text) in [("call.digest", &self.call.digest), ("notebook_digest", &self.notebook_digest)] {
            if text.len() != 16 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
                reading.report(path, FileMistake::NoDigest);
            }
        }
        if !self.call.is_plain() {
            reading.report("call.id", FileMistake::NoName);
        }
    }
}

/// What is wrong with a version, unless it is that of today.
fn other_version(version: u32) -> Option<FileMistake> {
    let read = RECORD_VERSION;
    match version.cmp(&read) {
        Ordering::Equal => None,
        Ordering::Greater => Some(FileMistake::Newer { version, read }),
        Ordering::Less => Some(FileMistake::Older { version, read }),
    }
}

/// A move of a record of version 1, with its time.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FirstTimed {
    action: Move,
    #[serde(rename = "at_s")]
    _at_s: f64,
}

/// The moves in a record of any version, in order, without their times.
///
/// # Errors
/// What is wrong with the text, each with its line.
pub fn moves_in(text: &str, file_name: &str) -> Result<Vec<Move>, FileProblems> {
    let mut reading = Reading::<FileMistake>::new(text);
    if reading.word("version") == Some("1") && reading.has("moves") && !is_call(text) {
        let moves = reading.value_at::<Vec<FirstTimed>>("moves", &MANNER).unwrap_or_default();
        reading.finish(file_name)?;
        return Ok(moves.into_iter().map(|timed| timed.action).collect());
    }
    let record = Record::from_text(text, file_name)?;
    Ok(record.moves().map(|(_, action)| action.clone()).collect())
}

/// Why a record could not be replayed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum ReplayError {
    /// The call is not the one that the record names.
    OtherCall {
        /// The call's id in the record.
        named: String,
        /// Its digest there.
        named_digest: String,
        /// Id of the call.
        given: String,
        /// Its digest.
        given_digest: String,
    },
    /// Something in the record can't have happened.
    Happening {
        /// Number of the event, from 1.
        number: usize,
        /// Why not.
        why: CannotHappen,
    },
    /// An event begins at a time that cannot be.
    Time {
        /// Number of the event, from 1.
        number: usize,
        /// The time in the record, s of plant time.
        at_s: f64,
        /// Earliest time at which it could begin, s of plant time.
        earliest_s: f64,
    },
    /// The visit ends at a time that cannot be.
    End {
        /// The time in the record, s of plant time.
        at_s: f64,
        /// When the last event was over, s of plant time.
        earliest_s: f64,
    },
    /// The visit made again has another notebook.
    Digest {
        /// Digest in the record.
        recorded: String,
        /// Digest of the visit made again.
        replayed: String,
    },
    /// The record says closed and the moves leave the ticket open, or the other way round.
    Closing,
    /// The plant left the finite numbers.
    Breakdown(Breakdown),
}

/// What broke down in the plant: a defect of the program.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Breakdown {
    /// A state is no number any more.
    NonFinite {
        /// Which.
        state: String,
        /// Plant time, s.
        time_s: f64,
    },
    /// A step of time was asked for that can't be made.
    TimeStep {
        /// The step, s.
        written: f64,
    },
}

impl From<StepError> for Breakdown {
    fn from(error: StepError) -> Self {
        match error {
            StepError::NonFinite { state, time_s } => {
                Breakdown::NonFinite { state: state.to_owned(), time_s }
            }
            StepError::TimeStep { dt_s } => Breakdown::TimeStep { written: dt_s },
        }
    }
}

impl From<StepError> for ReplayError {
    fn from(error: StepError) -> Self {
        ReplayError::Breakdown(error.into())
    }
}

impl From<AgainError> for ReplayError {
    fn from(error: AgainError) -> Self {
        match error {
            AgainError::Time { number, at_s, earliest_s } => ReplayError::Time { number, at_s, earliest_s },
            AgainError::Happening { number, why } => ReplayError::Happening { number, why },
            AgainError::Step(error) => error.into(),
        }
    }
}

/// Makes the visit of a record again, event by event.
///
/// # Errors
/// If the call is another one, if times or the digest are not in order, or the plant leaves the finite numbers.
pub fn replay(record: &Record, call: &Call) -> Result<Visit, ReplayError> {
    replay_before(record, call, &mut [])
}

/// The same under the eyes of onlookers. What they noted counts only if the record is in order.
///
/// # Errors
/// Those of [`replay`].
pub fn replay_before(
    record: &Record,
    call: &Call,
    onlookers: &mut [&mut dyn Onlooker],
) -> Result<Visit, ReplayError> {
    if !record.call.names(call) {
        let CallName { id: named, digest: named_digest } = record.call.clone();
        let CallName { id: given, digest: given_digest } = CallName::of(call);
        return Err(ReplayError::OtherCall { named, named_digest, given, given_digest });
    }
    let mut visit = Visit::start(call, record.seed)?;
    let mut onlookers = Onlookers::arrive(onlookers, &visit, record.ended_s);
    onlookers.make_all(&mut visit, &record.events)?;
    if let Some(earliest_s) = earliest_instead(&visit, record.ended_s) {
        return Err(ReplayError::End { at_s: record.ended_s, earliest_s });
    }
    onlookers.rest_until(&mut visit, record.ended_s)?;
    onlookers.leave(&visit);
    let replayed = visit.notebook_digest();
    if record.notebook_digest != replayed && record.notebook_digest != visit.notebook_digest_of_before() {
        return Err(ReplayError::Digest { recorded: record.notebook_digest.clone(), replayed });
    }
    if visit.is_closed() != record.closed {
        return Err(ReplayError::Closing);
    }
    Ok(visit)
}

impl Visit {
    /// The record of the visit up to the last finished move and what happened after it (or to now, if no move is running).
    pub fn record(&self) -> Record {
        let finished = self.finished_events();
        let ended_s = self.timed.get(finished.len()).map_or(self.time_s(), |running| running.at_s);
        Record {
            version: RECORD_VERSION,
            call: CallName::of(&self.call),
            seed: self.seed,
            events: finished.to_vec(),
            ended_s,
            closed: self.site.closed,
            notebook_digest: self.notebook_digest(),
        }
    }

    /// Events without the move that is running and without what has happened since it began.
    pub fn finished_events(&self) -> &[Timed] {
        let running = self.timed.iter().enumerate().filter(|(_, timed)| timed.action().is_some());
        let until = running.map(|(index, _)| index).nth(self.notebook.len());
        &self.timed[..until.unwrap_or(self.timed.len())]
    }

    /// Digest of the notebook in RON ([`call::text_digest`]).
    pub fn notebook_digest(&self) -> String {
        text_digest(&self.notebook_text())
    }

    /// The same as records have it that were written when `Repair` was still called `Mend`.
    fn notebook_digest_of_before(&self) -> String {
        text_digest(&self.notebook_text().replace("action:Repair(", "action:Mend("))
    }

    fn notebook_text(&self) -> String {
        ron_file::write_line(&self.notebook)
    }
}

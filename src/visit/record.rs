//! The visit record: the file from which the same visit is made again.

use std::fmt;

use call::{Call, Problem};
use plant::StepError;
use serde::{Deserialize, Serialize};

use crate::again::{Onlooker, Onlookers};
use crate::moves::Move;
use crate::random::fnv1a_64;
use crate::visit::{VISIT_LIMIT_S, Visit};

/// Version of the record's form.
pub const RECORD_VERSION: u32 = 1;

/// Most moves of a record: a week of half minutes.
const MOST_MOVES: usize = 20_160;

/// A visit as a file: the call, the seed, and every move with its time. Nothing that was read or earned is in
/// it but the notebook's digest; the visit is made again to see.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Version of this form.
    pub version: u32,
    /// Short name of the call: its file's stem.
    pub call_id: String,
    /// The whole call file.
    pub call_text: String,
    /// The seed.
    pub seed: u64,
    /// Every finished move, in order.
    pub moves: Vec<Timed>,
    /// Plant time at the end, s.
    pub ended_s: f64,
    /// Whether the ticket was closed.
    pub closed: bool,
    /// FNV-1a (64 bit, hexadecimal) of the notebook in RON. It guards against mistakes and against a program
    /// that computes differently; marks need no guard, since they come from replay alone.
    pub notebook_digest: String,
}

/// A move with the plant time at which it began.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timed {
    /// Plant time, s.
    pub at_s: f64,
    /// The move.
    pub action: Move,
}

impl Record {
    /// The call inside.
    ///
    /// # Errors
    /// If it is not a valid one.
    pub fn call(&self) -> Result<Call, ReplayError> {
        call::read(&self.call_text, &format!("{}.ron", self.call_id)).map_err(ReplayError::Call)
    }

    /// The record as RON text.
    pub fn to_text(&self) -> String {
        let config = ron::ser::PrettyConfig::new().struct_names(false).depth_limit(3);
        let text = ron::ser::to_string_pretty(self, config)
            .expect("a record is numbers, text and plain enumerations, which RON can always write");
        text + "\n"
    }

    /// Reads a record.
    ///
    /// # Errors
    /// What is wrong with the text, each with its line; also another version than [`RECORD_VERSION`].
    pub fn from_text(text: &str, file_name: &str) -> Result<Record, Vec<Problem>> {
        let parsed = call::parse_ron_on::<Record>(text, file_name, &[]);
        let mut problems = parsed.problems.clone();
        if let Some(record) = &parsed.value
            && record.version != RECORD_VERSION
        {
            problems.extend(parsed.problem_at(
                "version",
                format!("version {} of a visit record is not known", record.version),
                format!("version {RECORD_VERSION}"),
                "the record was written by another version of the program".to_owned(),
            ));
        }
        if let Some(record) = &parsed.value
            && record.moves.len() > MOST_MOVES
        {
            problems.extend(parsed.problem_at(
                "moves",
                format!("{} moves are more than anyone makes", record.moves.len()),
                format!("at most {MOST_MOVES}"),
                "the record was changed by hand".to_owned(),
            ));
        }
        match parsed.value {
            Some(record) if problems.is_empty() => Ok(record),
            _ => Err(problems),
        }
    }
}

/// Why a record could not be replayed.
#[derive(Clone, Debug, PartialEq)]
pub enum ReplayError {
    /// The call in the record is not a valid call.
    Call(Vec<Problem>),
    /// A move begins at a time that cannot be.
    Time {
        /// Number of the move, from 1.
        number: usize,
        /// The time in the record, s.
        at_s: f64,
        /// Earliest time at which it could begin, s.
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
    Step(StepError),
}

impl fmt::Display for ReplayError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReplayError::Call(problems) => {
                write!(f, "the call inside the record is not valid")?;
                for problem in problems {
                    write!(f, "\n{problem}")?;
                }
                Ok(())
            }
            ReplayError::Time { number, at_s, earliest_s } => write!(
                f,
                "move {number} is recorded at {at_s} s of plant time, which cannot be: it may begin from {earliest_s} s \
                 on, within a week of the arrival"
            ),
            ReplayError::Digest { recorded, replayed } => write!(
                f,
                "the notebook does not match the record: its digest is {replayed}, the record says {recorded}. The \
                 record was changed by hand, or another version of the program wrote it"
            ),
            ReplayError::Closing => {
                write!(
                    f,
                    "the record's `closed` does not match its moves: the ticket is closed by CloseTicket only"
                )
            }
            ReplayError::Step(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for ReplayError {}

impl From<StepError> for ReplayError {
    fn from(error: StepError) -> Self {
        ReplayError::Step(error)
    }
}

/// Makes the visit of a record again, move by move.
///
/// # Errors
/// If the call, the times or the digest are not in order, or the plant leaves the finite numbers.
pub fn replay(record: &Record) -> Result<Visit, ReplayError> {
    replay_before(record, &mut [])
}

/// The same under the eyes of onlookers. What they noted counts only if the record is in order.
///
/// # Errors
/// Those of [`replay`].
pub fn replay_before(record: &Record, onlookers: &mut [&mut dyn Onlooker]) -> Result<Visit, ReplayError> {
    let mut visit = Visit::start(&record.call()?, record.seed)?;
    let mut onlookers = Onlookers::arrive(onlookers, &visit, record.ended_s);
    for (index, timed) in record.moves.iter().enumerate() {
        check_time(&visit, timed.at_s, index + 1)?;
        onlookers.rest_until(&mut visit, timed.at_s)?;
        onlookers.make(&mut visit, &timed.action)?;
    }
    check_time(&visit, record.ended_s, record.moves.len() + 1)?;
    onlookers.rest_until(&mut visit, record.ended_s)?;
    onlookers.leave(&visit);
    let replayed = visit.notebook_digest();
    if replayed != record.notebook_digest {
        return Err(ReplayError::Digest { recorded: record.notebook_digest.clone(), replayed });
    }
    if visit.is_closed() != record.closed {
        return Err(ReplayError::Closing);
    }
    Ok(visit)
}

/// Whether something can begin at a time of the record.
fn check_time(visit: &Visit, at_s: f64, number: usize) -> Result<(), ReplayError> {
    let earliest_s = visit.time_s();
    let possible = at_s.is_finite() && at_s >= earliest_s && at_s - visit.arrival_s() <= VISIT_LIMIT_S;
    // After closing no time passes, so nothing can begin later.
    if !possible && at_s != earliest_s || visit.is_closed() && at_s > earliest_s {
        return Err(ReplayError::Time { number, at_s, earliest_s });
    }
    Ok(())
}

impl Visit {
    /// The record of the visit up to the last finished move (or to now, if none is running).
    pub fn record(&self) -> Record {
        let finished = self.notebook.len();
        let ended_s = self.timed.get(finished).map_or(self.time_s(), |running| running.at_s);
        Record {
            version: RECORD_VERSION,
            call_id: self.call.id.clone(),
            call_text: self.call.source.clone(),
            seed: self.seed,
            moves: self.timed[..finished.min(self.timed.len())].to_vec(),
            ended_s,
            closed: self.site.closed,
            notebook_digest: self.notebook_digest(),
        }
    }

    /// FNV-1a (64 bit) of the notebook in RON, hexadecimal.
    pub fn notebook_digest(&self) -> String {
        let text = ron::to_string(&self.notebook)
            .expect("entries are numbers, text and plain enumerations, which RON can always write");
        format!("{:016x}", fnv1a_64(text.as_bytes()))
    }
}

//! The visit record: the file from which the same visit is made again.

use std::fmt;

use call::{Call, Problem, text_digest};
use plant::StepError;
use serde::{Deserialize, Serialize};

use crate::again::{AgainError, Onlooker, Onlookers, check_time};
use crate::event::{CannotHappen, Timed};
use crate::moves::Move;
use crate::visit::Visit;

/// Version of the record's form.
pub const RECORD_VERSION: u32 = 2;

/// Most events of a record: a week of half minutes.
const MOST_EVENTS: usize = 20_160;

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
        if call::is_call(text) && !text.contains("notebook_digest") {
            return Err(vec![whole(file_name, "this is a call and no visit record")]);
        }
        match version_of(text) {
            Some(version) if version > RECORD_VERSION => {
                let hint = "a newer version of the program wrote the record: open it with that one";
                return Err(other_version(text, file_name, version, hint));
            }
            Some(version) if version < RECORD_VERSION => {
                let hint = "what was read in it was kept as sentences and can't be held against a replay; take its moves out \
                            with `rimebench moves` and play them";
                return Err(other_version(text, file_name, version, hint));
            }
            _ => {}
        }
        let parsed = call::parse_ron_on::<Record>(text, file_name, &[]);
        let mut problems = parsed.problems.clone();
        if let Some(record) = &parsed.value
            && record.events.len() > MOST_EVENTS
        {
            problems.extend(parsed.problem_at(
                "events",
                format!("{} events are more than anyone makes", record.events.len()),
                format!("at most {MOST_EVENTS}"),
                "the record was changed by hand".to_owned(),
            ));
        }
        if let Some(record) = &parsed.value {
            let is_digest =
                |text: &str| text.len() == 16 && text.bytes().all(|byte| byte.is_ascii_hexdigit());
            for (path, text) in
                [("call.digest", &record.call.digest), ("notebook_digest", &record.notebook_digest)]
            {
                if !is_digest(text) {
                    problems.extend(parsed.problem_at(
                        path,
                        "this is no digest".to_owned(),
                        "16 hexadecimal digits".to_owned(),
                        "the record was changed by hand".to_owned(),
                    ));
                }
            }
            if !record.call.is_plain() {
                problems.extend(parsed.problem_at(
                    "call.id",
                    "this is no name of a call".to_owned(),
                    "letters, digits, hyphens, dots and underscores, at most 100".to_owned(),
                    "the record was changed by hand".to_owned(),
                ));
            }
        }
        match parsed.value {
            Some(record) if problems.is_empty() => Ok(record),
            _ => Err(problems),
        }
    }
}

fn other_version(text: &str, file_name: &str, version: u32, hint: &str) -> Vec<Problem> {
    let parsed = call::parse_ron_on::<AnyVersion>(text, file_name, &[]);
    let message = format!("version {version} of a visit record can't be read");
    parsed
        .problem_at("version", message, format!("version {RECORD_VERSION}"), hint.to_owned())
        .into_iter()
        .collect()
}

/// A problem of a file as a whole.
fn whole(file_name: &str, message: &str) -> Problem {
    Problem {
        file: file_name.to_owned(),
        line: 1,
        column: 1,
        message: message.to_owned(),
        value: String::new(),
        allowed: String::new(),
        hint: String::new(),
    }
}

/// What a record of any version has.
#[derive(Deserialize)]
struct AnyVersion {
    version: u32,
}

/// A record of version 1, as far as its moves go.
#[derive(Deserialize)]
struct FirstVersion {
    moves: Vec<FirstTimed>,
}

#[derive(Deserialize)]
struct FirstTimed {
    action: Move,
}

fn version_of(text: &str) -> Option<u32> {
    ron::from_str::<AnyVersion>(text).ok().map(|any| any.version)
}

/// The moves in a record of any version, in order, without their times.
///
/// # Errors
/// What is wrong with the text, each with its line.
pub fn moves_in(text: &str, file_name: &str) -> Result<Vec<Move>, Vec<Problem>> {
    if version_of(text) == Some(1) && !call::is_call(text) {
        let parsed = call::parse_ron_on::<FirstVersion>(text, file_name, &[]);
        return match parsed.value {
            Some(first) if parsed.problems.is_empty() => {
                Ok(first.moves.into_iter().map(|timed| timed.action).collect())
            }
            _ => Err(parsed.problems),
        };
    }
    let record = Record::from_text(text, file_name)?;
    Ok(record.moves().map(|(_, action)| action.clone()).collect())
}

/// Why a record could not be replayed.
#[derive(Clone, Debug, PartialEq)]
pub enum ReplayError {
    /// The call is not the one that the record names.
    OtherCall {
        /// Name in the record.
        named: CallName,
        /// Name of the call.
        given: CallName,
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
            ReplayError::OtherCall { named, given } => write!(
                f,
                "the record is of call {} ({}), and this is {} ({}): it was changed since, or is another one",
                named.id, named.digest, given.id, given.digest
            ),
            ReplayError::Happening { number, why } => {
                write!(f, "event {number} of the record can't have happened: {why:?}")
            }
            ReplayError::Time { number, at_s, earliest_s } => write!(
                f,
                "event {number} is recorded at {at_s} s of plant time, which cannot be: it may begin from {earliest_s} s \
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

impl From<AgainError> for ReplayError {
    fn from(error: AgainError) -> Self {
        match error {
            AgainError::Time { number, at_s, earliest_s } => ReplayError::Time { number, at_s, earliest_s },
            AgainError::Happening { number, why } => ReplayError::Happening { number, why },
            AgainError::Step(error) => ReplayError::Step(error),
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
        return Err(ReplayError::OtherCall { named: record.call.clone(), given: CallName::of(call) });
    }
    let mut visit = Visit::start(call, record.seed)?;
    let mut onlookers = Onlookers::arrive(onlookers, &visit, record.ended_s);
    onlookers.make_all(&mut visit, &record.events)?;
    check_time(&visit, record.ended_s, record.events.len() + 1)?;
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
        let text = ron::to_string(&self.notebook)
            .expect("entries are numbers, text and plain enumerations, which RON can always write");
        text_digest(&text)
    }
}

//! `rimebench grade`: works visit records again and marks them.

use std::convert::Infallible;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError, mpsc};

use diagnosis::{Done, Portion, Progress, parallel};
use judge::Arrivals;
use report::Review;
use session::background::Watch;
use session::calls::CallError;
use session::marking;
use session::opening::{HeldAgainst, OpenError, Opened, Outside};
use visit::{Recorded, Visit};
use words::Words;

use super::arguments::{Format, GradeArguments, HeldOptions};
use super::output::{Failure, Output, tell};
use super::play::plant_failure;
use super::progress::{Line, percent};
use super::source;

/// How a name ends in a folder of records.
const RECORD_ENDING: &str = ".ron";

/// Prints a review for each record, in their order; tells of a bad one at once and goes on, and fails at the end if there was any.
pub(crate) fn run(arguments: &GradeArguments, output: &mut Output) -> Result<(), Failure> {
    let held_against = held_against(&arguments.held)?;
    let mut bad = 0;
    let mut records = Vec::new();
    for path in &arguments.records {
        match records_at(path) {
            Ok(found) => records.extend(found),
            Err(Failure::Problems(text)) => {
                tell(&text);
                bad += 1;
            }
            Err(other) => return Err(other),
        }
    }
    let all = records.len() + bad;
    let mut reviews = Vec::new();
    grade_all(&records, &held_against, |path, graded| {
        match graded {
            Ok((review, visit)) => match arguments.format {
                Format::Text => {
                    output.line(&format!("{}:", path.display()))?;
                    output.line(&review.to_text(&visit, Words::from(arguments.units)))?;
                }
                Format::Json => reviews.push(review),
            },
            // Whether or not anybody reads the reviews.
            Err(Failure::Problems(text)) => {
                tell(&text);
                bad += 1;
            }
            Err(other) => return Err(other),
        }
        output.flush()
    })?;
    if arguments.format == Format::Json {
        let text = serde_json::to_string_pretty(&reviews).map_err(|error| {
            Failure::Problems(format!("error: the reviews could not be written: {error}"))
        })?;
        output.line(&text)?;
        output.flush()?;
    }
    if bad == 0 { Ok(()) } else { Err(Failure::Problems(format!("{bad} of {all} could not be graded"))) }
}

/// A record, or those in a folder by their names.
fn records_at(path: &Path) -> Result<Vec<PathBuf>, Failure> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let problem = |what: String| Failure::Problems(format!("error: {}: {what}", path.display()));
    let mut records = Vec::new();
    for file in std::fs::read_dir(path).map_err(|error| problem(error.to_string()))? {
        let file = file.map_err(|error| problem(error.to_string()))?.path();
        // A link that leads nowhere is told when it is read.
        if (file.is_file() || std::fs::metadata(&file).is_err())
            && file.to_string_lossy().to_lowercase().ends_with(RECORD_ENDING)
            && !is_call(&file)
        {
            records.push(file);
        }
    }
    if records.is_empty() {
        return Err(problem(format!("no file in this folder ends in {RECORD_ENDING}, as visit records do")));
    }
    records.sort();
    Ok(records)
}

/// Whether a file holds a call and no record: calls lie beside the records of them.
fn is_call(path: &Path) -> bool {
    source::read(path).is_ok_and(|text| call::is_call(&text))
}

/// A record that was worked again.
type Graded = Result<(Review, Visit), Failure>;

/// Grades records on all cores and hands each on in its order. The suspects of a call arrive once for all its records.
fn grade_all(
    records: &[PathBuf],
    held_against: &HeldAgainst,
    mut hand_on: impl FnMut(&Path, Graded) -> Result<(), Failure>,
) -> Result<(), Failure> {
    let line = Line::of("cli-grading");
    let arrivals = Arrivals::default();
    let shares = Mutex::new(vec![0.0; records.len()]);
    let (sender, receiver) = mpsc::channel();
    let mut works: Vec<(usize, &PathBuf)> = records.iter().enumerate().collect();
    std::thread::scope(|scope| {
        scope.spawn(|| {
            // Moved in, so that the receiver ends with the work.
            let sender = sender;
            let listens = Watch::default();
            parallel::for_each(&mut works, parallel::cores(), &listens, |(index, path)| {
                let of_record = OfRecord { index: *index, shares: &shares, line: &line };
                let graded = graded(path, held_against, &arrivals, &of_record);
                of_record.report(Done::Share(1.0));
                // Nobody takes it any more after the output was closed: the rest is not worth the work.
                if sender.send((*index, graded)).is_err() {
                    listens.cancel();
                }
                Ok::<(), Infallible>(())
            })
        });
        let mut waiting: Vec<Option<Graded>> = records.iter().map(|_| None).collect();
        let mut handed_on = 0;
        for (index, graded) in receiver {
            waiting[index] = Some(graded);
            while let Some(graded) = waiting.get_mut(handed_on).and_then(Option::take) {
                line.make_way();
                hand_on(&records[handed_on], graded)?;
                handed_on += 1;
            }
        }
        Ok(())
    })
}

/// How far the work on one of many records is.
struct OfRecord<'a> {
    index: usize,
    shares: &'a Mutex<Vec<f64>>,
    line: &'a Line,
}

impl Progress for OfRecord<'_> {
    fn report(&self, done: Done) {
        let Done::Share(share) = done else { return };
        let mut shares = self.shares.lock().unwrap_or_else(PoisonError::into_inner);
        shares[self.index] = share;
        let done = shares.iter().filter(|share| **share >= 1.0).count();
        let all = shares.iter().sum::<f64>() / shares.len() as f64;
        let (done, all, share) = (done.to_string(), shares.len().to_string(), percent(all));
        let so_far =
            Words::default().fill("cli-graded-so-far", &[("done", done), ("all", all), ("share", share)]);
        self.line.tell(&so_far);
    }

    fn is_cancelled(&self) -> bool {
        false
    }
}

/// Part of the way to a review at which a record is all but graded: done is what was told.
const ALL_BUT: f64 = 0.999;

fn graded(path: &Path, held_against: &HeldAgainst, arrivals: &Arrivals, progress: &dyn Progress) -> Graded {
    let recorded = replayed(path, held_against)?;
    let graded = marking::graded(recorded, arrivals, &Portion::of(progress, 0.0, ALL_BUT));
    match graded.map_err(plant_failure)? {
        Some((visit, review)) => Ok((review, visit)),
        None => unreachable!("nobody stops the weighing"),
    }
}

/// What records are held against by the options of the command line.
pub(super) fn held_against(options: &HeldOptions) -> Result<HeldAgainst, Failure> {
    let call = options.call.as_deref().map(source::call).transpose()?;
    let outside = if options.with_events { Outside::Taken } else { Outside::Refused };
    Ok(HeldAgainst { call, outside, ..HeldAgainst::default() })
}

/// Works a record again; an edited one is refused. Its call is the one that is given, or else the one that it names, built in or
/// in a file beside it.
pub(super) fn replayed(path: &Path, held_against: &HeldAgainst) -> Result<Recorded, Failure> {
    let words = Words::default();
    Opened::read(path, held_against).and_then(|opened| opened.replay()).map_err(|error| {
        let not_graded = |why: String| {
            let file = path.display().to_string();
            Failure::Problems(words.fill("cli-not-graded", &[("file", file), ("why", why)]))
        };
        match error {
            OpenError::File(path, fault) => source::of_file(&path, fault),
            OpenError::Problems(problems) => Failure::Problems(source::listed(&problems)),
            OpenError::Outside => not_graded(words.label("cli-outside")),
            OpenError::Call(error) => {
                let why = match &error {
                    CallError::Fault(fault) => words.say(fault),
                    CallError::Problems(problems) => source::listed(problems),
                };
                not_graded(words.fill("cli-no-call-of-record", &[("why", why)]))
            }
            OpenError::Replay(error) => not_graded(words.say(&error)),
        }
    })
}

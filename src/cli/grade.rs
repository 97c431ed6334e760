//! `rimebench grade`: works visit records again and marks them.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError, mpsc};

use call::Call;
use judge::{Arrivals, Tracker, judge_tracked, weigh};
use report::Review;
use session::calls::CallError;
use visit::{Onlooker, Record, Timed, Visit, replay_before};
use words::Words;

use super::output::{Failure, Output, tell};
use super::play::plant_failure;
use super::progress::{Progress, percent};
use super::{Format, GradeArguments, HeldOptions, source};

/// How a name ends in a folder of records.
const RECORD_ENDING: &str = ".ron";

/// Prints a review for each record, in their order; tells of a bad one at once and goes on, and fails at the end if there was any.
pub(crate) fn run(arguments: &GradeArguments, output: &mut Output) -> Result<(), Failure> {
    let held_against = HeldAgainst::of(&arguments.held)?;
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
    let progress = Progress::of("cli-grading");
    let arrivals = Arrivals::default();
    let shares = Mutex::new(vec![0.0; records.len()]);
    let told = |index: usize, share: f64| {
        let mut shares = shares.lock().unwrap_or_else(PoisonError::into_inner);
        shares[index] = share;
        let done = shares.iter().filter(|share| **share >= 1.0).count();
        let all = shares.iter().sum::<f64>() / records.len() as f64;
        let (done, all, share) = (done.to_string(), records.len().to_string(), percent(all));
        let so_far =
            Words::default().fill("cli-graded-so-far", &[("done", done), ("all", all), ("share", share)]);
        progress.tell(&so_far);
    };
    let next = AtomicUsize::new(0);
    let (sender, receiver) = mpsc::channel();
    let labour = |sender: mpsc::Sender<(usize, Graded)>| {
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(path) = records.get(index) else { return };
            let graded = graded(path, held_against, &arrivals, &|share| told(index, 0.999 * share));
            told(index, 1.0);
            // Nobody takes it any more after the output was closed.
            if sender.send((index, graded)).is_err() {
                return;
            }
        }
    };
    let workers = std::thread::available_parallelism().map_or(1, |cores| cores.get()).min(records.len());
    std::thread::scope(|scope| {
        for _ in 0..workers {
            let sender = sender.clone();
            scope.spawn(|| labour(sender));
        }
        drop(sender);
        let mut waiting: Vec<Option<Graded>> = records.iter().map(|_| None).collect();
        let mut handed_on = 0;
        for (index, graded) in receiver {
            waiting[index] = Some(graded);
            while let Some(graded) = waiting.get_mut(handed_on).and_then(Option::take) {
                progress.make_way();
                hand_on(&records[handed_on], graded)?;
                handed_on += 1;
            }
        }
        Ok(())
    })
}

fn graded(
    path: &Path,
    held_against: &HeldAgainst,
    arrivals: &Arrivals,
    told: &(dyn Fn(f64) + Sync),
) -> Graded {
    let mut tracker = Tracker::default();
    let visit = replayed(path, held_against, &mut [&mut tracker])?;
    let watch = |share: f64| {
        told(share);
        true
    };
    let suspects = weigh(&visit, arrivals, &watch).map_err(plant_failure)?;
    let marks = match suspects {
        Some(suspects) => judge_tracked(&visit, &tracker.trail(), &suspects),
        None => unreachable!("nobody stops the weighing"),
    };
    Ok((Review::new(&visit, &marks), visit))
}

/// What records are held against.
pub(super) struct HeldAgainst {
    /// The call that is given, if one is.
    call: Option<Call>,
    outside: Outside,
}

/// What is made of a record in which faults came or went without the learner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outside {
    /// It is refused: whoever writes a record could clear the fault in it.
    Refused,
    /// It is graded, since an instructor says that it is his.
    Taken,
}

impl HeldAgainst {
    /// By the options of the command line.
    pub(super) fn of(options: &HeldOptions) -> Result<HeldAgainst, Failure> {
        let call = options.call.as_deref().map(source::call).transpose()?;
        let outside = if options.with_events { Outside::Taken } else { Outside::Refused };
        Ok(HeldAgainst { call, outside })
    }
}

/// Works a record again; an edited one is refused. Its call is the one that is given, or else the one that it names, built in or
/// in a file beside it.
pub(super) fn replayed(
    path: &Path,
    held_against: &HeldAgainst,
    onlookers: &mut [&mut dyn Onlooker],
) -> Result<Visit, Failure> {
    let name = path.display();
    let text = source::read(path)?;
    let record = Record::from_text(&text, &name.to_string())
        .map_err(|error| Failure::Problems(source::listed(&error)))?;
    let not_graded = |why: String| Failure::Problems(format!("{name}: not graded: {why}"));
    if held_against.outside == Outside::Refused && record.events.iter().any(Timed::changes_what_is_wrong) {
        return Err(not_graded(
            "faults were injected, worsened or cleared during this visit, which a learner can't do. If you kept the record \
             of a visit in which you did so yourself: --with-events"
                .to_owned(),
        ));
    }
    let found;
    let call = match &held_against.call {
        Some(call) => call,
        None => {
            found = session::calls::call_of(&record.call, path.parent(), None)
                .map_err(|error| not_graded(format!("{} (--call FILE)", no_call(&error))))?;
            &found
        }
    };
    replay_before(&record, call, onlookers).map_err(|error| not_graded(Words::default().say(&error)))
}

fn no_call(error: &CallError) -> String {
    match error {
        CallError::Fault(fault) => Words::default().say(fault),
        CallError::Problems(problems) => source::listed(problems),
    }
}

//! What the program is at, moved on by commands and real time. Knows neither an engine nor a screen.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use judge::Arrivals;
use visit::Visit;
use words::Words;

use crate::ahead::Ahead;
use crate::brought::{AtWork, Outcome};
use crate::command::{CallChoice, Command};
use crate::failure::Failure;
use crate::job::Job;
use crate::look::{CallCard, ClockLook, LeftCard, Notice, Stage};
use crate::reviewing::{Kept, Reviewing};
use crate::saving;
use crate::settings::{Settings, Store};
use crate::time::Clock;
use crate::working::Working;
use store::{self, Interrupted};

/// What a session begins with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Call to drive to: the id of a built-in call, or the path of a call file.
    pub call: Option<String>,
    /// Seed.
    pub seed: Option<u64>,
    /// Folder for visit records, this time; the one of the settings if none is given.
    pub record_dir: Option<PathBuf>,
}

/// The state of the program.
pub struct Session {
    clock: Arc<dyn Clock>,
    store: Store,
    settings: Settings,
    words: Words,
    notice: Option<Notice>,
    /// Visits and reviews that were entered and left so far.
    turns: u64,
    calls: Vec<CallCard>,
    /// Visits that were interrupted, and how they are shown.
    left: (Vec<Interrupted>, Vec<LeftCard>),
    record_dir: PathBuf,
    /// Hypotheses on arrival at the calls of the records that were opened.
    arrivals: Arc<Arrivals>,
    /// The record whose path stands on the start screen.
    ahead: Option<Ahead>,
    at: At,
    quit: Quit,
}

/// Whether the program should end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Quit {
    /// Stay.
    #[default]
    Stay,
    /// End.
    Now,
}

/// How soon the next frame is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Liveliness {
    /// Something moves.
    Moving,
    /// Long work goes on, whose progress is shown. The work needs the cores more than the screen does.
    Waiting,
    /// Nothing moves until the person does something.
    Still,
}

enum At {
    Start,
    /// With what is kept of the visit that is being judged, if there was one.
    Preparing(Job, Kept),
    Working(Box<Working>),
    Reviewing(Box<Reviewing>),
}

impl Session {
    /// At the list of calls, or on the way to the call that was asked for. Settings and, if no folder is given, records lie in the
    /// store.
    pub fn new(options: &Options, store: Store, clock: Arc<dyn Clock>) -> Session {
        let (settings, failure) = match store.read() {
            Ok(settings) => (settings, None),
            Err(failure) => (Settings::default(), Some(failure)),
        };
        let words = Words::in_units(settings.units);
        let record_dir = options.record_dir.clone().unwrap_or_else(|| store.records(&settings));
        let mut session = Session {
            clock,
            store,
            settings,
            words,
            notice: failure.map(|failure| Notice::Bad(failure.told(words))),
            turns: 0,
            calls: crate::cards(),
            left: Default::default(),
            record_dir,
            arrivals: Arc::default(),
            ahead: None,
            at: At::Start,
            quit: Quit::Stay,
        };
        session.look_for_interrupted();
        if let Some(call) = &options.call {
            let is_built_in = session.calls.iter().any(|card| &card.id == call);
            let choice = if is_built_in {
                CallChoice::BuiltIn(call.clone())
            } else {
                CallChoice::File(PathBuf::from(call))
            };
            session.at = session.arriving(choice, options.seed.unwrap_or(1));
        }
        session
    }

    /// Moves everything on by a frame of real time.
    pub fn advance(&mut self, real_s: f64) {
        match &mut self.at {
            At::Start => {}
            At::Reviewing(reviewing) => reviewing.take_what_is_there(),
            At::Preparing(job, _) => {
                if let Some(outcome) = job.poll()
                    && let At::Preparing(job, kept) = std::mem::replace(&mut self.at, At::Start)
                {
                    self.take(outcome, job, kept);
                }
            }
            At::Working(working) => {
                let stopped = working.advance(real_s, &self.record_dir).err();
                let is_closed = working.visit().is_closed() && working.visit().busy().is_none();
                let mut failures = Vec::new();
                if let Some(error) = stopped {
                    working.clock.pause();
                    failures.push(Failure::ClockStopped(error.into()));
                }
                failures.extend(working.untold());
                if !failures.is_empty() {
                    let told = failures.iter().flat_map(|failure| failure.told(self.words));
                    self.notice = Some(Notice::Bad(told.collect()));
                }
                if is_closed {
                    self.judge();
                }
            }
        }
    }

    /// What a job has brought; one that goes on is kept.
    fn take(&mut self, outcome: Outcome, job: Job, kept: Kept) {
        match outcome {
            Outcome::AtWork(arrived) => {
                let AtWork { recorded, call_file } = *arrived;
                self.turn();
                let wall = Arc::clone(&self.clock);
                let working = Working::of(recorded, call_file, self.settings.speed, wall);
                self.at = At::Working(Box::new(working));
            }
            Outcome::Marked(marked) => {
                self.turns += 1;
                self.at = At::Reviewing(Box::new(Reviewing::of(*marked, job, kept)));
            }
            // They come after the marks only.
            Outcome::Figures(_) | Outcome::Evidence(_) | Outcome::Over(_) => self.at = At::Start,
            Outcome::Failed(failure) => {
                self.notice = Some(Notice::Bad(failure.told(self.words)));
                self.at = At::Start;
            }
        }
    }

    /// Writes the record of the closed visit and has it judged.
    fn judge(&mut self) {
        let is_saved = self.save();
        let At::Working(working) = std::mem::replace(&mut self.at, At::Start) else { return };
        let mut working = working;
        if is_saved {
            working.drop_journal();
        }
        let (recorded, adviser, saved) = working.into_parts();
        let kept = Kept { hints: adviser.taken(), record: saved };
        self.at = At::Preparing(Job::judge(recorded, adviser.into_weighing(), &self.clock), kept);
    }

    /// Carries out a command.
    pub fn apply(&mut self, command: Command) {
        match command {
            Command::Arrive { call, seed } => {
                self.notice = None;
                self.ahead = None;
                self.at = self.arriving(call, seed);
            }
            Command::LookAhead(path) => self.look_ahead(path),
            Command::OpenRecord(path) => {
                self.notice = None;
                self.at = At::Preparing(self.open(path), Kept::default());
            }
            Command::CancelArrival => self.at = At::Start,
            Command::GoOn(journal) => self.go_on(&journal),
            Command::SaveRecord => {
                self.save();
            }
            Command::SaveAndLeave => {
                if self.save() {
                    self.leave();
                }
            }
            Command::SavePage => self.save_page(),
            Command::Leave => self.leave(),
            Command::Quit => self.quit = Quit::Now,
            Command::DismissNotice => self.notice = None,
            Command::SetUnits(units) => {
                self.words.units = units;
                self.keep_settings(Settings { units, ..self.settings.clone() });
            }
            Command::SetSpeed(speed) => {
                if let At::Working(working) = &mut self.at {
                    working.apply(command);
                }
                self.keep_settings(Settings { speed, ..self.settings.clone() });
            }
            Command::Perform(_)
            | Command::PerformAll(_)
            | Command::AskTests
            | Command::LookAtStanding
            | Command::StopWaiting
            | Command::TogglePause => {
                if let At::Working(working) = &mut self.at {
                    working.apply(command);
                }
            }
        }
    }

    fn arriving(&self, choice: CallChoice, seed: u64) -> At {
        At::Preparing(Job::arrive(choice, seed, &self.clock), Kept::default())
    }

    /// Something else is shown from now on, and what was told belongs to what was before.
    fn turn(&mut self) {
        self.turns += 1;
        self.notice = None;
    }

    /// Takes settings over and keeps them. If they can't be kept, they hold until the program ends.
    fn keep_settings(&mut self, settings: Settings) {
        if settings == self.settings {
            return;
        }
        self.settings = settings;
        if let Err(failure) = self.store.write(&self.settings) {
            self.notice = Some(Notice::Bad(failure.told(self.words)));
        }
    }

    /// Back to the list of calls. What was made since the last save is not kept.
    fn leave(&mut self) {
        self.turn();
        if let At::Working(mut working) = std::mem::replace(&mut self.at, At::Start) {
            working.drop_journal();
        }
        self.look_for_interrupted();
    }

    fn look_for_interrupted(&mut self) {
        let left = store::interrupted(&self.record_dir);
        let cards = left.iter().map(left_card).collect();
        self.left = (left, cards);
    }

    /// Makes a record of what an interrupted visit left, and opens it.
    fn go_on(&mut self, journal: &Path) {
        let Some(left) = self.left.0.iter().find(|left| left.path == journal) else { return };
        match left.to_record(saving::RECORD) {
            Ok(path) => {
                let job = Job::open(path, left.call_file.clone(), Arc::clone(&self.arrivals), &self.clock);
                self.notice = None;
                self.at = At::Preparing(job, Kept::default());
            }
            Err(error) => {
                let failure = Failure::InterruptedNotWritten(error);
                self.notice = Some(Notice::Bad(failure.told(self.words)));
            }
        }
    }

    /// Begins the work on a record before it is asked for, if there is such a file.
    fn look_ahead(&mut self, path: PathBuf) {
        self.ahead = match self.at {
            At::Start => Ahead::of(path, &self.arrivals, &self.clock),
            _ => None,
        };
    }

    /// The work on a record: the one that was begun ahead, unless the file is another one by now.
    fn open(&mut self, path: PathBuf) -> Job {
        let ahead = self.ahead.take().and_then(|ahead| ahead.asked_for(&path));
        ahead.unwrap_or_else(|| Job::open(path, None, Arc::clone(&self.arrivals), &self.clock))
    }

    /// Writes the record, and says where. Whether it was written.
    fn save(&mut self) -> bool {
        let saved = match &mut self.at {
            At::Working(working) => {
                let previous = working.saved.as_ref().map(|(path, _)| path.as_path());
                let saved = saving::save(working.visit(), &self.record_dir, previous);
                if let Ok(path) = &saved {
                    working.saved = Some((path.clone(), working.visit().notebook().len()));
                }
                saved
            }
            At::Reviewing(reviewing) => {
                let saved = saving::save(&reviewing.visit, &self.record_dir, reviewing.saved.as_deref());
                if let Ok(path) = &saved {
                    reviewing.saved = Some(path.clone());
                }
                saved
            }
            At::Start | At::Preparing(..) => return false,
        };
        let (is_saved, words) = (saved.is_ok(), self.words);
        self.notice = Some(match saved {
            Ok(path) => Notice::Good(words.fill("screen-saved-record", &[("path", shown(&path))])),
            Err(failure) => Notice::Bad(failure.told(words)),
        });
        is_saved
    }

    /// Writes the review as a page, and says where.
    fn save_page(&mut self) {
        let At::Reviewing(reviewing) = &mut self.at else { return };
        let words = self.words;
        self.notice = Some(match reviewing.save_page(&self.record_dir, words) {
            Ok(path) if reviewing.has_path_to_come() => {
                Notice::Good(words.fill("screen-saved-page-without-path", &[("path", shown(&path))]))
            }
            Ok(path) => Notice::Good(words.fill("screen-saved-page", &[("path", shown(&path))])),
            Err(failure) => Notice::Bad(failure.told(words)),
        });
    }

    /// Saves a visit that would be lost when the program ends, and says where. If it can't be saved its journal stays, and the next
    /// start offers to go on.
    pub fn save_before_closing(&mut self) -> Option<PathBuf> {
        let At::Working(working) = &self.at else { return None };
        let entries = working.visit().notebook().len();
        let saved = working.saved.as_ref().map_or(0, |(_, saved)| *saved);
        if entries > saved && !self.save() {
            return None;
        }
        let At::Working(working) = &mut self.at else { return None };
        working.drop_journal();
        working.saved.as_ref().map(|(path, _)| path.clone())
    }

    /// What it shows.
    pub fn stage(&self) -> Stage<'_> {
        match &self.at {
            At::Start => Stage::List { calls: &self.calls, left: &self.left.1 },
            At::Preparing(job, _) => Stage::Preparing(job.look()),
            At::Working(working) => {
                let visit = working.visit();
                let hints = working.adviser.look(visit, self.words);
                Stage::Working { visit, clock: working.clock.look(), hints }
            }
            At::Reviewing(reviewing) => Stage::Reviewing(Box::new(reviewing.look())),
        }
    }

    /// The clock of the visit that is worked, if one is.
    pub fn clock(&self) -> Option<ClockLook> {
        match &self.at {
            At::Working(working) => Some(working.clock.look()),
            At::Start | At::Preparing(..) | At::Reviewing(_) => None,
        }
    }

    /// The visit that is worked, if one is.
    pub fn visit(&self) -> Option<&Visit> {
        match &self.at {
            At::Working(working) => Some(working.visit()),
            At::Start | At::Preparing(..) | At::Reviewing(_) => None,
        }
    }

    /// What the person is told.
    pub fn notice(&self) -> Option<&Notice> {
        self.notice.as_ref()
    }

    /// Language and units on display.
    pub fn words(&self) -> Words {
        self.words
    }

    /// Where records lie.
    pub fn record_dir(&self) -> &Path {
        &self.record_dir
    }

    /// Counts what is entered and left: what a screen remembers of one visit does not belong to the next.
    pub fn turns(&self) -> u64 {
        self.turns
    }

    /// Whether the program should end.
    pub fn quit(&self) -> Quit {
        self.quit
    }

    /// Waits until the long work that is on, if any is, has brought what comes next of it. For whoever draws no frames.
    pub fn wait(&mut self) {
        match &mut self.at {
            At::Preparing(job, _) => {
                let outcome = job.wait();
                if let At::Preparing(job, kept) = std::mem::replace(&mut self.at, At::Start) {
                    self.take(outcome, job, kept);
                }
            }
            At::Reviewing(reviewing) => reviewing.wait(),
            At::Start | At::Working(_) => {}
        }
    }

    /// How soon the next frame is wanted.
    pub fn liveliness(&self) -> Liveliness {
        match &self.at {
            At::Preparing(..) => Liveliness::Waiting,
            At::Reviewing(reviewing) if reviewing.is_at_work() => Liveliness::Waiting,
            At::Start | At::Reviewing(_) => Liveliness::Still,
            At::Working(working) if working.clock.is_paused() && !working.adviser.is_at_work() => {
                Liveliness::Still
            }
            At::Working(_) => Liveliness::Moving,
        }
    }
}

fn left_card(left: &Interrupted) -> LeftCard {
    let record = &left.record;
    let title = left.call().map_or_else(|_| call::Text::english(&record.call.id), |call| call.title);
    LeftCard { title, seed: record.seed, moves: record.moves().count(), path: left.path.clone() }
}

/// A path in full where the system knows it.
fn shown(path: &Path) -> String {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned()).display().to_string()
}

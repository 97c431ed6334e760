//! What the window is at, moved on by commands and real time. Knows no engine.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use judge::Arrivals;
use session::Interrupted;
use ui::{CallCard, CallChoice, Command, LeftCard, Notice, Stage, UiState, View};

use crate::ahead::Ahead;
use crate::failure::Failure;
use crate::job::{AtWork, Job, Outcome};
use crate::reviewing::{Kept, Reviewing};
use crate::working::Working;
use crate::{Options, files};

/// The whole state behind the window.
pub struct Session {
    /// What only the screen knows.
    pub state: UiState,
    calls: Vec<CallCard>,
    /// Visits that were interrupted, and how they are shown.
    left: (Vec<Interrupted>, Vec<LeftCard>),
    record_dir: PathBuf,
    /// Hypotheses on arrival at the calls of the records that were opened.
    arrivals: Arc<Arrivals>,
    /// The record whose path stands on the start screen.
    ahead: Option<Ahead>,
    at: At,
    /// Set when the window should close.
    pub quit: Quit,
}

/// Whether the window should close.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Quit {
    /// Stay.
    #[default]
    Stay,
    /// Close.
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
    /// At the list of calls, or on the way to the call that was asked for.
    pub fn new(options: &Options) -> Session {
        let mut session = Session {
            state: UiState::default(),
            calls: cards(),
            left: Default::default(),
            record_dir: options.record_dir.clone().unwrap_or_else(|| PathBuf::from(".")),
            arrivals: Arc::default(),
            ahead: None,
            at: At::Start,
            quit: Quit::Stay,
        };
        session.state.prefill(options.call.as_deref(), options.seed);
        session.look_for_interrupted();
        if let Some(call) = &options.call {
            let is_built_in = session.calls.iter().any(|card| &card.id == call);
            let choice = if is_built_in {
                CallChoice::BuiltIn(call.clone())
            } else {
                CallChoice::File(PathBuf::from(call))
            };
            session.at = At::Preparing(Job::arrive(choice, options.seed.unwrap_or(1)), Kept::default());
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
                if !working.clock.is_paused() {
                    self.state.motion.moved_s += real_s.clamp(0.0, 0.25);
                }
                let stopped = working.advance(real_s, &self.record_dir).err();
                let is_closed = working.visit.is_closed() && working.visit.busy().is_none();
                let mut failures = Vec::new();
                if let Some(error) = stopped {
                    working.clock.pause();
                    failures.push(Failure::ClockStopped(error.into()));
                }
                failures.extend(working.untold());
                if !failures.is_empty() {
                    let told = failures.iter().flat_map(|failure| failure.told(self.state.words));
                    self.state.notice = Some(Notice::Bad(told.collect()));
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
                let AtWork { visit, trace, call_file } = *arrived;
                self.state.clear_for_visit();
                self.at = At::Working(Box::new(Working::of(visit, trace, call_file)));
            }
            Outcome::Marked(marked) => {
                let notice = self.state.notice.take();
                self.state.clear_for_visit();
                self.state.notice = notice;
                self.at = At::Reviewing(Box::new(Reviewing::of(*marked, job, kept)));
            }
            // They come after the marks only.
            Outcome::Figures(_) | Outcome::Evidence(_) | Outcome::Over(_) => self.at = At::Start,
            Outcome::Failed(failure) => {
                self.state.notice = Some(Notice::Bad(failure.told(self.state.words)));
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
        let (visit, trace, adviser, saved) = working.into_parts();
        let kept = Kept { hints: adviser.taken(), record: saved };
        self.at = At::Preparing(Job::judge(visit, trace, adviser.into_weighing()), kept);
    }

    /// Carries out a command.
    pub fn apply(&mut self, command: Command) {
        match command {
            Command::Arrive { call, seed } => {
                self.state.notice = None;
                self.ahead = None;
                self.at = At::Preparing(Job::arrive(call, seed), Kept::default());
            }
            Command::LookAhead(path) => self.look_ahead(path),
            Command::OpenRecord(path) => {
                self.state.notice = None;
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
            Command::Perform(_)
            | Command::PerformAll(_)
            | Command::AskTests
            | Command::LookAtStanding
            | Command::StopWaiting
            | Command::TogglePause
            | Command::SetSpeed(_) => {
                if let At::Working(working) = &mut self.at {
                    working.apply(command);
                }
            }
        }
    }

    /// Back to the list of calls. What was made since the last save is not kept.
    fn leave(&mut self) {
        self.state.clear_for_visit();
        if let At::Working(mut working) = std::mem::replace(&mut self.at, At::Start) {
            working.drop_journal();
        }
        self.look_for_interrupted();
    }

    fn look_for_interrupted(&mut self) {
        let left = session::interrupted(&self.record_dir);
        let cards = left.iter().map(left_card).collect();
        self.left = (left, cards);
    }

    /// Makes a record of what an interrupted visit left, and opens it.
    fn go_on(&mut self, journal: &Path) {
        let Some(left) = self.left.0.iter().find(|left| left.path == journal) else { return };
        match left.to_record(files::RECORD) {
            Ok(path) => {
                let job = Job::open(path, left.call_file.clone(), Arc::clone(&self.arrivals));
                self.state.notice = None;
                self.at = At::Preparing(job, Kept::default());
            }
            Err(error) => {
                let failure = Failure::InterruptedNotWritten(error);
                self.state.notice = Some(Notice::Bad(failure.told(self.state.words)));
            }
        }
    }

    /// Begins the work on a record before it is asked for, if there is such a file.
    fn look_ahead(&mut self, path: PathBuf) {
        self.ahead = match self.at {
            At::Start => Ahead::of(path, &self.arrivals),
            _ => None,
        };
    }

    /// The work on a record: the one that was begun ahead, unless the file is another one by now.
    fn open(&mut self, path: PathBuf) -> Job {
        let ahead = self.ahead.take().and_then(|ahead| ahead.asked_for(&path));
        ahead.unwrap_or_else(|| Job::open(path, None, Arc::clone(&self.arrivals)))
    }

    /// Writes the record, and says where. Whether it was written.
    fn save(&mut self) -> bool {
        let saved = match &mut self.at {
            At::Working(working) => {
                let previous = working.saved.as_ref().map(|(path, _)| path.as_path());
                let saved = files::save(&working.visit, &self.record_dir, previous);
                if let Ok(path) = &saved {
                    working.saved = Some((path.clone(), working.visit.notebook().len()));
                }
                saved
            }
            At::Reviewing(reviewing) => {
                let saved = files::save(&reviewing.visit, &self.record_dir, reviewing.saved.as_deref());
                if let Ok(path) = &saved {
                    reviewing.saved = Some(path.clone());
                }
                saved
            }
            At::Start | At::Preparing(..) => return false,
        };
        let (is_saved, words) = (saved.is_ok(), self.state.words);
        self.state.notice = Some(match saved {
            Ok(path) => Notice::Good(words.fill("screen-saved-record", &[("path", shown(&path))])),
            Err(failure) => Notice::Bad(failure.told(words)),
        });
        is_saved
    }

    /// Writes the review as a page, and says where.
    fn save_page(&mut self) {
        let At::Reviewing(reviewing) = &mut self.at else { return };
        let words = self.state.words;
        self.state.notice = Some(match reviewing.save_page(&self.record_dir, words) {
            Ok(path) if reviewing.has_path_to_come() => {
                Notice::Good(words.fill("screen-saved-page-without-path", &[("path", shown(&path))]))
            }
            Ok(path) => Notice::Good(words.fill("screen-saved-page", &[("path", shown(&path))])),
            Err(failure) => Notice::Bad(failure.told(words)),
        });
    }

    /// Saves a visit that would be lost when the window closes. If it can't be saved its journal stays, and the next start offers
    /// to go on.
    pub fn save_before_closing(&mut self) {
        let At::Working(working) = &self.at else { return };
        let entries = working.visit.notebook().len();
        let saved = working.saved.as_ref().map_or(0, |(_, saved)| *saved);
        if entries > saved && !self.save() {
            return;
        }
        if let At::Working(working) = &mut self.at {
            working.drop_journal();
        }
    }

    /// Draws a frame and returns what was asked for.
    pub fn show(&mut self, ui: &mut bevy_egui::egui::Ui) -> Vec<Command> {
        match &self.at {
            At::Start => {
                ui::show(ui, &mut self.state, Stage::Start { calls: &self.calls, left: &self.left.1 })
            }
            At::Preparing(job, _) => {
                let preparing = job.look(self.state.words);
                ui::show(ui, &mut self.state, Stage::Preparing(&preparing))
            }
            At::Working(working) => {
                let view = View::of(&working.visit, self.state.place.0, self.state.words);
                let clock = working.clock.look();
                let hints = working.adviser.look(&working.visit, self.state.words);
                ui::show(ui, &mut self.state, Stage::Visit { view: &view, clock, hints: &hints })
            }
            At::Reviewing(reviewing) => {
                let look = reviewing.look();
                ui::show(ui, &mut self.state, Stage::Review(&look))
            }
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

fn cards() -> Vec<CallCard> {
    call::built_in()
        .iter()
        .filter_map(|(id, text)| {
            let call = call::read(text, id).ok()?;
            Some(CallCard {
                id: (*id).to_owned(),
                title: call.title,
                complaint: call.complaint,
                par_time_s: call.par_time_s,
            })
        })
        .collect()
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

#[cfg(test)]
mod tests;

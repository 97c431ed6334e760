//! What the window is at, moved on by commands and real time. Knows no engine.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use desk::{CallCard, CallChoice, Command, Desk, Notice, ReviewLook, Stage, Trace, View};
use report::Review;
use visit::Visit;

use crate::clock::Clock;
use crate::job::{Job, Outcome, SLICE_S};
use crate::{Options, files};

/// The whole state behind the window.
pub struct Session {
    /// What only the screen knows.
    pub desk: Desk,
    calls: Vec<CallCard>,
    record_dir: PathBuf,
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
    /// Nothing moves until the person does something.
    Still,
}

enum At {
    Start,
    Preparing(Job),
    Working(Box<Working>),
    Reviewing(Box<Reviewing>),
}

struct Working {
    visit: Visit,
    trace: Trace,
    clock: Clock,
    /// Plant time that a frame was too short to pass on, s.
    carry_s: f64,
    /// Where the record lies, and how many entries it holds.
    saved: Option<(PathBuf, usize)>,
}

struct Reviewing {
    visit: Visit,
    trace: Trace,
    review: Review,
    saved: Option<PathBuf>,
}

/// Real time that a frame may spend on the plant.
const FRAME_BUDGET: Duration = Duration::from_millis(14);

impl Session {
    /// At the list of calls, or on the way to the call that was asked for.
    pub fn new(options: &Options) -> Session {
        let mut session = Session {
            desk: Desk::default(),
            calls: cards(),
            record_dir: options.record_dir.clone().unwrap_or_else(|| PathBuf::from(".")),
            at: At::Start,
            quit: Quit::Stay,
        };
        session.desk.prefill(options.call.as_deref(), options.seed);
        if let Some(call) = &options.call {
            let is_built_in = session.calls.iter().any(|card| &card.id == call);
            let choice = if is_built_in {
                CallChoice::BuiltIn(call.clone())
            } else {
                CallChoice::File(PathBuf::from(call))
            };
            session.at = At::Preparing(Job::arrive(choice, options.seed.unwrap_or(1)));
        }
        session
    }

    /// Moves everything on by a frame of real time.
    pub fn advance(&mut self, real_s: f64) {
        match &mut self.at {
            At::Start | At::Reviewing(_) => {}
            At::Preparing(job) => {
                if let Some(outcome) = job.poll() {
                    self.take(outcome);
                }
            }
            At::Working(working) => {
                if !working.clock.is_paused() {
                    self.desk.motion.moved_s += real_s.clamp(0.0, 0.25);
                }
                let told = working.advance(real_s).err().map(|error| error.to_string());
                let is_closed = working.visit.is_closed() && working.visit.busy().is_none();
                if let Some(told) = told {
                    working.clock.pause();
                    self.desk.notice = Some(Notice::Bad(vec![
                        told,
                        "The clock stands. Save the record and report it: this is a defect of the program."
                            .to_owned(),
                    ]));
                }
                if is_closed {
                    self.judge();
                }
            }
        }
    }

    fn take(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::AtWork(arrived) => {
                let (visit, trace) = *arrived;
                let mut clock = Clock::default();
                if !visit.notebook().is_empty() {
                    // A visit that goes on from a record waits for its learner.
                    clock.pause();
                }
                self.desk.clear_for_visit();
                self.at = At::Working(Box::new(Working { visit, trace, clock, carry_s: 0.0, saved: None }));
            }
            Outcome::Judged(judged) => {
                let (visit, trace, review) = *judged;
                let notice = self.desk.notice.take();
                self.desk.clear_for_visit();
                self.desk.notice = notice;
                self.at = At::Reviewing(Box::new(Reviewing { visit, trace, review, saved: None }));
            }
            Outcome::Failed(told) => {
                self.desk.notice = Some(Notice::Bad(told));
                self.at = At::Start;
            }
        }
    }

    /// Writes the record of the closed visit and has it judged.
    fn judge(&mut self) {
        self.save();
        let At::Working(working) = std::mem::replace(&mut self.at, At::Start) else { return };
        let Working { visit, trace, .. } = *working;
        self.at = At::Preparing(Job::judge(visit, trace));
    }

    /// Carries out a command.
    pub fn apply(&mut self, command: Command) {
        match command {
            Command::Arrive { call, seed } => {
                self.desk.notice = None;
                self.at = At::Preparing(Job::arrive(call, seed));
            }
            Command::OpenRecord(path) => {
                self.desk.notice = None;
                self.at = At::Preparing(Job::open(path));
            }
            Command::CancelArrival => self.at = At::Start,
            Command::SaveRecord => self.save(),
            Command::Leave => {
                self.desk.clear_for_visit();
                self.at = At::Start;
            }
            Command::Quit => self.quit = Quit::Now,
            Command::Perform(_) | Command::StopWaiting | Command::TogglePause | Command::SetSpeed(_) => {
                if let At::Working(working) = &mut self.at {
                    working.apply(command);
                }
            }
        }
    }

    /// Writes the record, and says where.
    fn save(&mut self) {
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
                reviewing.saved = saved.as_ref().ok().cloned();
                saved
            }
            At::Start | At::Preparing(_) => return,
        };
        self.desk.notice = Some(match saved {
            Ok(path) => Notice::Good(format!("Visit record: {}", shown(&path))),
            Err(told) => Notice::Bad(vec![told]),
        });
    }

    /// Saves a visit that would be lost when the window closes.
    pub fn save_before_closing(&mut self) {
        if let At::Working(working) = &self.at {
            let entries = working.visit.notebook().len();
            let saved = working.saved.as_ref().map_or(0, |(_, saved)| *saved);
            if entries > saved {
                self.save();
            }
        }
    }

    /// Draws a frame and returns what was asked for.
    pub fn show(&mut self, ui: &mut bevy_egui::egui::Ui) -> Vec<Command> {
        match &self.at {
            At::Start => desk::show(ui, &mut self.desk, Stage::Start { calls: &self.calls }),
            At::Preparing(job) => desk::show(ui, &mut self.desk, Stage::Preparing(&job.look())),
            At::Working(working) => {
                let view = View::of(&working.visit, self.desk.place.0);
                let clock = working.clock.look();
                desk::show(ui, &mut self.desk, Stage::Visit { view: &view, clock })
            }
            At::Reviewing(reviewing) => {
                let look = ReviewLook {
                    review: &reviewing.review,
                    notebook: reviewing.visit.notebook(),
                    arrival_s: reviewing.visit.arrival_s(),
                    trace: &reviewing.trace,
                };
                desk::show(ui, &mut self.desk, Stage::Review(&look))
            }
        }
    }

    /// How soon the next frame is wanted.
    pub fn liveliness(&self) -> Liveliness {
        match &self.at {
            At::Start | At::Reviewing(_) => Liveliness::Still,
            At::Preparing(_) => Liveliness::Moving,
            At::Working(working) if working.clock.is_paused() => Liveliness::Still,
            At::Working(_) => Liveliness::Moving,
        }
    }
}

impl Working {
    fn apply(&mut self, command: Command) {
        match command {
            Command::Perform(action) => {
                self.clock.begin_move();
                self.carry_s = 0.0;
                self.visit.begin(&action);
            }
            Command::StopWaiting => self.visit.stop_waiting(),
            Command::TogglePause => self.clock.toggle_pause(),
            Command::SetSpeed(speed) => self.clock.set_speed(speed),
            _ => {}
        }
        self.note_end_of_move();
    }

    fn advance(&mut self, real_s: f64) -> Result<(), plant::StepError> {
        let until = Instant::now() + FRAME_BUDGET;
        match self.visit.busy() {
            Some(progress) => {
                self.carry_s += self.clock.move_plant_s(real_s, &progress.action, progress.total_s);
                while self.carry_s >= plant::BASE_STEP_S && self.visit.busy().is_some() {
                    let slice_s = self.carry_s.min(SLICE_S);
                    self.carry_s -= slice_s;
                    self.visit.work(slice_s)?;
                    self.trace.sample(&self.visit);
                    if Instant::now() > until {
                        self.carry_s = 0.0;
                    }
                }
            }
            None => {
                self.carry_s += self.clock.idle_plant_s(real_s);
                while self.carry_s >= plant::BASE_STEP_S {
                    let steps = (self.carry_s.min(SLICE_S) / plant::BASE_STEP_S).floor();
                    let slice_s = steps * plant::BASE_STEP_S;
                    self.carry_s -= slice_s;
                    self.visit.let_time_pass(slice_s)?;
                    self.trace.sample(&self.visit);
                    if Instant::now() > until {
                        self.carry_s = 0.0;
                    }
                }
            }
        }
        self.note_end_of_move();
        Ok(())
    }

    fn note_end_of_move(&mut self) {
        if self.visit.busy().is_none() {
            self.clock.end_move();
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

/// A path in full where the system knows it.
fn shown(path: &Path) -> String {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned()).display().to_string()
}

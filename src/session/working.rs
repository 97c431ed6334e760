//! A visit at work: its clock, its adviser and its journal.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use visit::{Move, Recorded, Visit};

use crate::adviser::Adviser;
use crate::command::{Command, Speed};
use crate::failure::Failure;
use crate::pace::PlantClock;
use crate::time::Clock;
use store::Journal;

pub(crate) struct Working {
    recorded: Recorded,
    pub clock: PlantClock,
    pub adviser: Adviser,
    /// For how long a frame has worked.
    wall: Arc<dyn Clock>,
    /// Plant time that a frame was too short to pass on, s.
    carry_s: f64,
    /// Where the record lies, and how many entries it holds.
    pub saved: Option<(PathBuf, usize)>,
    /// The file of its call, if it is not a built-in one.
    call_file: Option<PathBuf>,
    /// What a kill would leave of it.
    journal: Journaled,
}

/// The journal of a visit, from its first move on.
enum Journaled {
    /// Nothing was made that could be lost.
    NotYet,
    At(Journal),
    /// It can't be written, which is told once.
    Not(Option<Failure>),
}

/// Real time that a frame may spend on the plant, s.
const FRAME_BUDGET_S: f64 = 0.014;
/// Longest slice of plant time between two looks at the clock on the wall, s.
const SLICE_S: f64 = 10.0;

impl Working {
    pub fn of(recorded: Recorded, call_file: Option<PathBuf>, speed: Speed, wall: Arc<dyn Clock>) -> Working {
        let mut clock = PlantClock::default();
        clock.set_speed(speed);
        if !recorded.visit().notebook().is_empty() {
            // A visit that goes on from a record waits for its learner.
            clock.pause();
        }
        let adviser = Adviser::start(recorded.visit().call());
        Working {
            recorded,
            clock,
            adviser,
            wall,
            carry_s: 0.0,
            saved: None,
            call_file,
            journal: Journaled::NotYet,
        }
    }

    /// The visit, and what the adviser knows of it. The journal stays: what it holds is not saved yet.
    pub fn into_parts(self) -> (Recorded, Adviser, Option<PathBuf>) {
        (self.recorded, self.adviser, self.saved.map(|(path, _)| path))
    }

    /// The visit.
    pub fn visit(&self) -> &Visit {
        self.recorded.visit()
    }

    /// The visit is saved, or is not to be kept.
    pub fn drop_journal(&mut self) {
        if let Journaled::At(journal) = std::mem::replace(&mut self.journal, Journaled::NotYet) {
            journal.over();
        }
    }

    /// What is to be told of the journal, if it can't be written.
    pub fn untold(&mut self) -> Option<Failure> {
        match &mut self.journal {
            Journaled::Not(failure) => failure.take(),
            Journaled::NotYet | Journaled::At(_) => None,
        }
    }

    pub fn apply(&mut self, command: Command) {
        match command {
            // A field of a dialog reads "nan" as a number.
            Command::Perform(action) if !action.is_finite() => {}
            Command::Perform(action) => {
                self.adviser.plan(Vec::new());
                self.begin(&action);
            }
            Command::PerformAll(moves) => {
                self.adviser.plan(moves);
                self.go_on_with_plan();
            }
            Command::AskTests => self.adviser.ask_tests(self.recorded.visit()),
            Command::LookAtStanding => self.adviser.look_at_standing(),
            Command::StopWaiting => self.recorded.stop_waiting(),
            Command::TogglePause => self.clock.toggle_pause(),
            Command::SetSpeed(speed) => self.clock.set_speed(speed),
            _ => {}
        }
        self.note_end_of_move();
    }

    fn begin(&mut self, action: &Move) {
        self.clock.begin_move();
        self.carry_s = 0.0;
        self.recorded.begin(action);
    }

    /// Begins the next move of what was asked for in one go, once nothing is being done.
    fn go_on_with_plan(&mut self) {
        if let Some(action) = self.adviser.next_move(self.recorded.visit()) {
            self.begin(&action);
        }
    }

    /// Moves on by a frame of real time; what was made goes to a journal in the folder.
    pub fn advance(&mut self, real_s: f64, folder: &Path) -> Result<(), plant::StepError> {
        let entries = self.recorded.visit().notebook().len();
        let moved = self.let_pass(real_s);
        if self.recorded.visit().notebook().len() > entries {
            self.adviser.after_move(self.recorded.visit());
            self.keep(folder);
        }
        self.go_on_with_plan();
        self.adviser.follow(self.recorded.visit());
        moved
    }

    /// Writes what was made to the journal. If that fails, it is told once.
    fn keep(&mut self, folder: &Path) {
        let written = match &mut self.journal {
            Journaled::NotYet => Journal::begin(self.recorded.visit(), self.call_file.as_deref(), folder)
                .map(|journal| {
                    self.journal = Journaled::At(journal);
                }),
            Journaled::At(journal) => journal.follow(self.recorded.visit()),
            Journaled::Not(_) => Ok(()),
        };
        if let Err(error) = written {
            self.journal = Journaled::Not(Some(Failure::NoJournal(error)));
        }
    }

    fn let_pass(&mut self, real_s: f64) -> Result<(), plant::StepError> {
        let until_s = self.wall.now_s() + FRAME_BUDGET_S;
        match self.recorded.visit().busy() {
            Some(progress) => {
                self.carry_s += self.clock.move_plant_s(real_s, &progress.action, progress.total_s);
                while self.carry_s >= plant::BASE_STEP_S && self.recorded.visit().busy().is_some() {
                    let slice_s = self.carry_s.min(SLICE_S);
                    self.carry_s -= slice_s;
                    self.recorded.work(slice_s)?;
                    if self.wall.now_s() > until_s {
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
                    self.recorded.let_time_pass(slice_s)?;
                    if self.wall.now_s() > until_s {
                        self.carry_s = 0.0;
                    }
                }
            }
        }
        self.note_end_of_move();
        Ok(())
    }

    fn note_end_of_move(&mut self) {
        if self.recorded.visit().busy().is_none() {
            self.clock.end_move();
        }
    }
}

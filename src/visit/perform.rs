//! Making a move: a plan of steps, worked off tick by tick.
//!
//! A plan is a list of steps: time that passes, something done at an instant, or time that passes until the
//! plant says so. Since every step is made of whole ticks, a move made at once and a move made in slices give
//! the same bytes.

use std::collections::VecDeque;

use call::Duration;
use plant::StepError;

use crate::action::Move;
use crate::event::{Event, Timed};
use crate::hazard::Hazard;
use crate::moves::{At, End};
use crate::note::{BulbNote, Note, VacuumNote};
use crate::notebook::{Entry, Outcome};
use crate::place::Location;
use crate::site::{BulbState, Circuit};
use crate::tick::{NO_END, TICK_S};
use crate::timing::{REFUSED_S, WALK_S};
use crate::visit::{Act, GoalMet, Limit, Memo, Step, Task, Visit, act, pass};

/// How far a running move has got.
#[derive(Clone, Debug, PartialEq)]
pub struct Progress {
    /// The move.
    pub action: Move,
    /// Plant time that it has taken, s.
    pub done_s: f64,
    /// Plant time that it takes in all, s: an upper bound for moves that end when the plant says so.
    pub total_s: f64,
}

impl Progress {
    /// Whether the move is done.
    pub fn is_done(&self) -> bool {
        self.done_s >= self.total_s
    }
}

impl Task {
    /// Puts steps in front of those that are left.
    pub(crate) fn next(&mut self, steps: Vec<Step>) {
        for step in steps.into_iter().rev() {
            self.steps.push_front(step);
        }
    }

    /// Counts ticks for which something has held; true once it has held for so many seconds.
    pub(crate) fn holds_for(&mut self, holding: bool, seconds: f64) -> bool {
        self.memo.held_ticks = if holding { self.memo.held_ticks + 1 } else { 0 };
        self.memo.held_ticks >= Task::ticks(seconds)
    }

    /// Whatever is left of the move is dropped; its end is done at once.
    pub(crate) fn cut_short(&mut self, end: Act) {
        self.steps.clear();
        self.ticks_in_step = 0;
        self.limit = None;
        self.memo.goal_met = GoalMet::No;
        self.steps.push_back(Step::Act(end));
    }

    /// How many ticks may pass at once, and for how many nothing is done to the plant, at least one. A goal is asked after each tick, of a plant
    /// that may be one tick behind.
    fn free_ticks(&self) -> (u64, u64) {
        let to_limit = self.limit.map_or(NO_END, |limit| limit.ticks.saturating_sub(self.ticks_done));
        let left = |ticks: u64| ticks.saturating_sub(self.ticks_in_step).min(to_limit).max(1);
        match self.steps.front() {
            Some(Step::Pass { ticks }) => (left(*ticks), left(*ticks)),
            Some(Step::Until { ticks, .. }) => (1, left(*ticks).min(2 - self.ticks_in_step % 2)),
            Some(Step::Act(_)) | None => (1, 1),
        }
    }

    fn ticks_left(&self) -> u64 {
        if let Some(limit) = self.limit {
            return limit.ticks - self.ticks_done.min(limit.ticks);
        }
        let planned: u64 = self
            .steps
            .iter()
            .map(|step| match step {
                Step::Pass { ticks } | Step::Until { ticks, .. } => *ticks,
                Step::Act(_) => 0,
            })
            .sum();
        planned - self.ticks_in_step.min(planned)
    }

    fn progress(&self) -> Progress {
        let done_s = self.ticks_done as f64 * TICK_S;
        Progress { action: self.action.clone(), done_s, total_s: done_s + self.ticks_left() as f64 * TICK_S }
    }
}

impl Visit {
    /// Makes a move: takes its minutes of plant time and adds an entry to the notebook. What the site forbids
    /// is answered, costs a minute and is recorded. A move that is still running is finished first.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn perform(&mut self, action: &Move) -> Result<&Entry, StepError> {
        self.begin(action);
        while self.task.is_some() {
            self.work_some_ticks(NO_END)?;
        }
        Ok(&self.notebook[self.notebook.len() - 1])
    }

    /// Begins a move; [`Visit::work`] goes on with it. If one is running, this one waits for its turn.
    pub fn begin(&mut self, action: &Move) {
        if self.task.is_some() {
            self.queue.push_back(action.clone());
        } else {
            self.catch_up_silently();
            self.start_task(action.clone());
        }
    }

    /// Goes on with the running move for so much plant time, rounded down to whole ticks but at least one,
    /// and no longer than the move takes. Returns how far it is; [`Visit::busy`] is `None` once all is done.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn work(&mut self, max_plant_s: f64) -> Result<Progress, StepError> {
        let Some(mut progress) = self.busy() else {
            return Ok(Progress { action: Move::Wait(Duration::Seconds(0.0)), done_s: 0.0, total_s: 0.0 });
        };
        let mut ticks = if max_plant_s >= TICK_S { (max_plant_s / TICK_S) as u64 } else { 1 };
        let number = self.next_entry_number();
        while ticks > 0 && self.task.is_some() {
            ticks -= self.work_some_ticks(ticks)?;
            if self.next_entry_number() != number {
                break;
            }
            if let Some(running) = self.busy() {
                progress = running;
            }
        }
        if self.next_entry_number() != number
            && let Some(entry) = self.notebook.last()
        {
            let took_s = entry.finished_s - entry.started_s;
            progress = Progress { action: entry.action.clone(), done_s: took_s, total_s: took_s };
        }
        Ok(progress)
    }

    /// The running move, if there is one.
    pub fn busy(&self) -> Option<Progress> {
        self.task.as_ref().map(Task::progress)
    }

    /// Ends a running wait, evacuation or charging early. It is recorded with the time it really took. Does nothing to
    /// other moves.
    pub fn stop_waiting(&mut self) {
        self.catch_up_silently();
        let Some(mut task) = self.task.take() else { return };
        let is_refused = matches!(task.outcome, Outcome::Refused(_));
        if !task.action.can_be_stopped() || task.ticks_done == 0 || is_refused {
            self.task = Some(task);
            return;
        }
        task.action = task.action.ended_after(task.ticks_done as f64 * TICK_S);
        let begun = self.timed.iter_mut().rev().find(|timed| timed.action().is_some());
        if let Some(timed) = begun {
            timed.event = Event::Move(task.action.clone());
        }
        if let Some(limit) = task.limit {
            task.cut_short(limit.end);
        }
        while matches!(task.steps.front(), Some(Step::Pass { .. } | Step::Until { .. })) {
            task.steps.pop_front();
        }
        task.ticks_in_step = 0;
        self.task = Some(task);
        self.settle_task();
    }

    /// Number of the entry that the next finished move makes.
    pub(crate) fn next_entry_number(&self) -> u32 {
        u32::try_from(self.notebook.len() + 1).unwrap_or(u32::MAX)
    }

    fn start_task(&mut self, action: Move) {
        let refused = self.refusal(&action);
        let mut steps = VecDeque::new();
        if self.clock_runs()
            && let Some(location) = self.location_of(&action)
            && location != self.site.standing
        {
            steps.push_back(pass(WALK_S));
            steps.push_back(act(match location {
                Location::Indoors => |visit, _| visit.site.standing = Location::Indoors,
                Location::Outdoors => |visit, _| visit.site.standing = Location::Outdoors,
            }));
        }
        let mut notes = Vec::new();
        let outcome = match refused {
            Some(reason) => {
                if self.clock_runs() {
                    steps.push_back(pass(REFUSED_S));
                }
                Outcome::Refused(reason)
            }
            None => {
                notes.extend(self.let_go_of_bulb(&action));
                steps.extend(self.plan(&action));
                Outcome::Done
            }
        };
        let limit = match (&outcome, action.row().end) {
            (Outcome::Done, End::Within { seconds, act, .. }) => {
                Some(Limit { ticks: Task::ticks(seconds), end: act })
            }
            _ => None,
        };
        self.timed.push(Timed { at_s: self.time_s(), event: Event::Move(action.clone()) });
        let task = Task { limit, ..self.task_of(action, steps, outcome, notes) };
        self.task = Some(self.looked_for_ignition(task));
        self.settle_task();
    }

    /// A move as a task that has not begun.
    pub(crate) fn task_of(
        &self,
        action: Move,
        steps: VecDeque<Step>,
        outcome: Outcome,
        notes: Vec<Note>,
    ) -> Task {
        Task {
            action,
            number: self.next_entry_number(),
            started_s: self.time_s(),
            steps,
            ticks_in_step: 0,
            ticks_done: 0,
            outcome,
            notes,
            reached: Vec::new(),
            hazards: Vec::new(),
            memo: Memo::default(),
            limit: None,
        }
    }

    /// A hand that holds the bulb can't do anything else: the bulb is left hanging.
    fn let_go_of_bulb(&mut self, action: &Move) -> Option<Note> {
        let keeps_hold = matches!(action.row().at, At::Anywhere | At::Bulb);
        if self.site.bulb != BulbState::InHand || keeps_hold {
            return None;
        }
        self.site.bulb = BulbState::Hanging;
        self.inputs.bulb = plant::BulbHandling::HungInRoomAir;
        Some(BulbNote::LetGo.into())
    }

    /// The steps of a move that the site allows.
    pub(crate) fn plan(&self, action: &Move) -> Vec<Step> {
        (action.row().plan)(self, action)
    }

    /// At most so many ticks of the running move, and how many they were. Only called while one is running.
    pub(crate) fn work_some_ticks(&mut self, most: u64) -> Result<u64, StepError> {
        let Some(mut task) = self.task.take() else { return Ok(0) };
        let result = self.work_on(&mut task, most);
        self.task = Some(task);
        if result.is_ok() {
            self.settle_task();
        }
        result
    }

    fn work_on(&mut self, task: &mut Task, most: u64) -> Result<u64, StepError> {
        let (at_once, free) = task.free_ticks();
        let ticks = self.tick(most.min(at_once), free)?;
        task.ticks_done += ticks;
        task.ticks_in_step += ticks;
        let over = match task.steps.front().copied() {
            Some(Step::Pass { ticks }) => task.ticks_in_step >= ticks,
            Some(Step::Until { goal, ticks }) => {
                task.memo.goal_met = if goal(self, task) { GoalMet::Yes } else { GoalMet::No };
                task.memo.goal_met == GoalMet::Yes || task.ticks_in_step >= ticks
            }
            Some(Step::Act(_)) | None => false,
        };
        let at_limit = task.limit.is_some_and(|limit| task.ticks_done >= limit.ticks);
        if over || at_limit {
            self.catch_up()?;
        }
        if over {
            task.steps.pop_front();
            task.ticks_in_step = 0;
            task.memo.held_ticks = 0;
        }
        if let Some(limit) = task.limit.filter(|_| at_limit) {
            task.cut_short(limit.end);
        }
        Ok(ticks)
    }

    /// Does what is due without time passing, and writes the entry when nothing is left to do.
    fn settle_task(&mut self) {
        while let Some(mut task) = self.task.take() {
            match task.steps.front().copied() {
                Some(Step::Act(act)) => {
                    task.steps.pop_front();
                    act(self, &mut task);
                    self.follow_wrong();
                    self.task = Some(task);
                }
                Some(Step::Pass { .. } | Step::Until { .. }) => {
                    self.task = Some(task);
                    return;
                }
                None => {
                    self.write_entry(task);
                    if let Some(next) = self.queue.pop_front() {
                        self.start_task(next);
                    }
                    return;
                }
            }
        }
    }

    fn write_entry(&mut self, mut task: Task) {
        if self.site.circuit != Circuit::Charged && self.compressor_runs() {
            task.hazards.push(Hazard::CompressorRunOnOpenCircuit);
            task.note(VacuumNote::CompressorRunsOnOpenCircuit);
        }
        let entry = Entry {
            number: task.number,
            action: task.action,
            started_s: task.started_s,
            finished_s: self.time_s(),
            running: self.running,
            outcome: task.outcome,
            notes: task.notes,
        };
        self.follow_wrong();
        let number = entry.number;
        let reached = self.milestones_of(&entry).into_iter().chain(task.reached);
        self.milestones.extend(reached.map(|milestone| (milestone, number)));
        self.hazards.extend(task.hazards.into_iter().map(|hazard| (hazard, number)));
        self.notebook.push(entry);
    }
}

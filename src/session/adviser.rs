//! Hints during a visit: what the suspects' thread is asked for, what the screen is told, and how often it was.

use std::collections::VecDeque;

use call::{Call, Hints};
use diagnosis::way_to;
use visit::{Move, Outcome, Visit};
use words::Words;

use crate::look::{HintLook, HintsTaken, TestsLook};
use crate::weighing::{Look, Weighing};

/// The best tests that are shown.
const SHOWN_TESTS: usize = 3;

/// Hypotheses beside a visit, and the hints that come of them.
pub struct Adviser {
    weighing: Weighing,
    policy: Hints,
    wish: Wish,
    taken: HintsTaken,
    plan: VecDeque<Move>,
    look: Look,
}

/// Whether the best tests were asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wish {
    None,
    /// For the visit after so many entries.
    After(usize),
}

impl Adviser {
    /// Lets the suspects of a call arrive.
    pub fn start(call: &Call) -> Adviser {
        Adviser {
            weighing: Weighing::start(call),
            policy: call.hints,
            wish: Wish::None,
            taken: HintsTaken { policy: call.hints, ..HintsTaken::default() },
            plan: VecDeque::new(),
            look: Look::default(),
        }
    }

    /// Tells the thread where the visit stands and takes in what has come of it.
    pub fn follow(&mut self, visit: &Visit) {
        self.weighing.tell(visit);
        self.look = self.weighing.look();
        let done = visit.notebook().len();
        let is_wanted = match self.policy {
            Hints::Off => false,
            Hints::OnRequest => self.wish == Wish::After(done),
            Hints::Always => true,
        };
        let is_there = self.look.tests.as_ref().is_some_and(|(after, _)| *after == done);
        let may_ask = visit.busy().is_none() && self.plan.is_empty() && self.look.failed.is_none();
        if is_wanted && !is_there && may_ask && self.look.testing.is_none() {
            self.weighing.ask_tests(visit);
            self.look = self.weighing.look();
        }
    }

    /// The learner asks which test would tell most.
    pub fn ask_tests(&mut self, visit: &Visit) {
        if self.policy != Hints::Off {
            self.wish = Wish::After(visit.notebook().len());
            self.taken.tests += 1;
            self.follow(visit);
        }
    }

    /// The learner looks at what still stands.
    pub fn look_at_standing(&mut self) {
        self.taken.standing += 1;
    }

    /// Moves to be made one after another, in place of what was left of earlier ones.
    pub fn plan(&mut self, moves: Vec<Move>) {
        self.plan = moves.into();
    }

    /// The next move of the plan once nothing is being done. A refused move ends the plan.
    pub fn next_move(&mut self, visit: &Visit) -> Option<Move> {
        if visit.busy().is_some() || self.plan.is_empty() {
            return None;
        }
        self.plan.pop_front()
    }

    /// A move of the plan is done.
    pub fn after_move(&mut self, visit: &Visit) {
        let refused =
            visit.notebook().last().is_some_and(|entry| matches!(entry.outcome, Outcome::Refused(_)));
        if refused {
            self.plan.clear();
        }
    }

    /// What the screen shows.
    pub fn look(&self, visit: &Visit, words: Words) -> HintLook {
        let done = visit.notebook().len();
        let tests = match &self.look.tests {
            Some((after, tests)) if *after == done => {
                let best = tests.iter().take(SHOWN_TESTS);
                TestsLook::Ready(best.map(|test| (test.clone(), way_to(visit, test))).collect())
            }
            _ => match (self.look.testing, self.wish) {
                (Some(share), _) => TestsLook::UnderWay(share as f32),
                (None, Wish::After(after)) if after == done => TestsLook::UnderWay(0.0),
                _ => TestsLook::NotAsked,
            },
        };
        HintLook {
            arrived_share: self.look.arrived_share as f32,
            followed_s: self.look.followed_s,
            weighed: self.look.weighed,
            standing: self.look.standing.clone(),
            tests,
            failed: self.look.failed.as_ref().map(|failure| failure.told(words).concat()),
        }
    }

    /// Whether something is on the way that the screen will show.
    pub fn is_at_work(&self) -> bool {
        self.look.testing.is_some() || !self.plan.is_empty()
    }

    /// How often a hint was taken.
    pub fn taken(&self) -> HintsTaken {
        self.taken
    }

    /// The suspects, for the review.
    pub fn into_weighing(self) -> Weighing {
        self.weighing
    }
}

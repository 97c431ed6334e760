//! What a session shows of itself.

use std::path::PathBuf;

use call::{Call, Hints};
use diagnosis::{Posterior, Test};
use report::{Course, Review, ReviewFigures, Timeline};
use visit::{Entry, Move, Visit};

use crate::command::Speed;

/// What the program is at.
pub enum Stage<'a> {
    /// The list of calls.
    List {
        /// The calls that come with the program.
        calls: &'a [CallCard],
        /// Visits that were interrupted.
        left: &'a [LeftCard],
    },
    /// Something long is worked out.
    Preparing(Preparing),
    /// At work.
    Working {
        /// The visit.
        visit: &'a Visit,
        /// The clock.
        clock: ClockLook,
        /// What the suspects say.
        hints: HintLook,
    },
    /// Afterwards.
    Reviewing(Box<ReviewLook<'a>>),
}

/// One call in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct CallCard {
    /// Short name.
    pub id: String,
    /// One line.
    pub title: call::Text,
    /// What the customer says on the phone.
    pub complaint: call::Text,
    /// Time a sound visit needs, s.
    pub par_time_s: f64,
}

/// A visit that was interrupted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftCard {
    /// Title of its call.
    pub title: call::Text,
    /// Seed.
    pub seed: u64,
    /// Moves that were made.
    pub moves: usize,
    /// Where its journal lies.
    pub path: PathBuf,
}

/// Something long that is being worked out, with a way to stop it.
#[derive(Clone, Debug, PartialEq)]
pub struct Preparing {
    /// What.
    pub task: Task,
    /// Real time since it was asked for, s.
    pub waited_s: f64,
    /// Share that is done, 0 to 1, where it is known.
    pub share: Option<f64>,
}

/// What is worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Task {
    /// On the way to a call.
    Arriving,
    /// A record is opened.
    Opening(PathBuf),
    /// A closed visit is marked.
    Marking,
}

/// The clock as it is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockLook {
    /// Speed.
    pub speed: Speed,
    /// Whether it runs.
    pub pace: Pace,
}

/// Whether the clock runs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pace {
    /// Runs.
    #[default]
    Running,
    /// Stands.
    Paused,
}

/// A judged visit.
pub struct ReviewLook<'a> {
    /// The call.
    pub call: &'a Call,
    /// The review.
    pub review: &'a Review,
    /// The notebook.
    pub notebook: &'a [Entry],
    /// Plant time of arrival, s.
    pub arrival_s: f64,
    /// What the plant did.
    pub course: &'a Course,
    /// Moves and, once the evidence is weighed, suspects.
    pub timeline: &'a Timeline,
    /// Figures and facts beside the marks, once they are worked out.
    pub dossier: Option<&'a ReviewFigures>,
    /// How far the work on those is.
    pub figures: FiguresLook,
    /// How far the weighing of the evidence is.
    pub weighing: WeighingLook,
    /// How often hints were taken.
    pub hints: HintsTaken,
    /// How far the work on a sound path is.
    pub path: PathLook,
}

/// How far the work on a sound path is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PathLook {
    /// Done, or not asked for.
    #[default]
    Over,
    /// It begins once the rest of the review is there.
    ToCome,
    /// Under way, with the steps made so far.
    UnderWay(usize),
}

/// How far the work on figures and facts beside the marks is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum FiguresLook {
    /// Done, or it could not be done.
    #[default]
    Over,
    /// Under way, with the share that is done, 0 to 1.
    UnderWay(f32),
}

/// How far the weighing of the evidence is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum WeighingLook {
    /// Done, or not asked for.
    #[default]
    Over,
    /// Under way, with the share that is done, 0 to 1.
    UnderWay(f32),
}

/// What is known of the suspects during a visit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HintLook {
    /// Share of the suspects' arrival that is done, 0 to 1.
    pub arrived_share: f32,
    /// Plant time up to which their plants have followed, s; none before they arrived.
    pub followed_s: Option<f64>,
    /// Number of the last entry that was weighed.
    pub weighed: u32,
    /// Hypotheses after it, the likeliest first.
    pub standing: Vec<Posterior>,
    /// The tests that would tell most.
    pub tests: TestsLook,
    /// Why nothing is weighed any more.
    pub failed: Option<String>,
}

/// The tests that would tell most.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum TestsLook {
    /// Nobody asked, or something was done since.
    #[default]
    NotAsked,
    /// They are being worked out; share that is done, 0 to 1.
    UnderWay(f32),
    /// The best first, each with the moves that lead to it.
    Ready(Vec<(Test, Vec<Move>)>),
}

/// How often hints were taken in a visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct HintsTaken {
    /// What the call allows.
    pub policy: Hints,
    /// How often the best tests were asked for.
    pub tests: u32,
    /// How often the standing suspects were looked at.
    pub standing: u32,
}

/// A message for the person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// Something went as wished.
    Good(String),
    /// Something did not; what and what to do, a line each.
    Bad(Vec<String>),
}

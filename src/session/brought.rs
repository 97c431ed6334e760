//! What long work of a session brings.

use std::path::PathBuf;

use diagnosis::Hypotheses;
use report::{PosteriorHistory, Review, ReviewFigures};
use visit::{Recorded, Recording, Visit};

use crate::failure::Failure;

/// What a job brings: one after another for a closed visit, else one alone.
pub(crate) enum Outcome {
    /// Arrived, or a record whose ticket is still open.
    AtWork(Box<AtWork>),
    /// A closed visit with its marks. What is shown beside them follows.
    Marked(Box<Marked>),
    /// What the plant did, its cycle, and what would have come next.
    Figures(Box<ReviewFigures>),
    /// What the readings made of the suspects.
    Evidence(Box<PosteriorHistory>),
    /// Nothing more comes; the suspects on arrival, for a sound path.
    Over(Option<Box<Hypotheses>>),
    /// It did not work.
    Failed(Failure),
}

/// A visit that can be worked.
pub(crate) struct AtWork {
    /// The visit.
    pub(crate) recorded: Recorded,
    /// The file of its call, if it is not a built-in one.
    pub(crate) call_file: Option<PathBuf>,
}

/// A closed visit and its marks.
pub(crate) struct Marked {
    /// The visit.
    pub(crate) visit: Visit,
    /// What was seen of it.
    pub(crate) recording: Recording,
    /// Marks.
    pub(crate) review: Review,
}

/// Where a job leaves what it brings before it ends.
pub(crate) type Leave<'a> = dyn Fn(Outcome) + Sync + 'a;

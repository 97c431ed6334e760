//! A review on the screen: the marks first, and what goes beside them as it comes.

use std::path::{Path, PathBuf};

use report::{PosteriorHistory, Review, ReviewFigures, Timeline};
use ui::{FiguresLook, HintsTaken, PathLook, ReviewLook, Trace, Weighing};
use visit::Visit;
use words::Words;

use crate::failure::Failure;
use crate::files;
use crate::job::{Job, Marked, Outcome};
use crate::path::{Found, PathWork};

/// What the review is told of the visit before it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Kept {
    pub(crate) hints: HintsTaken,
    /// Where the record lies.
    pub(crate) record: Option<PathBuf>,
}

/// The review of a closed visit, as far as it is there.
pub(crate) struct Reviewing {
    pub(crate) visit: Visit,
    trace: Trace,
    review: Review,
    timeline: Timeline,
    dossier: Option<ReviewFigures>,
    /// What the readings made of the suspects, until there is a dossier to put it into.
    chances: Option<PosteriorHistory>,
    /// The work on what is shown beside the marks.
    beside: Option<Job>,
    hints: HintsTaken,
    path: Option<PathWork>,
    /// Where the record lies.
    pub(crate) saved: Option<PathBuf>,
    /// Where the page lies.
    pub(crate) page: Option<PathBuf>,
}

impl Reviewing {
    /// With the marks alone; the job goes on.
    pub(crate) fn of(marked: Marked, job: Job, kept: Kept) -> Reviewing {
        let Marked { visit, trace, review } = marked;
        let timeline = Timeline::of(&visit, &review, None);
        Reviewing {
            visit,
            trace,
            review,
            timeline,
            dossier: None,
            chances: None,
            beside: Some(job),
            hints: kept.hints,
            path: None,
            saved: kept.record,
            page: None,
        }
    }

    /// For the screen.
    pub(crate) fn look(&self) -> ReviewLook<'_> {
        ReviewLook {
            review: &self.review,
            call: self.visit.call(),
            notebook: self.visit.notebook(),
            arrival_s: self.visit.arrival_s(),
            trace: &self.trace,
            timeline: &self.timeline,
            dossier: self.dossier.as_ref(),
            figures: self.figures(),
            weighing: self.weighing(),
            hints: self.hints,
            path: self.path_look(),
        }
    }

    /// Whether figures or evidence are still worked on.
    pub(crate) fn is_at_work(&self) -> bool {
        self.beside.is_some()
    }

    /// Whether a sound path is still worked on.
    pub(crate) fn has_path_to_come(&self) -> bool {
        self.path.is_some()
    }

    /// Writes the page.
    pub(crate) fn save_page(&mut self, folder: &Path, words: Words) -> Result<PathBuf, Failure> {
        if self.beside.is_some() {
            return Err(Failure::FiguresToCome);
        }
        let Some(dossier) = &self.dossier else { return Err(Failure::NoFigures) };
        let page = report::html::page(&self.review, &self.visit, dossier, words);
        let path = files::save_page(&page, &self.visit, folder, self.saved.as_deref(), self.page.as_deref())?;
        self.page = Some(path.clone());
        Ok(path)
    }

    fn figures(&self) -> FiguresLook {
        match (&self.beside, &self.dossier) {
            (Some(job), None) => FiguresLook::UnderWay(job.beside().0 as f32),
            _ => FiguresLook::Over,
        }
    }

    fn weighing(&self) -> Weighing {
        match &self.beside {
            Some(job) if self.timeline.rows.is_empty() => Weighing::UnderWay(job.beside().1 as f32),
            _ => Weighing::Over,
        }
    }

    fn path_look(&self) -> PathLook {
        match (&self.path, &self.beside) {
            (Some(work), _) => PathLook::UnderWay(work.steps()),
            (None, Some(_)) => PathLook::ToCome,
            (None, None) => PathLook::Over,
        }
    }

    /// Puts beside the marks what has come since the last frame.
    pub(crate) fn take_what_is_there(&mut self) {
        while let Some(outcome) = self.beside.as_ref().and_then(Job::poll) {
            match outcome {
                Outcome::Figures(dossier) => {
                    let chances = self.chances.take();
                    self.dossier = Some(ReviewFigures { chances, ..*dossier });
                }
                Outcome::Evidence(chances) => {
                    self.timeline = Timeline::of(&self.visit, &self.review, Some(&chances));
                    match &mut self.dossier {
                        Some(dossier) => dossier.chances = Some(*chances),
                        None => self.chances = Some(*chances),
                    }
                }
                Outcome::Over(arrived) => {
                    self.beside = None;
                    self.path = arrived
                        .map(|arrived| PathWork::start(self.visit.call(), self.visit.seed(), *arrived));
                }
                // The marks count; what could not be worked out beside them is left out.
                Outcome::Failed(_) | Outcome::AtWork(_) | Outcome::Marked(_) => self.beside = None,
            }
        }
        self.take_path();
    }

    /// Puts the sound path beside the marks once it is there.
    fn take_path(&mut self) {
        let Some(Found::Done(path)) = self.path.as_ref().map(PathWork::poll) else { return };
        self.path = None;
        if let Some(dossier) = &mut self.dossier {
            dossier.path = path;
        }
    }
}

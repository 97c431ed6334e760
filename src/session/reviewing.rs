//! A review on the screen: the marks first, and what goes beside them as it comes.

use std::path::{Path, PathBuf};

use diagnosis::Hypotheses;
use report::{Course, PosteriorHistory, Review, ReviewFigures, SoundPath, Timeline};
use visit::Visit;
use words::Words;

use crate::background::Background;
use crate::brought::{Marked, Outcome};
use crate::failure::Failure;
use crate::job::Job;
use crate::look::{FiguresLook, HintsTaken, PathLook, ReviewLook, WeighingLook};
use crate::saving;

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
    course: Course,
    review: Review,
    timeline: Timeline,
    dossier: Option<ReviewFigures>,
    /// What the readings made of the suspects, until there is a dossier to put it into.
    chances: Option<PosteriorHistory>,
    /// The work on what is shown beside the marks.
    beside: Option<Job>,
    hints: HintsTaken,
    path: Option<Background<Option<SoundPath>>>,
    /// Where the record lies.
    pub(crate) saved: Option<PathBuf>,
    /// Where the page lies.
    pub(crate) page: Option<PathBuf>,
}

impl Reviewing {
    /// With the marks alone; the job goes on.
    pub(crate) fn of(marked: Marked, job: Job, kept: Kept) -> Reviewing {
        let Marked { visit, recording, review } = marked;
        let timeline = Timeline::of(&visit, &review, None);
        Reviewing {
            visit,
            course: Course::of(&recording),
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
            course: &self.course,
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
        let path =
            saving::save_page(&page, &self.visit, folder, self.saved.as_deref(), self.page.as_deref())?;
        self.page = Some(path.clone());
        Ok(path)
    }

    fn figures(&self) -> FiguresLook {
        match (&self.beside, &self.dossier) {
            (Some(job), None) => FiguresLook::UnderWay(job.beside().0 as f32),
            _ => FiguresLook::Over,
        }
    }

    fn weighing(&self) -> WeighingLook {
        match &self.beside {
            Some(job) if self.timeline.rows.is_empty() => WeighingLook::UnderWay(job.beside().1 as f32),
            _ => WeighingLook::Over,
        }
    }

    fn path_look(&self) -> PathLook {
        match (&self.path, &self.beside) {
            (Some(work), _) => PathLook::UnderWay(work.watch().steps()),
            (None, Some(_)) => PathLook::ToCome,
            (None, None) => PathLook::Over,
        }
    }

    /// Puts beside the marks what has come since the last frame.
    pub(crate) fn take_what_is_there(&mut self) {
        while let Some(outcome) = self.beside.as_ref().and_then(Job::poll) {
            self.take(outcome);
        }
        if let Some(found) = self.path.as_ref().and_then(Background::poll) {
            self.take_path(found);
        }
    }

    /// Waits for the next thing that goes beside the marks.
    pub(crate) fn wait(&mut self) {
        if let Some(job) = &self.beside {
            let outcome = job.wait();
            self.take(outcome);
        } else if let Some(path) = &self.path {
            let found = path.wait();
            self.take_path(found);
        }
    }

    fn begin_path(&self, arrived: Hypotheses) -> Background<Option<SoundPath>> {
        let (call, seed) = (self.visit.call().clone(), self.visit.seed());
        Background::start("rimebench-path", move |watch, leave| {
            leave(SoundPath::work_out(&call, seed, arrived, &**watch).ok().flatten());
        })
    }

    fn take(&mut self, outcome: Outcome) {
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
                self.path = arrived.map(|arrived| self.begin_path(*arrived));
            }
            // The marks count; what could not be worked out beside them is left out.
            Outcome::Failed(_) | Outcome::AtWork(_) | Outcome::Marked(_) => self.beside = None,
        }
    }

    /// Puts the sound path beside the marks; none if a plant could not go it.
    fn take_path(&mut self, found: Result<Option<SoundPath>, Failure>) {
        self.path = None;
        if let Some(dossier) = &mut self.dossier {
            dossier.path = found.ok().flatten();
        }
    }
}

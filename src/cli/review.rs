//! `rimebench review`: the review of a visit record as one HTML file.

use std::path::Path;

use diagnosis::Hypotheses;
use judge::{Tracker, judge_tracked, weigh_all};
use report::{Course, CourseTaker, PosteriorHistory, Review, ReviewFigures, SoundPath};
use words::Words;

use super::ReviewArguments;
use super::grade::{self, HeldAgainst};
use super::output::{Failure, Output};
use super::play::plant_failure;
use super::progress::{Progress, percent};

/// Works the record again, with everything that the review shows, and writes the page.
pub(crate) fn run(arguments: &ReviewArguments, output: &mut Output) -> Result<(), Failure> {
    let held_against = HeldAgainst::of(&arguments.held)?;
    let (mut tracker, mut taker) = (Tracker::default(), CourseTaker::default());
    let visit = grade::replayed(&arguments.record, &held_against, &mut [&mut tracker, &mut taker])?;
    let path = &arguments.html;
    // Told now, and not after minutes of work.
    can_be_written(path)?;
    // All entries are weighed once, for the marks and for the page.
    let arrived = arrived(&visit)?;
    let weighed = weighed(&visit, arrived.clone())?;
    let marks = judge_tracked(&visit, &tracker.trail(), &weighed);
    let review = Review::new(&visit, &marks);
    let mut dossier = dossier(taker.course(), &visit, arguments.hours)?;
    dossier.chances = Some(PosteriorHistory::of(&weighed));
    if !arguments.without_path {
        dossier.path = sound_path(&visit, arrived)?;
    }
    let words = Words::from(arguments.units);
    let page = report::html::page(&review, &visit, &dossier, words);
    super::output::write_file(path, &page)?;
    let (record, points, path) = (
        arguments.record.display().to_string(),
        format!("{:.0}", review.total_points),
        path.display().to_string(),
    );
    output.line(&words.fill("cli-reviewed", &[("record", record), ("points", points), ("path", path)]))
}

fn can_be_written(path: &Path) -> Result<(), Failure> {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let problem = if path.is_dir() {
        format!("{} is a folder", path.display())
    } else if !folder.is_dir() {
        format!("there is no folder {}", folder.display())
    } else {
        return Ok(());
    };
    Err(Failure::Problems(format!("error: the page cannot be written: {problem}")))
}

/// The suspects on arrival.
fn arrived(visit: &visit::Visit) -> Result<Hypotheses, Failure> {
    let progress = Progress::of("cli-arriving");
    let watch = |share: f64| {
        progress.tell(&percent(share));
        true
    };
    let arrived = Hypotheses::arrive(visit.call(), &judge::prior(visit.call()), &watch);
    Ok(arrived.map_err(plant_failure)?.unwrap_or_else(|| unreachable!("nobody stops it")))
}

/// The suspects after all entries, for the marks and beyond.
fn weighed(visit: &visit::Visit, arrived: Hypotheses) -> Result<Hypotheses, Failure> {
    let progress = Progress::of("cli-weighing");
    let watch = |share: f64| {
        progress.tell(&percent(share));
        true
    };
    let weighed = weigh_all(visit, arrived, None, &watch).map_err(plant_failure)?;
    Ok(weighed.unwrap_or_else(|| unreachable!("nobody stops it")))
}

/// The figures.
fn dossier(course: Course, visit: &visit::Visit, hours: f64) -> Result<ReviewFigures, Failure> {
    let progress = Progress::of("cli-figures");
    let watch = |share: f64| {
        progress.tell(&percent(share));
        true
    };
    let dossier = ReviewFigures::with(course, visit, hours, &watch).map_err(plant_failure)?;
    Ok(dossier.unwrap_or_else(|| unreachable!("nobody stops it")))
}

/// A sound path through the call.
fn sound_path(visit: &visit::Visit, arrived: Hypotheses) -> Result<Option<SoundPath>, Failure> {
    let progress = Progress::of("cli-path");
    let watch = |steps: usize| {
        progress.tell(&Words::default().count("cli-moves-so-far", steps, &[]));
        true
    };
    SoundPath::work_out(visit.call(), visit.seed(), arrived, &watch).map_err(plant_failure)
}

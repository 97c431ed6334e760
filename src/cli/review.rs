//! `rimebench review`: the review of a visit record as one HTML file.

use judge::judge_weighed;
use report::{Chances, Dossier, Review, Units};
use suspects::Suspects;

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::{ReviewArguments, grade};

/// Works the record again, with everything that the review shows, and writes the page.
pub(crate) fn run(arguments: &ReviewArguments, output: &mut Output) -> Result<(), Failure> {
    let visit = grade::replayed(&arguments.record, None)?;
    // All entries are weighed once, for the marks and for the page.
    let last = visit.notebook().last().map_or(0, |entry| entry.number);
    let prior = judge::prior(visit.call());
    let weighed = Suspects::of(&visit, &prior, last, &|_| true).map_err(plant_failure)?;
    let marks = match &weighed {
        Some(suspects) => judge_weighed(&visit, suspects),
        None => judge::judge(&visit),
    }
    .map_err(plant_failure)?;
    let review = Review::new(&visit, &marks);
    let mut dossier = Dossier::of(&visit, arguments.hours).map_err(plant_failure)?;
    dossier.chances = weighed.as_ref().map(Chances::of);
    let page = report::html::page(&review, &visit, &dossier, Units::from(arguments.units));
    let path = &arguments.html;
    std::fs::write(path, page)
        .map_err(|error| Failure::Problems(format!("error: {}: {error}", path.display())))?;
    output.line(&format!(
        "{}: {:.0} of 100 points; the review is in {}",
        arguments.record.display(),
        review.total_points,
        path.display()
    ))
}

//! `rimebench review`: the review of a visit record as one HTML file.

use report::{Chances, Dossier, Units};
use suspects::{Prior, Suspects};

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::{Evidence, ReviewArguments, grade};

/// Works the record again, with everything that the review shows, and writes the page.
pub(crate) fn run(arguments: &ReviewArguments, output: &mut Output) -> Result<(), Failure> {
    let (review, visit) = grade::graded(&arguments.record)?;
    let mut dossier = Dossier::of(&visit, arguments.hours).map_err(plant_failure)?;
    if arguments.evidence == Evidence::Weighed {
        let last = visit.notebook().last().map_or(0, |entry| entry.number);
        dossier.chances = Suspects::of(&visit, &Prior::Usual, last, &|_| true)
            .map_err(plant_failure)?
            .map(|suspects| Chances::of(&suspects));
    }
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

//! `rimebench grade`: works visit records again and marks them.

use std::path::Path;

use judge::judge;
use report::{Review, Units};
use visit::{Record, replay};

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::{Format, GradeArguments, source};

/// Prints a review for each record; goes on after a bad one, and fails at the end if there was any.
pub(crate) fn run(arguments: &GradeArguments, output: &mut Output) -> Result<(), Failure> {
    let mut reviews = Vec::new();
    let mut problems = Vec::new();
    for path in &arguments.records {
        match graded(path) {
            Ok((review, visit)) => match arguments.format {
                Format::Text => {
                    output.line(&format!("{}:", path.display()))?;
                    output.line(&review.to_text(&visit, Units::from(arguments.units)))?;
                }
                Format::Json => reviews.push(review),
            },
            Err(Failure::Problems(text)) => problems.push(text),
            Err(other) => return Err(other),
        }
        output.flush()?;
    }
    if arguments.format == Format::Json {
        let text = serde_json::to_string_pretty(&reviews).map_err(|error| {
            Failure::Problems(format!("error: the reviews could not be written: {error}"))
        })?;
        output.line(&text)?;
        output.flush()?;
    }
    if problems.is_empty() { Ok(()) } else { Err(Failure::Problems(problems.join("\n"))) }
}

fn graded(path: &Path) -> Result<(Review, visit::Visit), Failure> {
    let visit = replayed(path)?;
    let marks = judge(&visit).map_err(plant_failure)?;
    Ok((Review::new(&visit, &marks), visit))
}

/// Works a record again; an edited one is refused.
pub(super) fn replayed(path: &Path) -> Result<visit::Visit, Failure> {
    let name = path.display();
    let text = source::read(path)?;
    let record = Record::from_text(&text, &name.to_string())
        .map_err(|error| Failure::Problems(source::listed(&error)))?;
    replay(&record).map_err(|error| Failure::Problems(format!("{name}: not graded: {error}")))
}

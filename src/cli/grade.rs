//! `rimebench grade`: works visit records again and marks them.

use std::path::Path;

use judge::judge;
use report::{Review, Units};
use visit::{Record, replay};

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::source::CallSource;
use super::{Format, GradeArguments, source};

/// Prints a review for each record; goes on after a bad one, and fails at the end if there was any.
pub(crate) fn run(arguments: &GradeArguments, output: &mut Output) -> Result<(), Failure> {
    let held_against = arguments.call.as_deref().map(source::call_source).transpose()?;
    let mut reviews = Vec::new();
    let mut problems = Vec::new();
    for path in &arguments.records {
        match graded(path, held_against.as_ref()) {
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

fn graded(path: &Path, held_against: Option<&CallSource>) -> Result<(Review, visit::Visit), Failure> {
    let visit = replayed(path, held_against)?;
    let marks = judge(&visit).map_err(plant_failure)?;
    Ok((Review::new(&visit, &marks), visit))
}

/// Works a record again; an edited one is refused, and one whose call is not the one that it is held against: that of a file
/// if one is given, or else the built-in call of its name.
pub(super) fn replayed(path: &Path, held_against: Option<&CallSource>) -> Result<visit::Visit, Failure> {
    let name = path.display();
    let text = source::read(path)?;
    let record = Record::from_text(&text, &name.to_string())
        .map_err(|error| Failure::Problems(source::listed(&error)))?;
    let not_graded = |why: String| Failure::Problems(format!("{name}: not graded: {why}"));
    if let Some(source) = held_against {
        if record.call_text != source.text {
            return Err(not_graded(format!("the call inside the record is not that of {}", source.name)));
        }
    } else if let Some((id, built_in)) = call::built_in().iter().find(|(id, _)| *id == record.call_id)
        && record.call_text != *built_in
    {
        return Err(not_graded(format!(
            "the call inside the record is not the built-in call {id}: it was changed by hand, or another version of the \
             program wrote it. If it is a call of yours, hold the record against its file: --call FILE"
        )));
    }
    replay(&record).map_err(|error| not_graded(error.to_string()))
}

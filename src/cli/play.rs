//! `rimebench play`: works a call from a file of moves.

use judge::Arrivals;
use report::entry_line;
use session::marking;
use visit::Recorded;
use words::Words;

use super::arguments::PlayArguments;
use super::output::{Failure, Output, tell};
use super::progress::Line;
use super::source;

/// Prints each notebook line as it is written, then the review; writes the record.
pub(crate) fn run(arguments: &PlayArguments, output: &mut Output) -> Result<(), Failure> {
    let words = Words::from(arguments.units);
    let call = source::call(&arguments.call)?;
    let moves_text = source::read_written(&arguments.moves)?;
    let moves_name = arguments.moves.display().to_string();
    let (moves, old_names) = visit::read_moves_with_notes(&moves_text, &moves_name)
        .map_err(|problems| Failure::Problems(source::listed(&problems)))?;
    words.old_names(&moves_name, &old_names).iter().for_each(|line| tell(line));

    let mut recorded = Recorded::start(&call, arguments.seed).map_err(plant_failure)?;
    let (title, id, seed) = (words.own(&call.title), call.id.clone(), arguments.seed.to_string());
    output.line(&words.fill("cli-visit", &[("title", title), ("call", id), ("seed", seed)]))?;
    output.line(&words.fill("cli-customer-says", &[("complaint", words.own(&call.complaint))]))?;
    output.line("")?;
    // Whoever stops reading still gets the record.
    let mut told = Ok(());
    for action in &moves {
        if recorded.visit().is_closed() {
            told = told.and_then(|()| output.line(&words.label("cli-moves-left-out")));
            break;
        }
        let Some(entry) = recorded.perform(action).map_err(plant_failure)?.cloned() else { continue };
        told = told.and_then(|()| {
            output.line(&entry_line(&entry, recorded.visit().arrival_s(), &call, words))?;
            output.flush()
        });
        if told.is_err() && arguments.record.is_none() {
            break;
        }
    }
    if let Some(path) = &arguments.record {
        source::write(path, &recorded.visit().record().to_text())?;
    }
    told?;
    output.line("")?;
    output.flush()?;
    let marked = {
        let line = Line::of("cli-weighing");
        marking::graded(recorded, &Arrivals::default(), &line)
    };
    let Some((visit, review)) = marked.map_err(plant_failure)? else { unreachable!("nobody stops it") };
    output.line(review.to_text(&visit, words).trim_end())
}

/// A plant that left the finite numbers is a defect of the program, told as such.
pub(crate) fn plant_failure(error: plant::StepError) -> Failure {
    let words = Words::default();
    let why = words.say(&visit::Breakdown::from(error));
    Failure::Problems(words.fill("cli-broke-down", &[("why", why)]))
}

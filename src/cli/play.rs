//! `rimebench play`: works a call from a file of moves.

use judge::judge;
use report::{Review, entry_line};
use visit::Visit;
use words::Words;

use super::PlayArguments;
use super::output::{Failure, Output, tell};
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

    for line in source::former_names(&moves_text, &arguments.moves.display().to_string(), words) {
        super::output::tell(&line);
    }
    let mut visit = Visit::start(&call, arguments.seed).map_err(plant_failure)?;
    let (title, id, seed) = (words.own(&call.title), call.id.clone(), arguments.seed.to_string());
    output.line(&words.fill("cli-visit", &[("title", title), ("call", id), ("seed", seed)]))?;
    output.line(&words.fill("cli-customer-says", &[("complaint", words.own(&call.complaint))]))?;
    output.line("")?;
    // Whoever stops reading still gets the record.
    let mut told = Ok(());
    for action in &moves {
        if visit.is_closed() {
            told = told.and_then(|()| output.line(&words.label("cli-moves-left-out")));
            break;
        }
        let entry = visit.perform(action).map_err(plant_failure)?.clone();
        told = told.and_then(|()| {
            output.line(&entry_line(&entry, visit.arrival_s(), &call, words))?;
            output.flush()
        });
        if told.is_err() && arguments.record.is_none() {
            break;
        }
    }
    if let Some(path) = &arguments.record {
        super::output::write_file(path, &visit.record().to_text())?;
    }
    told?;
    let marks = judge(&visit).map_err(plant_failure)?;
    output.line("")?;
    output.line(Review::new(&visit, &marks).to_text(&visit, words).trim_end())
}

/// A plant that left the finite numbers is a defect of the program, told as such.
pub(crate) fn plant_failure(error: plant::StepError) -> Failure {
    let words = Words::default();
    let why = words.say(&visit::Breakdown::from(error));
    Failure::Problems(words.fill("cli-broke-down", &[("why", why)]))
}

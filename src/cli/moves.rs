//! `rimebench moves`: the moves in a visit record, as a file of moves.

use super::arguments::MovesArguments;
use super::output::{Failure, Output};
use super::source;

/// Prints the moves in the form that `play --moves` reads.
pub(crate) fn run(arguments: &MovesArguments, output: &mut Output) -> Result<(), Failure> {
    let text = source::read(&arguments.record)?;
    let moves = visit::moves_in(&text, &arguments.record.display().to_string())
        .map_err(|problems| Failure::Problems(source::listed(&problems)))?;
    output.line(visit::moves_text(&moves).trim_end())
}

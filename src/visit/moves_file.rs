//! Moves files: a RON list of moves, written by people.

use call::OLD_NAMES;
use ron_file::{Manner, OldName, Reading, write_line};

use crate::action::Move;
use crate::event::MOST_EVENTS;
use crate::file_mistake::{FileMistake, FileProblems};
use crate::moves::{job, own_move};

/// How moves and records are read.
pub(crate) const MANNER: Manner<'static> = Manner { examples: &[], old_names: OLD_NAMES };

/// Reads a moves file: a RON list of [`Move`]. All mistakes are reported at once, each with line and column.
///
/// # Errors
/// What is wrong: unknown names with what is allowed, and quantities that nothing on a site can have.
pub fn read_moves(text: &str, file_name: &str) -> Result<Vec<Move>, FileProblems> {
    read_moves_with_notes(text, file_name).map(|(moves, _)| moves)
}

/// The same, with the names of older files that were read as those of today.
///
/// # Errors
/// Those of [`read_moves`].
pub fn read_moves_with_notes(text: &str, file_name: &str) -> Result<(Vec<Move>, Vec<OldName>), FileProblems> {
    let mut reading = Reading::<FileMistake>::new(text);
    let moves = reading.value::<Vec<Move>>(&MANNER).unwrap_or_default();
    if moves.len() > MOST_EVENTS {
        reading.report("", FileMistake::TooManyEvents { events: moves.len(), most: MOST_EVENTS });
    }
    for (index, action) in moves.iter().take(MOST_EVENTS).enumerate() {
        if let Some(wrong) = check(action) {
            reading.report(&format!("[{index}]"), wrong);
        }
    }
    let old_names = reading.finish(file_name)?;
    Ok((moves, old_names))
}

/// Moves as the text of a moves file.
pub fn moves_text(moves: &[Move]) -> String {
    ron_file::write(moves, 1)
}

/// Quantities that no site could allow. What depends on the site is answered during the visit.
fn check(action: &Move) -> Option<FileMistake> {
    if let Some(value) = action.row().values.into_iter().find(|value| !value.is_allowed()) {
        return Some(value.impossible());
    }
    match action {
        Move::MeasureVoltage { from, to }
        | Move::MeasureResistance { from, to }
        | Move::MeasureCapacitance { from, to }
            if from == to =>
        {
            Some(FileMistake::SameTerminal { terminal: write_line(from) })
        }
        Move::Repair(work) if job(*work).is_none() => {
            Some(FileMistake::OwnMove { work: write_line(work), instead: own_move(*work).to_owned() })
        }
        Move::Declare(declaration) if declaration.evidence.contains(&0) => Some(FileMistake::NoEntry),
        _ => None,
    }
}

//! Moves files: a RON list of moves, written by people.

use call::Problem;

use crate::moves::{Move, job, own_move};

/// Reads a moves file: a RON list of [`Move`]. All mistakes are reported at once, each with line and column.
///
/// # Errors
/// What is wrong: unknown names with what is allowed, and quantities that nothing on a site can have.
pub fn read_moves(text: &str, file_name: &str) -> Result<Vec<Move>, Vec<Problem>> {
    let parsed = call::parse_ron_on::<Vec<Move>>(text, file_name, &[]);
    let mut problems = parsed.problems.clone();
    // With mistakes of writing, items may have been left out and places shifted: only written values are checked.
    if problems.is_empty()
        && let Some(moves) = &parsed.value
    {
        for (index, action) in moves.iter().enumerate() {
            if let Some(wrong) = check(action) {
                problems.extend(parsed.problem_at(
                    &format!("[{index}]"),
                    wrong.message,
                    wrong.allowed,
                    wrong.hint.to_owned(),
                ));
            }
        }
    }
    match parsed.value {
        Some(moves) if problems.is_empty() => Ok(moves),
        _ => Err(problems),
    }
}

/// Moves as the text of a moves file.
pub fn moves_text(moves: &[Move]) -> String {
    let config = ron::ser::PrettyConfig::new().struct_names(false).depth_limit(1);
    let text = ron::ser::to_string_pretty(moves, config)
        .expect("moves are numbers, text and plain enumerations, which RON can always write");
    text + "\n"
}

struct Wrong {
    message: String,
    allowed: String,
    hint: &'static str,
}

/// Quantities that no site could allow. What depends on the site is answered during the visit.
fn check(action: &Move) -> Option<Wrong> {
    if let Some(value) = action.row().values.into_iter().find(|value| !value.is_allowed()) {
        return Some(Wrong {
            message: value.of.wrong(value.si),
            allowed: value.of.allowed(),
            hint: value.of.hint(),
        });
    }
    match action {
        Move::MeasureVoltage { from, to }
        | Move::MeasureResistance { from, to }
        | Move::MeasureCapacitance { from, to }
            if from == to =>
        {
            Some(Wrong {
                message: format!("both probes are on {from:?}"),
                allowed: "two different terminals".to_owned(),
                hint: "give another terminal as `to`",
            })
        }
        Move::Repair(work) if job(*work).is_none() => Some(Wrong {
            message: format!("Repair does not take {work:?}"),
            allowed: "work that has no move of its own; for this one, write the move named below".to_owned(),
            hint: own_move(*work),
        }),
        Move::Declare(declaration) if declaration.evidence.contains(&0) => Some(Wrong {
            message: "entry 0 is cited".to_owned(),
            allowed: "notebook entries from 1".to_owned(),
            hint: "the first entry of the notebook is number 1",
        }),
        _ => None,
    }
}

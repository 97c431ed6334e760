//! Moves files: a RON list of moves, written by people.

use call::OLD_NAMES;
use quantity::{Amount, Bounds};
use ron_file::{Manner, OldName, Reading, write_line};

use crate::file_mistake::{Asked, FileMistake, FileProblems};
use crate::limits::{
    CHARGE_TARGET_K, CYLINDER_KG, RECOVERY_PA, SCALE_TELLS_KG, SET_POINT_K, TEST_PRESSURE_PA, VACUUM_PA,
    WAIT_S, is_charge_target, is_cylinder_mass, is_recovery_depth, is_set_point, is_test_pressure, is_vacuum,
    is_wait,
};
use crate::mend::{job, own_move};
use crate::moves::Move;
use crate::record::MOST_EVENTS;

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
    let impossible = |is_possible: bool, asked: Asked, amount: Amount, bounds: Bounds| {
        let (low, high) = bounds.ends(amount.unit);
        (!is_possible).then_some(FileMistake::Impossible { asked, amount, low, high })
    };
    match action {
        Move::Wait(time) | Move::StandingTest(time) | Move::DecayTest(time) => {
            impossible(is_wait(time.seconds()), Asked::Wait, (*time).into(), WAIT_S)
        }
        Move::EvacuateTo { within, .. } | Move::ChargeTo { within, .. } if !is_wait(within.seconds()) => {
            impossible(false, Asked::Limit, (*within).into(), WAIT_S)
        }
        Move::PressurizeWithNitrogen(pressure) => impossible(
            is_test_pressure(pressure.gauge_pa()),
            Asked::TestPressure,
            (*pressure).into(),
            TEST_PRESSURE_PA,
        ),
        Move::RecoverTo(pressure) => {
            let is_possible = is_recovery_depth(pressure.absolute_pa());
            impossible(is_possible, Asked::Recovery, (*pressure).into(), RECOVERY_PA)
        }
        Move::EvacuateTo { target, .. } => {
            impossible(is_vacuum(target.absolute_pa()), Asked::Vacuum, (*target).into(), VACUUM_PA)
        }
        Move::ChargeTo { target, .. } if !is_charge_target(target.kelvin()) => {
            impossible(false, Asked::ChargeTarget, (*target).into(), CHARGE_TARGET_K)
        }
        Move::WeighIn(mass)
        | Move::AddRefrigerant(mass)
        | Move::AddVapor(mass)
        | Move::RemoveRefrigerant(mass)
        | Move::ChargeTo { at_most: mass, .. } => impossible(
            is_cylinder_mass(mass.kilograms()),
            Asked::Refrigerant,
            (*mass).into(),
            Bounds::new(SCALE_TELLS_KG, CYLINDER_KG),
        ),
        Move::SetThermostat { set_point, .. } => {
            impossible(is_set_point(set_point.kelvin()), Asked::SetPoint, (*set_point).into(), SET_POINT_K)
        }
        Move::MeasureVoltage { from, to }
        | Move::MeasureResistance { from, to }
        | Move::MeasureCapacitance { from, to }
            if from == to =>
        {
            Some(FileMistake::SameTerminal { terminal: write_line(from) })
        }
        Move::Mend(work) if job(*work).is_none() => {
            Some(FileMistake::OwnMove { work: write_line(work), instead: own_move(*work).to_owned() })
        }
        Move::Declare(declaration) if declaration.evidence.contains(&0) => Some(FileMistake::NoEntry),
        _ => None,
    }
}

//! Moves files: a RON list of moves, written by people.

use call::Problem;

use crate::limits::{
    is_charge_target, is_cylinder_mass, is_recovery_depth, is_set_point, is_test_pressure, is_vacuum, is_wait,
};
use crate::mend::{job, own_move};
use crate::moves::Move;

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
                    wrong.allowed.to_owned(),
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
    allowed: &'static str,
    hint: &'static str,
}

/// Quantities that no site could allow. What depends on the site is answered during the visit.
fn check(action: &Move) -> Option<Wrong> {
    match action {
        Move::Wait(duration) | Move::StandingTest(duration) | Move::DecayTest(duration) => {
            let seconds = duration.seconds();
            (!is_wait(seconds)).then(|| Wrong {
                message: format!("a wait of {seconds} s is not allowed"),
                allowed: "more than 0 and up to 12 h",
                hint: "split a longer wait into several",
            })
        }
        Move::EvacuateTo { within, .. } | Move::ChargeTo { within, .. } if !is_wait(within.seconds()) => {
            Some(Wrong {
                message: format!("a limit of {} s is not allowed", within.seconds()),
                allowed: "more than 0 and up to 12 h",
                hint: "write the time with its unit, for example Hours(1)",
            })
        }
        Move::PressurizeWithNitrogen(pressure) if !is_test_pressure(pressure.gauge_pa()) => Some(Wrong {
            message: format!("a test pressure of {:.0} Pa gauge is not allowed", pressure.gauge_pa()),
            allowed: "more than 0 and up to 650 psi (4.5 MPa) gauge",
            hint: "write the pressure with its unit, for example PoundsGauge(250)",
        }),
        Move::RecoverTo(pressure) if !is_recovery_depth(pressure.absolute_pa()) => Some(Wrong {
            message: format!("a recovery to {:.0} Pa absolute is not allowed", pressure.absolute_pa()),
            allowed: "0 to 28 inches of mercury below atmospheric pressure",
            hint: "write the pressure with its unit, for example InchesOfVacuum(10)",
        }),
        Move::EvacuateTo { target, .. } if !is_vacuum(target.absolute_pa()) => Some(Wrong {
            message: format!("a vacuum of {:.1} Pa is not allowed", target.absolute_pa()),
            allowed: "25 micron (3 Pa) up to atmospheric pressure",
            hint: "write the pressure with its unit, for example Microns(500)",
        }),
        Move::ChargeTo { target, .. } if !is_charge_target(target.kelvin()) => Some(Wrong {
            message: format!("a target of {:.1} K is not allowed", target.kelvin()),
            allowed: "1 to 72 °F (0.5 to 40 °C) of difference",
            hint: "write the difference with its unit, for example FahrenheitDifference(10)",
        }),
        Move::WeighIn(mass)
        | Move::AddRefrigerant(mass)
        | Move::AddVapor(mass)
        | Move::RemoveRefrigerant(mass)
        | Move::ChargeTo { at_most: mass, .. } => {
            let mass_kg = mass.kilograms();
            (!is_cylinder_mass(mass_kg)).then(|| Wrong {
                message: format!("a mass of {mass_kg} kg is not allowed"),
                allowed: "what a scale tells, 5 g (0.2 oz), up to 11.3 kg (25 lb)",
                hint: "write the mass with its unit, for example Ounces(8)",
            })
        }
        Move::SetThermostat { set_point, .. } => {
            let set_point_k = set_point.kelvin();
            (!is_set_point(set_point_k)).then(|| Wrong {
                message: format!(
                    "a set point of {:.1} °C is not allowed",
                    media::units::celsius_from_kelvin(set_point_k)
                ),
                allowed: "50 to 90 °F (10 to 32 °C)",
                hint: "write the temperature with its unit, for example Fahrenheit(75)",
            })
        }
        Move::MeasureVoltage { from, to }
        | Move::MeasureResistance { from, to }
        | Move::MeasureCapacitance { from, to }
            if from == to =>
        {
            Some(Wrong {
                message: format!("both probes are on {from:?}"),
                allowed: "two different terminals",
                hint: "give another terminal as `to`",
            })
        }
        Move::Mend(work) if job(*work).is_none() => Some(Wrong {
            message: format!("Mend does not take {work:?}"),
            allowed: "work that has no move of its own; for this one, write the move named below",
            hint: own_move(*work),
        }),
        Move::Declare(declaration) if declaration.evidence.contains(&0) => Some(Wrong {
            message: "entry 0 is cited".to_owned(),
            allowed: "notebook entries from 1",
            hint: "the first entry of the notebook is number 1",
        }),
        _ => None,
    }
}

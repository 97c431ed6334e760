//! Looking, asking, reading plates.

use call::Milestone;
use plant::Metering;

use super::{Step, act, pass};
use crate::label::mass;
use crate::moves::Move;
use crate::timing::base_s;

/// Metres in a foot, exact.
const METRES_PER_FOOT: f64 = 0.3048;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    let done = match action {
        Move::Ask(_) => act(|visit, task| {
            let Move::Ask(question) = task.action else { return };
            let answer = visit.call.answers.iter().find(|(asked, _)| *asked == question);
            task.note(
                answer
                    .map_or("\"I couldn't tell you, sorry.\"".to_owned(), |(_, said)| format!("\"{said}\"")),
            );
        }),
        Move::ReadDataPlate => act(|visit, task| {
            let system = visit.plant.system();
            let charge_oz = libm::round(media::units::oz_from_kg(system.plate_charge_kg));
            let pounds = libm::floor(charge_oz / 16.0);
            task.note(format!(
                "Refrigerant: {}. Factory charge with line set: {} {} ({}).",
                system.refrigerant.label(),
                mass(call::Mass::Pounds(pounds)),
                mass(call::Mass::Ounces(charge_oz - 16.0 * pounds)),
                mass(call::Mass::Kilograms(system.plate_charge_kg)),
            ));
            let plate = system.data_plate();
            task.note(format!(
                "That charge is for {:.0} ft ({:.1} m) of line set; each foot more takes {:.2} oz ({:.0} g/m).",
                plate.line_length_m / METRES_PER_FOOT,
                plate.line_length_m,
                media::units::oz_from_kg(plate.charge_adder_kg_m * METRES_PER_FOOT),
                1.0e3 * plate.charge_adder_kg_m,
            ));
            task.note(match system.metering {
                Metering::Txv { .. } => format!(
                    "Metering device: expansion valve. Target subcooling at the liquid valve: {:.0} °F ({:.1} K).",
                    media::units::fahrenheit_difference_from_kelvin_difference(system.plate_subcooling_k),
                    system.plate_subcooling_k,
                ),
                Metering::Orifice { .. } => {
                    "Metering device: fixed orifice. Charge to the target superheat for the conditions.".to_owned()
                }
            });
            task.note(format!(
                "High-pressure switch opens at {:.0} psig.",
                media::units::psig_from_pa(
                    system.controls.high_pressure_opens_pa,
                    media::units::STANDARD_ATMOSPHERE_PA
                ),
            ));
        }),
        _ => act(|visit, task| {
            visit.look(task);
            if task.reached.contains(&Milestone::CoilThawed) {
                visit.site.coil_seen_clear = true;
            }
        }),
    };
    vec![pass(base_s(action)), done]
}

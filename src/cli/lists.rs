//! Lists of what is built in.

use plant::{FaultKind, LeakPlace, System};
use words::Words;

use super::output::{Failure, Output};

/// Calls: name and title.
pub(crate) fn calls(output: &mut Output) -> Result<(), Failure> {
    let calls = session::cards();
    let words = Words::default();
    let width = calls.iter().map(|card| card.id.len()).max().unwrap_or(0);
    for card in calls {
        output.line(&format!("{:width$}  {}", card.id, words.own(&card.title)))?;
    }
    Ok(())
}

/// Fault kinds: name, what a technician calls it, places.
pub(crate) fn faults(output: &mut Output) -> Result<(), Failure> {
    let words = Words::default();
    let width = FaultKind::ALL.iter().map(|kind| kind.kebab().len()).max().unwrap_or(0);
    for kind in FaultKind::ALL {
        output.line(&format!("{:width$}  {}", kind.kebab(), words.say(&kind)))?;
        if kind.needs_place() {
            for place in LeakPlace::ALL {
                let at = words.fill("cli-at-place", &[("place", place.kebab().to_owned())]);
                output.line(&format!("{:width$}    {at}", ""))?;
            }
        }
    }
    output.line("")?;
    let examples = "loaded-filter=0.5, refrigerant-leak@indoor-coil=0.3".to_owned();
    output.line(&words.fill("cli-fault-example", &[("examples", examples)]))
}

/// Systems: name and data plate.
pub(crate) fn systems(output: &mut Output) -> Result<(), Failure> {
    let words = Words::default();
    for name in System::names() {
        let plate = System::built_in(name).map_or_else(String::new, |system| {
            let (charge, subcooling) = (
                words.units.mass(system.plate_charge_kg),
                words.units.temperature_difference(system.plate_subcooling_k),
            );
            words.fill(
                "cli-plate",
                &[
                    ("refrigerant", words.say(&system.refrigerant)),
                    ("charge", charge),
                    ("subcooling", subcooling),
                ],
            )
        });
        output.line(&format!("{name}  {plate}"))?;
    }
    Ok(())
}

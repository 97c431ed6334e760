//! Lists of what is built in.

use plant::{FaultKind, LeakPlace, System};

use super::names;
use super::output::{Failure, Output};

/// Calls: name and title.
pub(crate) fn calls(output: &mut Output) -> Result<(), Failure> {
    let calls = call::built_in();
    let width = calls.iter().map(|(id, _)| id.len()).max().unwrap_or(0);
    for (id, text) in calls {
        let title = match call::read(text, id) {
            Ok(call) => call.title,
            Err(problems) => super::source::listed(&problems),
        };
        output.line(&format!("{id:width$}  {title}"))?;
    }
    Ok(())
}

/// Fault kinds: name, what a technician calls it, places.
pub(crate) fn faults(output: &mut Output) -> Result<(), Failure> {
    let width = FaultKind::ALL.iter().map(|kind| names::fault(*kind).len()).max().unwrap_or(0);
    for kind in FaultKind::ALL {
        output.line(&format!("{:width$}  {}", names::fault(kind), kind.label()))?;
        if kind.needs_place() {
            for place in LeakPlace::ALL {
                output.line(&format!("{:width$}    at {}", "", names::place(place)))?;
            }
        }
    }
    output.line("")?;
    output.line("Written with a severity from 0 to 1: loaded-filter=0.5, refrigerant-leak@indoor-coil=0.3.")
}

/// Systems: name and data plate.
pub(crate) fn systems(output: &mut Output) -> Result<(), Failure> {
    for name in System::names() {
        let plate = System::built_in(name).map_or_else(String::new, |system| {
            format!(
                "{}, {:.2} kg, target subcooling {:.1} K",
                system.refrigerant.label(),
                system.plate_charge_kg,
                system.plate_subcooling_k
            )
        });
        output.line(&format!("{name}  {plate}"))?;
    }
    Ok(())
}

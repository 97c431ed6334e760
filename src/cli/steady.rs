//! `rimebench steady`: lets a system settle at held conditions.

use media::{moist_air, units};
use plant::{Fault, Settled, SteadyConditions, System, settle};
use serde_json::{Map, Value};

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::quantity::Moisture;
use super::{Format, SteadyArguments, UnitSystem};

/// Prints what instruments would show once the plant has settled.
pub(crate) fn run(arguments: &SteadyArguments, output: &mut Output) -> Result<(), Failure> {
    let system = System::built_in(&arguments.system).ok_or_else(|| {
        let known = System::names();
        let nearest = call::nearest(&arguments.system, &known)
            .map_or_else(String::new, |near| format!(" (did you mean {near}?)"));
        Failure::Usage(format!(
            "error: there is no system \"{}\"{nearest}; known are {}",
            arguments.system,
            known.join(", ")
        ))
    })?;
    let conditions = conditions(arguments)?;
    let settled = settle(&system, &conditions).map_err(plant_failure)?;
    let rows = rows(&settled, arguments.units);
    match arguments.format {
        Format::Json => {
            let object: Map<String, Value> = rows
                .into_iter()
                .map(|row| (row.key.to_owned(), row.json()))
                .chain(std::iter::once(("settled".to_owned(), Value::Bool(settled.is_steady))))
                .collect();
            let text = serde_json::to_string_pretty(&object)
                .map_err(|error| Failure::Problems(format!("error: {error}")))?;
            output.line(&text)
        }
        Format::Text => {
            for row in rows {
                output.line(&row.text())?;
            }
            if !settled.is_steady {
                output.line("The plant did not come to rest: it cycles, or ice keeps building.")?;
            }
            Ok(())
        }
    }
}

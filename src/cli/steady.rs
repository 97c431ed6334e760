//! `rimebench steady`: lets a system settle at held conditions.

use media::{moist_air, units};
use plant::{Fault, SteadyConditions, System, settle};
use serde_json::{Map, Value};

use super::output::{Failure, Output};
use super::play::plant_failure;
use super::quantity::{IndoorAir, Moisture};
use super::steady_rows::rows;
use super::{Format, SteadyArguments};

/// Longest plant time that is spent on settling, s: a coil that ices never comes to rest.
const TIME_MAX_S: f64 = 3.0 * 3600.0;
/// Range of outdoor air that the tables and the plant are good for, K: -25 to 60 °C.
const OUTDOOR_K: (f64, f64) = (248.15, 333.15);
/// Range of return air, K: 5 to 45 °C.
const INDOOR_K: (f64, f64) = (278.15, 318.15);
/// Range of charge over the data plate's charge; above it the condenser is full of liquid.
const CHARGE_SHARE: (f64, f64) = (0.05, 1.45);

/// Prints what instruments would show once the plant has settled.
pub(crate) fn run(arguments: &SteadyArguments, output: &mut Output) -> Result<(), Failure> {
    let system = system(&arguments.system)?;
    let conditions = conditions(arguments)?;
    let settled = settle(&system, &conditions).map_err(plant_failure)?;
    let rows = rows(&settled.readout, arguments.units);
    match arguments.format {
        Format::Json => {
            let mut object = Map::new();
            object.insert("system".to_owned(), Value::String(system.name));
            object.insert("steady".to_owned(), Value::Bool(settled.steady));
            object.insert("plant_time_s".to_owned(), settled.time_s.into());
            object.extend(rows.iter().map(|row| (row.key(), row.json())));
            let text = serde_json::to_string_pretty(&object).map_err(|error| {
                Failure::Problems(format!("error: the output could not be written: {error}"))
            })?;
            output.line(&text)
        }
        Format::Text => {
            output.line(&system.name)?;
            for row in rows {
                output.line(&row.text())?;
            }
            if !settled.steady {
                output.line("Not at rest: it hunts, cycles on a protection, or ice keeps building.")?;
            }
            Ok(())
        }
    }
}

fn system(name: &str) -> Result<System, Failure> {
    System::built_in(name).ok_or_else(|| {
        let known = System::names();
        let nearest =
            call::nearest(name, &known).map_or_else(String::new, |near| format!(" (did you mean {near}?)"));
        Failure::Usage(format!(
            "error: there is no system \"{name}\"{nearest}; known are {}",
            known.join(", ")
        ))
    })
}

fn conditions(arguments: &SteadyArguments) -> Result<SteadyConditions, Failure> {
    within("--outdoor", arguments.outdoor.kelvin, OUTDOOR_K)?;
    within("--indoor", arguments.indoor.dry_bulb_k, INDOOR_K)?;
    if !(CHARGE_SHARE.0..=CHARGE_SHARE.1).contains(&arguments.charge) {
        return Err(Failure::Usage(format!(
            "error: --charge {} is not between {} and {} of the data plate's charge",
            arguments.charge, CHARGE_SHARE.0, CHARGE_SHARE.1
        )));
    }
    Ok(SteadyConditions {
        outdoor_k: arguments.outdoor.kelvin,
        indoor_dry_bulb_k: arguments.indoor.dry_bulb_k,
        indoor_humidity_ratio: humidity_ratio(&arguments.indoor),
        charge_share: arguments.charge,
        faults: arguments
            .faults
            .iter()
            .map(|fault| Fault {
                kind: fault.kind,
                place: fault.place,
                severity: fault.severity,
                onset_s: 0.0,
            })
            .collect(),
        time_max_s: TIME_MAX_S,
    })
}

/// Moisture of the return air at standard atmospheric pressure, kg/kg dry air; never below none.
fn humidity_ratio(indoor: &IndoorAir) -> f64 {
    let dry_bulb_c = units::celsius_from_kelvin(indoor.dry_bulb_k);
    let ratio = match indoor.moisture {
        Moisture::WetBulb(wet_bulb_k) => moist_air::humidity_ratio_from_wet_bulb(
            dry_bulb_c,
            units::celsius_from_kelvin(wet_bulb_k),
            units::STANDARD_ATMOSPHERE_PA,
        ),
        Moisture::RelativeHumidity(share) => {
            moist_air::humidity_ratio_from_relative_humidity(dry_bulb_c, share, units::STANDARD_ATMOSPHERE_PA)
        }
    };
    ratio.max(0.0)
}

fn within(option: &str, kelvin: f64, range_k: (f64, f64)) -> Result<(), Failure> {
    if (range_k.0..=range_k.1).contains(&kelvin) {
        return Ok(());
    }
    let celsius = units::celsius_from_kelvin;
    let fahrenheit = units::fahrenheit_from_kelvin;
    Err(Failure::Usage(format!(
        "error: {option} {:.1}C is not between {:.0}C and {:.0}C ({:.0}F and {:.0}F)",
        celsius(kelvin),
        celsius(range_k.0),
        celsius(range_k.1),
        fahrenheit(range_k.0),
        fahrenheit(range_k.1)
    )))
}

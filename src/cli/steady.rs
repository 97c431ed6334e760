//! `rimebench steady`: lets a system settle at held conditions.

use media::{moist_air, units};
use plant::{Fault, SteadyConditions, System, solve_steady_state};
use quantity::typed::{IndoorAir, Moisture};
use quantity::{Bounds, Unit};
use serde_json::{Map, Value};
use words::Words;

use super::arguments::{Format, SteadyArguments};
use super::output::{Failure, Output};
use super::play::plant_failure;
use super::quantity::FaultArgument;
use super::steady_course;
use super::steady_rows::rows;

/// Longest plant time that is spent on settling, s: a coil that goes on icing and a circuit that leaks never come to rest.
const TIME_MAX_S: f64 = 3.0 * 3600.0;
/// Range of outdoor air that the tables and the plant are good for, K: -25 to 60 °C.
const OUTDOOR_K: Bounds = Bounds::new(248.15, 333.15);
/// Range of return air, K: 5 to 45 °C.
const INDOOR_K: Bounds = Bounds::new(278.15, 318.15);
/// What conversions between scales may be off by, K: an end of a range is part of it in every scale.
const ROUNDING_K: f64 = 1.0e-6;
/// Range of charge over the data plate's charge; above it the condenser is full of liquid.
const CHARGE_SHARE: (f64, f64) = (0.05, 1.45);

/// Prints what instruments would show once the plant has settled.
pub(crate) fn run(arguments: &SteadyArguments, output: &mut Output) -> Result<(), Failure> {
    let system = system(&arguments.system)?;
    let conditions = conditions(arguments, &system)?;
    let settled = solve_steady_state(&system, &conditions).map_err(plant_failure)?;
    let rows = rows(&settled, arguments.units);
    match arguments.format {
        Format::Json => {
            let mut object = Map::new();
            object.insert("system".to_owned(), Value::String(system.name));
            object.insert("steady".to_owned(), Value::Bool(settled.steady));
            object.insert("plant_time_s".to_owned(), settled.time_s.into());
            object.extend(rows.iter().map(|row| (row.key(), row.json())));
            object.extend(steady_course::json(&settled, arguments.units));
            let text = serde_json::to_string_pretty(&object).map_err(|error| {
                Failure::Problems(format!("error: the output could not be written: {error}"))
            })?;
            output.line(&text)
        }
        Format::Text => {
            output.line(&system.name)?;
            for row in rows {
                output.line(&row.text(Words::from(arguments.units)))?;
            }
            for sentence in steady_course::sentences(&settled, arguments.units) {
                output.line(&sentence)?;
            }
            Ok(())
        }
    }
}

fn system(name: &str) -> Result<System, Failure> {
    System::built_in(name).ok_or_else(|| {
        let known = System::names();
        let nearest = ron_file::nearest(name, &known)
            .first()
            .map_or_else(String::new, |near| format!(" (did you mean {near}?)"));
        Failure::Usage(format!(
            "error: there is no system \"{name}\"{nearest}; known are {}",
            known.join(", ")
        ))
    })
}

fn conditions(arguments: &SteadyArguments, system: &System) -> Result<SteadyConditions, Failure> {
    within("--outdoor", arguments.outdoor.si(), OUTDOOR_K)?;
    within("--indoor", arguments.indoor.dry_bulb.si(), INDOOR_K)?;
    if !(CHARGE_SHARE.0..=CHARGE_SHARE.1).contains(&arguments.charge) {
        return Err(Failure::Usage(format!(
            "error: --charge {} is not between {} and {} of the data plate's charge",
            arguments.charge, CHARGE_SHARE.0, CHARGE_SHARE.1
        )));
    }
    dry_enough(&arguments.indoor)?;
    possible(&arguments.faults, system)?;
    Ok(SteadyConditions {
        outdoor_k: arguments.outdoor.si(),
        indoor_dry_bulb_k: arguments.indoor.dry_bulb.si(),
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

/// Below the wet bulb of air without any moisture there is no air.
fn dry_enough(indoor: &IndoorAir) -> Result<(), Failure> {
    let Moisture::WetBulb(wet_bulb) = indoor.moisture else { return Ok(()) };
    let (wet_bulb_k, dry_bulb_k) = (wet_bulb.si(), indoor.dry_bulb.si());
    let dry_bulb_c = units::celsius_from_kelvin(dry_bulb_k);
    let lowest_c = moist_air::wet_bulb_c(dry_bulb_c, 0.0, units::STANDARD_ATMOSPHERE_PA);
    if units::celsius_from_kelvin(wet_bulb_k) >= lowest_c - ROUNDING_K {
        return Ok(());
    }
    Err(Failure::Usage(format!(
        "error: --indoor: a wet bulb of {:.1}F is below that of dry air at {:.1}F, which is {:.1}F",
        units::fahrenheit_from_kelvin(wet_bulb_k),
        units::fahrenheit_from_kelvin(dry_bulb_k),
        units::fahrenheit_from_kelvin(units::kelvin_from_celsius(lowest_c))
    )))
}

/// Each fault once, and only of parts that the system has.
fn possible(faults: &[FaultArgument], system: &System) -> Result<(), Failure> {
    for (at, fault) in faults.iter().enumerate() {
        let name = fault.kind.kebab();
        if !fault.kind.is_possible_in(system) {
            return Err(Failure::Usage(format!(
                "error: --fault {name}: {} has no part that this could happen to",
                system.name
            )));
        }
        if faults[..at].iter().any(|other| (other.kind, other.place) == (fault.kind, fault.place)) {
            return Err(Failure::Usage(format!("error: --fault {name} is given twice")));
        }
    }
    Ok(())
}

/// Moisture of the return air at standard atmospheric pressure, kg/kg dry air; never below none.
fn humidity_ratio(indoor: &IndoorAir) -> f64 {
    let dry_bulb_c = units::celsius_from_kelvin(indoor.dry_bulb.si());
    let ratio = match indoor.moisture {
        Moisture::WetBulb(wet_bulb) => moist_air::humidity_ratio_from_wet_bulb(
            dry_bulb_c,
            units::celsius_from_kelvin(wet_bulb.si()),
            units::STANDARD_ATMOSPHERE_PA,
        ),
        Moisture::RelativeHumidity(share) => {
            moist_air::humidity_ratio_from_relative_humidity(dry_bulb_c, share, units::STANDARD_ATMOSPHERE_PA)
        }
    };
    ratio.max(0.0)
}

fn within(option: &str, kelvin: f64, range_k: Bounds) -> Result<(), Failure> {
    if range_k.holds(kelvin) {
        return Ok(());
    }
    let celsius = |kelvin| Unit::Celsius.number_of(kelvin);
    let fahrenheit = |kelvin| Unit::Fahrenheit.number_of(kelvin);
    Err(Failure::Usage(format!(
        "error: {option} {:.1}C is not between {:.0}C and {:.0}C ({:.0}F and {:.0}F)",
        celsius(kelvin),
        celsius(range_k.low),
        celsius(range_k.high),
        fahrenheit(range_k.low),
        fahrenheit(range_k.high)
    )))
}

//! What things are called on screen, and entries of the notebook as sentences. Names come from `visit`.

use report::doubt_then;
use visit::{
    ChargeBy, Entry, Measured, Observation, Outcome, PipePoint, Place, Reading, Trust, Verification,
};

use crate::units::{OnScreen, Units, span};

/// Letter of a place in list and drawing, and its key: A to L.
pub fn letter(place: Place) -> char {
    let index = Place::ALL.iter().position(|&listed| listed == place).unwrap_or(0);
    char::from(b'A' + index as u8)
}

/// Name of a place, as a heading.
pub fn place(place: Place) -> String {
    first_upper(place.label())
}

/// One line on what is at a place.
pub fn place_note(place: Place) -> &'static str {
    match place {
        Place::Thermostat => "On the hallway wall.",
        Place::ReturnGrille => "Where room air enters the equipment.",
        Place::SupplyRegister => "Where cooled air enters the room.",
        Place::FilterSlot => "Between return box and coil.",
        Place::Blower => "Wheel and motor, behind the blower panel.",
        Place::IndoorCoil => "Coil and drain pan, behind the panel of the coil cabinet.",
        Place::MeteringDevice => "Valve and sensing bulb, inside the coil cabinet.",
        Place::LineSet => "Suction line (thick, insulated) and liquid line (thin).",
        Place::Drier => "In the liquid line, beside the outdoor unit.",
        Place::OutdoorUnit => "Compressor, condenser, fan, service ports, data plate.",
        Place::OutdoorDisconnect => "On the outer wall, within sight of the unit.",
        Place::ControlBoard => "R, C, Y and G at the air handler, behind the blower panel.",
    }
}

/// A value of a quantity (SI in) with its unit.
pub fn value(quantity: Measured, value: f64, units: Units) -> String {
    match quantity {
        Measured::GaugePressure(_) => units.gauge_pressure(value),
        Measured::PipeTemperature(_) | Measured::AirTemperature(..) => units.temperature(value),
        Measured::Voltage(..) => format!("{value:.1} V"),
        Measured::Resistance(..) => format!("{value:.1} ohm"),
        Measured::Capacitance(..) => format!("{:.1} µF", value * 1.0e6),
        Measured::Current(_) => format!("{value:.2} A"),
        Measured::RecoveredMass | Measured::AddedMass => units.weighed(value),
        Measured::Vacuum => units.vacuum(value),
    }
}

/// An uncertainty of a quantity (SI in) with its unit.
pub fn uncertainty(quantity: Measured, one_sigma: f64, units: Units) -> String {
    match quantity {
        Measured::GaugePressure(_) => units.pressure_difference(one_sigma),
        Measured::PipeTemperature(_) | Measured::AirTemperature(..) => {
            units.temperature_difference(one_sigma)
        }
        // These have no zero of their own: a difference is written like a value.
        Measured::Voltage(..)
        | Measured::Resistance(..)
        | Measured::Capacitance(..)
        | Measured::Current(_)
        | Measured::RecoveredMass
        | Measured::AddedMass
        | Measured::Vacuum => value(quantity, one_sigma, units),
    }
}

/// The same in a word, for tight rows.
pub fn doubt_in_a_word(trust: Trust) -> &'static str {
    match trust {
        Trust::Sound => "settled",
        Trust::Unsettled => "moving",
        Trust::CompressorStopped => "stopped",
        Trust::IceOnCoil => "ice",
    }
}

/// Name of a display in a tight row.
pub fn display(quantity: Measured) -> String {
    match quantity {
        Measured::PipeTemperature(point) => match point {
            PipePoint::SuctionAtServiceValve => "Suction at valve",
            PipePoint::SuctionAtBulb => "Suction at bulb",
            PipePoint::LiquidAtServiceValve => "Liquid at valve",
            PipePoint::LiquidBeforeDrier => "Liquid before drier",
            PipePoint::LiquidAfterDrier => "Liquid after drier",
            PipePoint::LiquidAtMeteringDevice => "Liquid at metering",
            PipePoint::Discharge => "Discharge line",
            PipePoint::SensingBulb => "Sensing bulb",
        }
        .to_owned(),
        Measured::AirTemperature(..) => quantity.label().replace(" air,", ""),
        other => other.label(),
    }
}

/// A reading as a line: value with uncertainty. The move above it says what was read.
pub fn reading(reading: &Reading, units: Units) -> String {
    format!(
        "{} ± {}",
        value(reading.quantity, reading.value, units),
        uncertainty(reading.quantity, reading.uncertainty, units)
    )
}

/// Something seen, as a clause without a full stop.
pub fn observation(observation: Observation) -> String {
    let words = match observation {
        Observation::NoIce => "no ice",
        Observation::SomeIce => "frost on part of the coil",
        Observation::BlockOfIce => "the coil is a block of ice",
        Observation::FilterClean => "filter clean",
        Observation::FilterDirty => "filter dirty",
        Observation::FilterMatted => "filter matted shut",
        Observation::FilterCollapsed => "filter collapsed onto the coil",
        Observation::FilterMissing => "no filter in the slot",
        Observation::FilterOnCoil => "filter medium on the coil",
        Observation::BlowerTurning => "blower wheel turning",
        Observation::BlowerStill => "blower wheel standing still",
        Observation::AirStrong => "strong air",
        Observation::AirWeak => "weak air",
        Observation::AirNone => "no air",
        Observation::CompressorRunning => "compressor running",
        Observation::CompressorStill => "compressor standing still",
        Observation::OutdoorFanRunning => "outdoor fan running",
        Observation::OutdoorFanStill => "outdoor fan standing still",
        Observation::BulbInsulated => "bulb strapped and insulated",
        Observation::BulbBare => "bulb bare",
        Observation::OilStain(place) => return format!("oil stain: {}", place.label()),
        Observation::NoOilStain => "no oil stain",
        Observation::LeakFound(place) => return format!("leak found: {}", place.label()),
        Observation::NoLeakFound(place) => return format!("no leak found: {}", place.label()),
        Observation::BulbAnswered => "suction pressure answered to the warm bulb",
        Observation::ChilledBulbClosedValve => "valve closed on the chilled bulb",
        Observation::ChilledBulbDidNotCloseValve => "valve did not close on the chilled bulb",
        Observation::BulbDidNotAnswer => "suction pressure did not answer to the warm bulb",
        Observation::RegistersClosed => "supply registers shut or covered",
        Observation::ReturnDuctCollapsed => "return duct fallen in",
        Observation::CoilFaceMatted => "coil face matted with dirt",
        Observation::BlowerWheelDirty => "blower wheel full of dirt",
        Observation::WheelTurnsFreely => "blower wheel turns freely by hand",
        Observation::WheelStuck => "blower wheel does not turn by hand",
        Observation::BlowerSlow => "blower slow",
        Observation::BlowerHumming => "blower hums and does not turn",
        Observation::OutdoorCoilDirty => "outdoor coil dirty",
        Observation::LiquidLineKinked => "liquid line kinked",
        Observation::SuctionLineKinked => "suction line kinked",
        Observation::OutdoorFanSlow => "outdoor fan slow",
        Observation::OutdoorFanHumming => "outdoor fan hums and does not turn",
        Observation::CompressorHumming => "compressor hums and does not start",
        Observation::FuseBlown => "low-voltage fuse blown",
        Observation::CableChafed => "low-voltage cable chafed at the outdoor unit",
        Observation::FloatSwitchUp => "float switch up",
        Observation::BulbLoose => "bulb loose on the line",
        Observation::ContactorInWithoutCall => "contactor in though nothing calls",
        Observation::NoContinuity(from, to) => {
            return format!("no continuity from {} to {}", from.label(), to.label());
        }
        Observation::NoCapacitance(from, to) => {
            return format!("no capacitance from {} to {}", from.label(), to.label());
        }
        Observation::PartWasFaulty(kind) => {
            return format!("the part was faulty: {}", lower_first(kind.label()));
        }
        Observation::PartWasSound => "the part had been sound",
    };
    words.to_owned()
}

/// What came of an entry, as lines: the reading first, then what was seen or said.
pub fn told(entry: &Entry, units: Units) -> Vec<String> {
    let mut lines = Vec::new();
    match &entry.outcome {
        Outcome::Done => {}
        Outcome::Read(read) => lines.push(reading(read, units)),
        Outcome::Seen(seen) if entry.notes.is_empty() => {
            let clauses: Vec<String> = seen.iter().map(|&one| observation(one)).collect();
            if !clauses.is_empty() {
                lines.push(format!("{}.", first_upper(&clauses.join("; "))));
            }
        }
        Outcome::Seen(_) => {}
        Outcome::Refused(reason) => lines.push(format!("Not possible: {}", lower_first(reason))),
        Outcome::Verified(found) => lines.push(verification(found, units)),
    }
    let refusal = match &entry.outcome {
        Outcome::Refused(reason) => Some(reason),
        _ => None,
    };
    lines.extend(entry.notes.iter().filter(|note| Some(*note) != refusal).cloned());
    if lines.is_empty() {
        lines.push("Done.".to_owned());
    }
    lines
}

/// Why an entry's reading cannot be relied on as far as it could be told then, if it is one and cannot.
pub fn entry_doubt(entry: &Entry) -> Option<&'static str> {
    match &entry.outcome {
        Outcome::Read(read) => doubt_then(read.shown),
        _ => None,
    }
}

fn verification(found: &Verification, units: Units) -> String {
    format!(
        "Ran {} without a stop, {}. {}, {}, temperature split {}, ice on the coil {}.",
        span(found.ran_for_s),
        if found.steady { "steady at the end" } else { "not yet steady" },
        first_upper(&found.superheat.text(ChargeBy::Superheat, |k| units.temperature_difference(k))),
        found.subcooling.text(ChargeBy::Subcooling, |k| units.temperature_difference(k)),
        units.temperature_difference(found.temperature_split_k),
        units.mass(found.frost_mass_kg),
    )
}

/// With a capital first letter.
pub fn first_upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// With a small first letter, unless the first word is an abbreviation.
pub fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    let Some(first) = letters.next() else { return String::new() };
    if letters.clone().next().is_some_and(char::is_uppercase) {
        return text.to_owned();
    }
    first.to_lowercase().chain(letters).collect()
}

/// What a hand on a pipe or in the air would say of a temperature, K.
pub fn feel(temperature_k: f64) -> &'static str {
    // Bands of our own: what people say, not a measurement.
    match temperature_k - 273.15 {
        celsius if celsius < 0.0 => "freezing",
        celsius if celsius < 12.0 => "cold",
        celsius if celsius < 20.0 => "cool",
        celsius if celsius < 30.0 => "mild",
        celsius if celsius < 42.0 => "warm",
        celsius if celsius < 55.0 => "hot",
        _ => "too hot to hold",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::{Move, Port};

    #[test]
    fn letters_are_distinct_and_in_order() {
        let letters: String = Place::ALL.iter().map(|&place| letter(place)).collect();
        assert_eq!(letters, "ABCDEFGHIJKL");
    }

    #[test]
    fn a_reading_says_value_unit_uncertainty_and_doubt() {
        let read = Reading {
            quantity: Measured::GaugePressure(Port::Suction),
            value: 689_475.7,
            uncertainty: 6_894.8,
            trust: Trust::IceOnCoil,
            shown: Trust::IceOnCoil,
            piece: 1,
        };
        let entry = Entry {
            number: 1,
            action: Move::ReadGauge(Port::Suction),
            started_s: 0.0,
            finished_s: 60.0,
            running: visit::Running::default(),
            outcome: Outcome::Read(read),
            notes: vec![],
        };
        assert_eq!(told(&entry, Units::Ip), ["100.0 psig ± 1.0 psi"]);
        assert_eq!(told(&entry, Units::Si), ["689 kPa gauge ± 7 kPa"]);
        assert_eq!(entry_doubt(&entry), Some("ice on the coil when last seen"));
        let Outcome::Read(read) = entry.outcome else { unreachable!("it was made above") };
        let unseen = Entry { outcome: Outcome::Read(Reading { shown: Trust::Sound, ..read }), ..entry };
        assert_eq!(entry_doubt(&unseen), None, "nobody has seen the ice");
    }

    #[test]
    fn capitals_of_abbreviations_stay() {
        assert_eq!(lower_first("TXV stuck"), "TXV stuck");
        assert_eq!(lower_first("The panel is closed."), "the panel is closed.");
    }
}

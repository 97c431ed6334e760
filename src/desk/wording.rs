//! What things are called on screen, and entries of the notebook as sentences. Names come from `visit`.

use call::Call;
use report::doubt_then;
use visit::{Entry, Measured, Outcome, PipePoint, Place, Trust};
use words::Words;

/// Letter of a place in list and drawing, and its key: A to L.
pub fn letter(place: Place) -> char {
    let index = Place::ALL.iter().position(|&listed| listed == place).unwrap_or(0);
    char::from(b'A' + index as u8)
}

/// Name of a place, as a heading.
pub fn place(place: Place, words: Words) -> String {
    words.heading(&place)
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
pub fn display(quantity: Measured, words: Words) -> String {
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
        other => words.heading(&other),
    }
}

/// What came of an entry, as lines; a move that was simply done says so.
pub fn outcome(entry: &Entry, call: &Call, words: Words) -> Vec<String> {
    let lines = words.outcome(entry, call);
    if lines.is_empty() { vec![words.fill("done", &[])] } else { lines }
}

/// Why an entry's reading cannot be relied on as far as it could be told then, if it is one and cannot.
pub fn entry_doubt(entry: &Entry) -> Option<&'static str> {
    match &entry.outcome {
        Outcome::Read(read) => doubt_then(read.shown),
        _ => None,
    }
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

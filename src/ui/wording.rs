//! What things are called on screen, and entries of the notebook as sentences.

use call::Call;
use report::doubt_then;
use visit::{Entry, Measured, Move, Outcome, PipePoint, Place, Trust};
use words::Words;

/// Letter of a place in list and drawing, and its key.
pub fn letter(place: Place) -> char {
    match place {
        Place::Thermostat => 'A',
        Place::ReturnGrille => 'B',
        Place::SupplyRegister => 'C',
        Place::FilterSlot => 'D',
        Place::Blower => 'E',
        Place::ControlBoard => 'F',
        Place::IndoorCoil => 'G',
        Place::MeteringDevice => 'H',
        Place::LineSet => 'I',
        Place::Drier => 'J',
        Place::OutdoorUnit => 'K',
        Place::OutdoorDisconnect => 'L',
    }
}

/// Name of a place with its letter, as a heading.
pub fn lettered(place: Place, words: Words) -> String {
    let letter = letter(place).to_string();
    words.fill("screen-place-lettered", &[("letter", letter), ("place", words.heading(&place))])
}

/// One line on what is at a place.
pub fn place_note(place: Place, words: Words) -> String {
    words.label(match place {
        Place::Thermostat => "screen-place-about-thermostat",
        Place::ReturnGrille => "screen-place-about-return-grille",
        Place::SupplyRegister => "screen-place-about-supply-register",
        Place::FilterSlot => "screen-place-about-filter-slot",
        Place::Blower => "screen-place-about-blower",
        Place::IndoorCoil => "screen-place-about-indoor-coil",
        Place::MeteringDevice => "screen-place-about-metering-device",
        Place::LineSet => "screen-place-about-line-set",
        Place::Drier => "screen-place-about-drier",
        Place::OutdoorUnit => "screen-place-about-outdoor-unit",
        Place::OutdoorDisconnect => "screen-place-about-outdoor-disconnect",
        Place::ControlBoard => "screen-place-about-control-board",
    })
}

/// Whether a reading can be relied on, in a word for tight rows.
pub fn doubt_in_a_word(trust: Trust, words: Words) -> String {
    words.label(match trust {
        Trust::Sound => "screen-trust-settled",
        Trust::Unsettled => "screen-trust-moving",
        Trust::CompressorStopped => "screen-trust-stopped",
        Trust::IceOnCoil => "screen-trust-ice",
    })
}

/// Name of a display in a tight row.
pub fn display(quantity: Measured, words: Words) -> String {
    let Measured::PipeTemperature(point) = quantity else { return words.heading(&quantity) };
    words.label(match point {
        PipePoint::SuctionAtServiceValve => "screen-display-suction-at-service-valve",
        PipePoint::SuctionAtBulb => "screen-display-suction-at-bulb",
        PipePoint::LiquidAtServiceValve => "screen-display-liquid-at-service-valve",
        PipePoint::LiquidBeforeDrier => "screen-display-liquid-before-drier",
        PipePoint::LiquidAfterDrier => "screen-display-liquid-after-drier",
        PipePoint::LiquidAtMeteringDevice => "screen-display-liquid-at-metering-device",
        PipePoint::Discharge => "screen-display-discharge",
        PipePoint::SensingBulb => "screen-display-sensing-bulb",
    })
}

/// Several clauses, each with commas of its own, in a row; nothing for none.
pub fn series(clauses: impl IntoIterator<Item = String>, words: Words) -> Option<String> {
    clauses
        .into_iter()
        .reduce(|before, next| words.fill("screen-series", &[("before", before), ("next", next)]))
}

/// Moves by their names in a row; nothing for none.
pub fn moves<'a>(moves: impl IntoIterator<Item = &'a Move>, words: Words) -> Option<String> {
    series(moves.into_iter().map(|action| quoted(words.say(action), words)), words)
}

/// What somebody said, or the name of a move, in quotation marks.
pub fn quoted(said: String, words: Words) -> String {
    words.fill("screen-quoted", &[("said", said)])
}

/// A unit as it stands behind a number that is typed in.
pub fn suffix(unit: impl Into<String>, words: Words) -> String {
    words.fill("screen-suffix", &[("unit", unit.into())])
}

/// What came of an entry, as lines; a move that was simply done says so.
pub fn outcome(entry: &Entry, call: &Call, words: Words) -> Vec<String> {
    let lines = words.outcome(entry, call);
    if lines.is_empty() { vec![words.fill("done", &[])] } else { lines }
}

/// Why an entry's reading cannot be relied on as far as it could be told then, if it is one and cannot.
pub fn entry_doubt(entry: &Entry, words: Words) -> Option<String> {
    match &entry.outcome {
        Outcome::Read(read) => doubt_then(read.shown, words),
        _ => None,
    }
}

/// What a hand on a pipe or in the air would say of a temperature, K.
pub fn feel(temperature_k: f64, words: Words) -> String {
    // Bands of our own: what people say, not a measurement.
    words.label(match temperature_k - 273.15 {
        celsius if celsius < 0.0 => "screen-feel-freezing",
        celsius if celsius < 12.0 => "screen-feel-cold",
        celsius if celsius < 20.0 => "screen-feel-cool",
        celsius if celsius < 30.0 => "screen-feel-mild",
        celsius if celsius < 42.0 => "screen-feel-warm",
        celsius if celsius < 55.0 => "screen-feel-hot",
        _ => "screen-feel-too-hot",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::{Port, Reading};

    #[test]
    fn letters_are_distinct_and_in_order() {
        let letters: String = Place::ALL.iter().map(|&place| letter(place)).collect();
        assert_eq!(letters, "ABCDEFGHIJKL");
    }

    #[test]
    fn a_reading_in_doubt_says_why_as_far_as_it_was_seen() {
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
        assert_eq!(entry_doubt(&entry, Words::default()).as_deref(), Some("ice on the coil when last seen"));
        let Outcome::Read(read) = entry.outcome else { unreachable!("it was made above") };
        let unseen = Entry { outcome: Outcome::Read(Reading { shown: Trust::Sound, ..read }), ..entry };
        assert_eq!(entry_doubt(&unseen, Words::default()), None, "nobody has seen the ice");
    }
}

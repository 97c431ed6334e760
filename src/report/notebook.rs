//! One notebook entry as a line of text.

use visit::{Bulb, ChargeBy, Entry, Measured, Outcome, Reading, Trust, Verification};

use crate::ruled::doubt_then;
use words::{Units, capacitance, current, resistance, voltage};

/// An entry as written while the visit goes on: number, clock, move, what came of it.
pub fn entry_line(entry: &Entry, arrival_s: f64, units: Units) -> String {
    line(entry, &text_then(entry, units), arrival_s)
}

/// The same as written in the review, where the truth is told.
pub(crate) fn reviewed_line(entry: &Entry, arrival_s: f64, units: Units) -> String {
    line(entry, &outcome_text(entry, units), arrival_s)
}

fn line(entry: &Entry, told: &str, arrival_s: f64) -> String {
    let clock = clock(entry.started_s - arrival_s);
    let label = visit::label(&entry.action);
    let stop = if label.ends_with(['?', '.', '!']) { "" } else { "." };
    format!("{:>3}  {clock}  {label}{stop} {told}", entry.number).trim_end().to_owned()
}

/// A reading with its quantity, value, unit and, where it could be told that it cannot be relied on, why.
pub fn reading_text(reading: &Reading, units: Units) -> String {
    let doubt = doubt_then(reading.shown).map_or_else(String::new, |doubt| format!(" ({doubt})"));
    format!("{}: {}{doubt}.", capital(&quantity_text(reading.quantity)), value_text(reading, units))
}

/// Time since arrival as h:mm.
pub(crate) fn clock(since_arrival_s: f64) -> String {
    let minutes = (since_arrival_s.max(0.0) / 60.0) as u64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// What came of a move, with its notes, and what of a reading's worth could not be told then.
pub(crate) fn outcome_text(entry: &Entry, units: Units) -> String {
    let then = text_then(entry, units);
    match hindsight(&entry.outcome) {
        Some(truth) => format!("{then} {truth}"),
        None => then,
    }
}

/// What only the truth tells of a reading.
fn hindsight(outcome: &Outcome) -> Option<&'static str> {
    let Outcome::Read(reading) = outcome else { return None };
    match (reading.trust, reading.shown) {
        (Trust::IceOnCoil, shown) if shown != Trust::IceOnCoil => Some("In truth, ice stood on the coil."),
        (trust, Trust::IceOnCoil) if trust != Trust::IceOnCoil => {
            Some("In truth, hardly any ice stood on the coil.")
        }
        _ => None,
    }
}

/// What came of a move, with its notes, as it could be told then.
fn text_then(entry: &Entry, units: Units) -> String {
    let mut parts: Vec<String> = match &entry.outcome {
        // The notes say it in the reader's words, but in the trade's units.
        Outcome::Verified(found) => return verification_text(found, units),
        Outcome::Read(reading) if entry.notes.is_empty() => vec![reading_text(reading, units)],
        // The notes say why a reading is doubtful, too.
        Outcome::Read(reading) => vec![value_sentence(reading, units)],
        Outcome::Refused(reason) => vec![format!("Not possible: {reason}")],
        Outcome::Done | Outcome::Seen(_) => Vec::new(),
    };
    let is_told = |note: &String| matches!(&entry.outcome, Outcome::Refused(reason) if reason == note);
    parts.extend(entry.notes.iter().filter(|note| !is_told(note)).cloned());
    parts.join(" ")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn value_sentence(reading: &Reading, units: Units) -> String {
    format!("{}: {}.", capital(&quantity_text(reading.quantity)), value_text(reading, units))
}

fn verification_text(found: &Verification, units: Units) -> String {
    let mut text = format!(
        "After {:.0} min of running: {}, {}, temperature split {}{}.",
        found.ran_for_s / 60.0,
        found.superheat.text(ChargeBy::Superheat, |k| units.temperature_difference(k)),
        found.subcooling.text(ChargeBy::Subcooling, |k| units.temperature_difference(k)),
        units.temperature_difference(found.temperature_split_k),
        if found.steady { "; steady" } else { "; not steady yet" }
    );
    if found.frost_mass_kg > 0.01 {
        text.push_str(&format!(" {} of ice on the coil.", units.mass(found.frost_mass_kg)));
    }
    text
}

fn quantity_text(quantity: Measured) -> String {
    match quantity {
        Measured::GaugePressure(port) => format!("{} pressure", port.label()),
        Measured::PipeTemperature(point) => point.label().to_owned(),
        Measured::AirTemperature(point, bulb) => format!("{} {}", point.label(), bulb_label(bulb)),
        Measured::Voltage(from, to) | Measured::Resistance(from, to) | Measured::Capacitance(from, to) => {
            format!("{} to {}", from.label(), to.label())
        }
        Measured::Current(conductor) => conductor.label().to_owned(),
        Measured::RecoveredMass => "recovered".to_owned(),
        Measured::Vacuum => "vacuum".to_owned(),
        Measured::AddedMass => "put in".to_owned(),
    }
}

fn value_text(reading: &Reading, units: Units) -> String {
    match reading.quantity {
        Measured::GaugePressure(_) => units.gauge_pressure(reading.value),
        Measured::PipeTemperature(_) | Measured::AirTemperature(..) => units.temperature(reading.value),
        Measured::Voltage(..) => voltage(reading.value),
        Measured::Resistance(..) => resistance(reading.value),
        Measured::Capacitance(..) => capacitance(reading.value),
        Measured::Current(_) => current(reading.value),
        Measured::RecoveredMass | Measured::AddedMass => units.weighed(reading.value),
        Measured::Vacuum => units.vacuum(reading.value),
    }
}

fn bulb_label(bulb: Bulb) -> &'static str {
    match bulb {
        Bulb::Dry => "dry bulb",
        Bulb::Wet => "wet bulb",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::{Move, Port};

    fn entry(outcome: Outcome, notes: &[&str]) -> Entry {
        Entry {
            number: 4,
            action: Move::ReadGauge(Port::Suction),
            started_s: 7_500.0,
            finished_s: 7_620.0,
            running: visit::Running::default(),
            outcome,
            notes: notes.iter().map(|note| (*note).to_owned()).collect(),
        }
    }

    #[test]
    fn a_doubtful_reading_says_why() {
        let reading = Reading {
            quantity: Measured::GaugePressure(Port::Suction),
            value: 813_581.0,
            uncertainty: 5.0e3,
            trust: Trust::IceOnCoil,
            shown: Trust::IceOnCoil,
            piece: 1,
        };
        let told = "118.0 psig (ice on the coil when last seen).";
        assert_eq!(reading_text(&reading, Units::Ip), format!("Suction pressure: {told}"));
        let read = entry(Outcome::Read(reading), &[]);
        let line = entry_line(&read, 3_600.0, Units::Ip);
        assert!(line.starts_with("  4  1:05  "), "{line}");
        assert!(line.ends_with(told), "{line}");
        assert_eq!(reviewed_line(&read, 3_600.0, Units::Ip), line);
    }

    /// Ice that nobody had seen is told in the review, and not before.
    #[test]
    fn unseen_ice_is_told_afterwards() {
        let reading = |trust, shown| {
            let quantity = Measured::GaugePressure(Port::Suction);
            entry(
                Outcome::Read(Reading { quantity, value: 8.0e5, uncertainty: 5.0e3, trust, shown, piece: 1 }),
                &[],
            )
        };
        for (trust, shown) in [
            (Trust::IceOnCoil, Trust::Sound),
            (Trust::IceOnCoil, Trust::Unsettled),
            (Trust::Sound, Trust::IceOnCoil),
        ] {
            let (one, other) = (reading(trust, shown), reading(shown, shown));
            let line = |entry: &Entry| entry_line(entry, 0.0, Units::Ip);
            assert_eq!(line(&one), line(&other), "the truth shows in {trust:?}");
            let reviewed = reviewed_line(&one, 0.0, Units::Ip);
            assert!(reviewed.starts_with(&line(&one)) && reviewed.contains("In truth"), "{reviewed}");
        }
    }

    #[test]
    fn a_refusal_is_told_once() {
        let refused = entry(Outcome::Refused("No gauges are on.".to_owned()), &["No gauges are on."]);
        assert_eq!(outcome_text(&refused, Units::Si), "Not possible: No gauges are on.");
        let quiet = entry_line(&entry(Outcome::Done, &[]), 3_600.0, Units::Si);
        assert_eq!(quiet, "  4  1:05  Read the suction gauge.");
    }
}

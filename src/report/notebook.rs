//! One notebook entry as a line of text.

use visit::{Bulb, ChargeBy, Entry, Measured, Outcome, Reading, Trust, Verification};

use crate::units::{Units, capacitance, current, resistance, voltage};

/// An entry as written in the review and on the command line: number, clock, move, what came of it.
pub fn entry_line(entry: &Entry, arrival_s: f64, units: Units) -> String {
    let clock = clock(entry.started_s - arrival_s);
    let label = visit::label(&entry.action);
    let stop = if label.ends_with(['?', '.', '!']) { "" } else { "." };
    let told = outcome_text(entry, units);
    format!("{:>3}  {clock}  {label}{stop} {told}", entry.number).trim_end().to_owned()
}

/// A reading with its quantity, value, unit and, where it cannot be relied on, why.
pub fn reading_text(reading: &Reading, units: Units) -> String {
    let doubt = match reading.trust {
        Trust::Sound => "",
        Trust::Unsettled => " (still moving)",
        Trust::CompressorStopped => " (compressor not running)",
        Trust::IceOnCoil => " (ice on the coil)",
    };
    format!("{}: {}{doubt}.", capital(&quantity_text(reading.quantity)), value_text(reading, units))
}

/// Time since arrival as h:mm.
pub(crate) fn clock(since_arrival_s: f64) -> String {
    let minutes = (since_arrival_s.max(0.0) / 60.0) as u64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// What came of a move, with its notes.
pub(crate) fn outcome_text(entry: &Entry, units: Units) -> String {
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
        };
        assert_eq!(reading_text(&reading, Units::Ip), "Suction pressure: 118.0 psig (ice on the coil).");
        let line = entry_line(&entry(Outcome::Read(reading), &[]), 3_600.0, Units::Ip);
        assert!(line.starts_with("  4  1:05  "), "{line}");
        assert!(line.ends_with("118.0 psig (ice on the coil)."), "{line}");
    }

    #[test]
    fn a_refusal_is_told_once() {
        let refused = entry(Outcome::Refused("No gauges are on.".to_owned()), &["No gauges are on."]);
        assert_eq!(outcome_text(&refused, Units::Si), "Not possible: No gauges are on.");
        let quiet = entry_line(&entry(Outcome::Done, &[]), 3_600.0, Units::Si);
        assert_eq!(quiet, "  4  1:05  Read the suction gauge.");
    }
}

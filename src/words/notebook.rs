//! Entries of the notebook in words: the same on screen, on the page and on the command line.

use call::Call;
use visit::{ChargeBy, Entry, Measured, Note, Outcome, Reading, Unit, Verification};

use crate::Words;
use crate::quantity::{Kind, capacitance, current, resistance, voltage};

/// Less ice than this is none to the eye, kg.
const NO_ICE_KG: f64 = 0.01;

impl Words {
    /// A value of a quantity (SI in) with its unit.
    pub fn value(&self, quantity: Measured, value: f64) -> String {
        match quantity.row().unit {
            Unit::GaugePressure => self.units.gauge_pressure(value),
            Unit::Temperature => self.units.temperature(value),
            Unit::Voltage => voltage(value),
            Unit::Resistance => resistance(value),
            Unit::Capacitance => capacitance(value),
            Unit::Current => current(value),
            Unit::Weighed => self.units.weighed(value),
            Unit::Vacuum => self.units.vacuum(value),
            Unit::StaticPressure => self.units.static_pressure(value),
        }
    }

    /// An uncertainty of a quantity (SI in) with its unit.
    pub fn uncertainty(&self, quantity: Measured, one_sigma: f64) -> String {
        match quantity.row().unit {
            Unit::GaugePressure => self.units.pressure_difference(one_sigma),
            Unit::Temperature => self.units.temperature_difference(one_sigma),
            // A tenth of an ampere is all that a clamp resolves; its uncertainty is finer.
            Unit::Current => format!("{one_sigma:.2} A"),
            Unit::Weighed => self.units.text(Kind::Mass, one_sigma),
            // These have no zero of their own: a difference is written like a value.
            Unit::Voltage | Unit::Resistance | Unit::Capacitance | Unit::Vacuum | Unit::StaticPressure => {
                self.value(quantity, one_sigma)
            }
        }
    }

    /// A reading: its value and how far it can be off.
    pub fn reading(&self, reading: &Reading) -> String {
        self.fill(
            "reading",
            &[
                ("value", self.value(reading.quantity, reading.value)),
                ("uncertainty", self.uncertainty(reading.quantity, reading.uncertainty)),
            ],
        )
    }

    /// A note; what the customer says stands in the call.
    pub fn note(&self, note: &Note, call: &Call) -> String {
        let Note::Answer(question) = note else { return self.say(note) };
        match call.answers.iter().find(|(asked, _)| asked == question) {
            Some((_, said)) => self.fill("answer-quoted", &[("said", self.own(said))]),
            None => self.fill("answer-unknown", &[]),
        }
    }

    /// What came of a move as it could be told then, as lines: the reading or the refusal first, then what was seen or said.
    /// Nothing if it was simply done.
    pub fn outcome(&self, entry: &Entry, call: &Call) -> Vec<String> {
        let mut lines = Vec::new();
        match &entry.outcome {
            Outcome::Done => {}
            // The notes say what a scale or a micron gauge showed.
            Outcome::Read(reading) if is_weighed(reading.quantity) && !entry.notes.is_empty() => {}
            Outcome::Read(reading) => lines.push(self.reading(reading)),
            Outcome::Seen(seen) if entry.notes.is_empty() => {
                let clauses: Vec<String> = seen.iter().map(|one| self.say(one)).collect();
                if !clauses.is_empty() {
                    lines.push(self.fill("seen", &[("clauses", first_upper(&clauses.join("; ")))]));
                }
            }
            Outcome::Seen(_) => {}
            Outcome::Refused(refusal) => {
                lines.push(self.fill("refused", &[("reason", self.say(refusal))]));
            }
            Outcome::Verified(found) => lines.extend(self.verification(found)),
        }
        lines.extend(entry.notes.iter().map(|note| self.note(note, call)));
        lines
    }

    /// What was found when the repair was looked at.
    pub fn verification(&self, found: &Verification) -> Vec<String> {
        let values = [
            ("ran", crate::span(found.ran_for_s)),
            ("superheat", self.say(&found.superheat.of_what(ChargeBy::Superheat))),
            ("subcooling", self.say(&found.subcooling.of_what(ChargeBy::Subcooling))),
            ("split", self.units.temperature_difference(found.temperature_split_k)),
        ];
        let steadiness = if found.steady { "verification-steady" } else { "verification-moving" };
        let ice = if found.frost_mass_kg > NO_ICE_KG {
            self.fill("verification-ice", &[("ice", self.units.mass(found.frost_mass_kg))])
        } else {
            self.fill("verification-no-ice", &[])
        };
        vec![self.fill(steadiness, &values), ice]
    }
}

fn is_weighed(quantity: Measured) -> bool {
    matches!(quantity.row().unit, Unit::Weighed | Unit::Vacuum)
}

/// With a capital first letter, as a sentence or a heading begins.
pub fn first_upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use visit::{Move, Port, Refusal, Running, Trust};

    fn entry(outcome: Outcome, notes: Vec<Note>) -> Entry {
        Entry {
            number: 4,
            action: Move::ReadGauge(Port::Suction),
            started_s: 7_500.0,
            finished_s: 7_620.0,
            running: Running::default(),
            outcome,
            notes,
        }
    }

    fn call() -> Call {
        let built_in = call::built_in().first().expect("there are built-in calls");
        call::read(built_in.1, built_in.0).expect("they are valid")
    }

    #[test]
    fn a_reading_says_value_unit_and_uncertainty() {
        let read = entry(
            Outcome::Read(Reading {
                quantity: Measured::GaugePressure(Port::Suction),
                value: 689_475.7,
                uncertainty: 6_894.8,
                trust: Trust::Sound,
                shown: Trust::Sound,
                piece: 1,
            }),
            vec![],
        );
        assert_eq!(Words::in_units(Units::Ip).outcome(&read, &call()), ["100.0 psig ± 1.0 psi"]);
        assert_eq!(Words::in_units(Units::Si).outcome(&read, &call()), ["689 kPa gauge ± 7 kPa"]);
    }

    #[test]
    fn a_refusal_says_why() {
        let refused = entry(Outcome::Refused(Refusal::NoGauges), vec![]);
        let lines = Words::default().outcome(&refused, &call());
        assert_eq!(lines, ["Not possible: The gauges are not connected; there is no pressure to read."]);
    }

    #[test]
    fn notes_are_sentences_with_the_readers_units() {
        let noted = |note: Note, units| Words::in_units(units).note(&note, &call());
        let charge = || Note::from(visit::ChargeNote::Weighed { weighed_kg: 1.682_4 });
        assert_eq!(noted(charge(), Units::Ip), "The scale shows 3 lb 11.3 oz into the circuit.");
        assert_eq!(noted(charge(), Units::Si), "The scale shows 1.682 kg into the circuit.");
        let again = |times| {
            noted(visit::RecoveryNote::RanAgain { rise_difference_pa: 20_684.3, times }.into(), Units::Ip)
        };
        assert!(
            again(1).contains("by 3.0 psi") && again(1).ends_with("You ran it again once."),
            "{}",
            again(1)
        );
        assert!(again(3).ends_with("You ran it again 3 times."), "{}", again(3));
        let step = visit::ChargeNote::StepIn {
            shown: visit::ShownMargin::NoSuperheat(visit::Absence::TwoPhase),
            step_kg: 0.0567,
        };
        assert_eq!(
            noted(step.into(), Units::Ip),
            "At no superheat (liquid comes back with the vapor): 2.0 oz in."
        );
    }
}

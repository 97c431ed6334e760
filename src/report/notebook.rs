//! One notebook entry as a line of text.

use call::Call;
use visit::{Entry, Outcome, Trust};
use words::Words;

/// An entry as written while the visit goes on: number, clock, move, what came of it.
pub fn entry_line(entry: &Entry, arrival_s: f64, call: &Call, words: Words) -> String {
    line(entry, &joined(&words.outcome(entry, call)), arrival_s, words)
}

/// The same as written in the review, where the truth is told.
pub(crate) fn reviewed_line(entry: &Entry, arrival_s: f64, call: &Call, words: Words) -> String {
    line(entry, &outcome_text(entry, call, words), arrival_s, words)
}

fn line(entry: &Entry, told: &str, arrival_s: f64, words: Words) -> String {
    let clock = clock(entry.started_s - arrival_s);
    let label = words.say(&entry.action);
    let stop = stop_after(&label);
    format!("{:>3}  {clock}  {label}{stop} {told}", entry.number).trim_end().to_owned()
}

/// Time since arrival as h:mm.
pub(crate) fn clock(since_arrival_s: f64) -> String {
    let minutes = (since_arrival_s.max(0.0) / 60.0) as u64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// What came of a move, with its notes, and what of a reading's worth could not be told then.
pub(crate) fn outcome_text(entry: &Entry, call: &Call, words: Words) -> String {
    let mut lines = words.outcome(entry, call);
    lines.extend(hindsight(&entry.outcome).map(|key| words.fill(key, &[])));
    joined(&lines)
}

/// Lines as sentences in a row: what has no stop of its own gets one before the next.
fn joined(lines: &[String]) -> String {
    let Some((last, others)) = lines.split_last() else { return String::new() };
    let others = others.iter().map(|line| format!("{line}{} ", stop_after(line)));
    others.chain([last.clone()]).collect()
}

fn stop_after(text: &str) -> &'static str {
    if text.ends_with(['?', '.', '!', '"']) { "" } else { "." }
}

/// What only the truth tells of a reading.
fn hindsight(outcome: &Outcome) -> Option<&'static str> {
    let Outcome::Read(reading) = outcome else { return None };
    match (reading.trust, reading.shown) {
        (Trust::IceOnCoil, shown) if shown != Trust::IceOnCoil => Some("hindsight-ice"),
        (trust, Trust::IceOnCoil) if trust != Trust::IceOnCoil => Some("hindsight-no-ice"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::{Measured, Move, Port, Reading};

    fn read(trust: Trust, shown: Trust) -> Entry {
        let quantity = Measured::GaugePressure(Port::Suction);
        Entry {
            number: 4,
            action: Move::ReadGauge(Port::Suction),
            started_s: 7_500.0,
            finished_s: 7_620.0,
            running: visit::Running::default(),
            outcome: Outcome::Read(Reading {
                quantity,
                value: 813_581.0,
                uncertainty: 5.0e3,
                trust,
                shown,
                piece: 1,
            }),
            notes: Vec::new(),
        }
    }

    fn call() -> Call {
        let (id, text) = call::built_in()[0];
        call::read(text, id).expect("built-in calls are valid")
    }

    #[test]
    fn a_line_says_number_clock_move_and_outcome() {
        let line = entry_line(&read(Trust::Sound, Trust::Sound), 3_600.0, &call(), Words::default());
        assert_eq!(line, "  4  1:05  Read the suction gauge. 118.0 psig ± 0.7 psi");
        let done = Entry { outcome: Outcome::Done, ..read(Trust::Sound, Trust::Sound) };
        assert_eq!(
            entry_line(&done, 3_600.0, &call(), Words::default()),
            "  4  1:05  Read the suction gauge."
        );
    }

    /// Ice that nobody had seen is told in the review, and not before.
    #[test]
    fn unseen_ice_is_told_afterwards() {
        for (trust, shown) in [
            (Trust::IceOnCoil, Trust::Sound),
            (Trust::IceOnCoil, Trust::Unsettled),
            (Trust::Sound, Trust::IceOnCoil),
        ] {
            let (one, other) = (read(trust, shown), read(shown, shown));
            let line = |entry: &Entry| entry_line(entry, 0.0, &call(), Words::default());
            assert_eq!(line(&one), line(&other), "the truth shows in {trust:?}");
            let reviewed = reviewed_line(&one, 0.0, &call(), Words::default());
            assert!(reviewed.starts_with(&line(&one)) && reviewed.contains(" psi. In truth"), "{reviewed}");
        }
    }
}

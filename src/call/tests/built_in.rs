//! The four calls that come with the program.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use std::collections::BTreeSet;

use call::{Call, Milestone, Question, built_in, read};
use plant::{FaultKind, LeakPlace};

fn calls() -> Vec<Call> {
    built_in()
        .iter()
        .map(|(id, text)| {
            let call =
                read(text, &format!("scenarios/{id}.ron")).unwrap_or_else(|problems| panic!("{problems:#?}"));
            assert_eq!(call.id, *id);
            call
        })
        .collect()
}

#[test]
fn each_has_one_fault_of_its_own() {
    let kinds: Vec<FaultKind> = calls().iter().map(|call| call.faults[0].kind).collect();
    assert_eq!(
        kinds,
        [
            FaultKind::LoadedFilter,
            FaultKind::MeteringRestricted,
            FaultKind::UninsulatedBulb,
            FaultKind::RefrigerantLeak
        ]
    );
    assert!(calls().iter().all(|call| call.faults.len() == 1));
}

#[test]
fn every_question_has_an_answer() {
    for call in calls() {
        let answered: BTreeSet<Question> = call.answers.iter().map(|(question, _)| *question).collect();
        assert_eq!(answered.len(), Question::ALL.len(), "{}", call.id);
    }
}

#[test]
fn no_text_for_the_learner_names_the_part() {
    for call in calls() {
        let told = [&call.id, call.title.in_language("en-US"), call.complaint.in_language("en-US")]
            .join(" ")
            .to_lowercase();
        for word in ["filter", "valve", "bulb", "leak", "charge", "refrigerant"] {
            assert!(!told.contains(word), "{word} in: {told}");
        }
    }
}

#[test]
fn each_puts_air_and_thaw_before_gauges_and_proof_before_leaving() {
    for call in calls() {
        for (before, needed) in [
            (Milestone::GaugesConnected, Milestone::FilterInspected),
            (Milestone::GaugesConnected, Milestone::BlowerSeen),
            (Milestone::GaugesConnected, Milestone::CoilThawed),
            (Milestone::CoilThawed, Milestone::CompressorStopped),
            (Milestone::RefrigerantAdded, Milestone::LeakFound),
            (Milestone::TicketClosed, Milestone::RepairVerified),
        ] {
            assert!(
                call.prerequisites.iter().any(|rule| rule.before == before && rule.one_of == [needed]),
                "{}: {before:?} without {needed:?}",
                call.id
            );
        }
    }
}

#[test]
fn only_the_leak_arrives_short_of_charge() {
    for call in calls() {
        let leaks = call.faults[0].kind == FaultKind::RefrigerantLeak;
        assert_eq!(call.charge_share.high < 0.9, leaks, "{}", call.id);
        assert!(call.solved.charge_share.low > call.charge_share.high || !leaks, "{}", call.id);
    }
}

/// Nine leaks in ten are at the indoor coil (common practice, no source).
#[test]
fn leaks_are_nearly_all_at_the_indoor_coil() {
    let calls = calls();
    let places: Vec<LeakPlace> =
        calls.iter().flat_map(|call| call.faults.iter().flat_map(|fault| fault.places.clone())).collect();
    let at_the_coil = places.iter().filter(|place| **place == LeakPlace::IndoorCoil).count();
    assert!(!places.is_empty());
    assert!(10 * at_the_coil >= 9 * places.len(), "{at_the_coil} of {}", places.len());
}

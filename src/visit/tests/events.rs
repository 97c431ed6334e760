//! What happens to the system while the learner works: it is recorded, it is made again at its moment, and what is wrong is
//! known for each time.

mod common;

use common::{cool, fault, perform, short_call, with};
use plant::{FaultKind, LeakPlace, Work};
use quantity::Duration;
use visit::{CannotHappen, Event, Happening, Move, Place, Record, Visit, replay};

const DIRT: FaultKind = FaultKind::LoadedFilter;
const FLUFF: FaultKind = FaultKind::FouledCondenser;

/// As the call has it, so that its record can be made again: behind a loaded filter.
fn start() -> Visit {
    Visit::start(&short_call(), 4).expect("finite")
}

fn inject(kind: FaultKind, severity: f64) -> Happening {
    Happening::Inject { kind, place: None, severity }
}

fn bytes(visit: &Visit) -> String {
    ron::to_string(visit.plant()).expect("a plant can be written")
}

/// In whatever slices the time comes, and wherever in a move it happens.
#[test]
fn what_happens_in_a_move_happens_again_at_its_moment() {
    let mut visit = start();
    perform(&mut visit, &cool(55.0));
    visit.begin(&Move::Wait(Duration::Minutes(20.0)));
    visit.work(300.0).expect("finite");
    visit.happen(inject(FLUFF, 0.6)).expect("it can happen");
    visit.work(77.0).expect("finite");
    visit.happen(Happening::Message("Look at the outdoor unit".to_owned())).expect("it can happen");
    visit.happen(Happening::Worsen { kind: FLUFF, place: None, severity: 0.8 }).expect("it can happen");
    while visit.busy().is_some() {
        visit.work(50.0).expect("finite");
    }
    visit.let_time_pass(200.0).expect("finite");
    visit.happen(Happening::Clear { kind: FLUFF, place: None }).expect("it can happen");
    visit.let_time_pass(100.0).expect("finite");
    perform(&mut visit, &Move::Look(Place::OutdoorUnit));
    let record = visit.record();
    assert_eq!(record.events.len(), 7);
    let text = record.to_text();
    let read = Record::from_text(&text, "visit").expect("it reads");
    assert_eq!(read, record);
    let again = replay(&read, visit.call()).expect("it replays");
    assert_eq!(bytes(&again), bytes(&visit));
    assert_eq!(again.record().to_text(), text);
    assert_eq!(again.wrong(), visit.wrong());
    // Without what happened it is another visit.
    let mut without = record.clone();
    without.events.retain(|timed| matches!(timed.event, Event::Move(_)));
    assert!(
        replay(&without, visit.call()).is_ok_and(|other| bytes(&other) != bytes(&visit))
            || replay(&without, visit.call()).is_err()
    );
    // At another moment it is another one, too.
    let mut later = record.clone();
    for timed in &mut later.events {
        if matches!(timed.event, Event::Happening(Happening::Inject { .. })) {
            timed.at_s += 5.0;
        }
    }
    assert!(replay(&later, visit.call()).map_or(true, |other| bytes(&other) != bytes(&visit)));
}

#[test]
fn what_is_wrong_is_known_for_each_time() {
    let mut visit = with(4, &[fault(FaultKind::FouledCondenser, None, 0.5)]);
    let arrival_s = visit.time_s();
    visit.let_time_pass(60.0).expect("finite");
    visit.happen(inject(DIRT, 0.5)).expect("it can happen");
    let injected_s = visit.time_s();
    visit.let_time_pass(60.0).expect("finite");
    visit.happen(Happening::Worsen { kind: DIRT, place: None, severity: 0.7 }).expect("it can happen");
    visit.let_time_pass(60.0).expect("finite");
    let kinds = |visit: &Visit, time_s: f64| -> Vec<(FaultKind, f64)> {
        visit.wrong_at(time_s).map(|fault| (fault.kind, fault.severity)).collect()
    };
    assert_eq!(kinds(&visit, arrival_s), [(FaultKind::FouledCondenser, 0.5)]);
    assert_eq!(kinds(&visit, injected_s), [(FaultKind::FouledCondenser, 0.5), (DIRT, 0.5)]);
    assert_eq!(kinds(&visit, visit.time_s()), [(FaultKind::FouledCondenser, 0.5), (DIRT, 0.7)]);
    perform(&mut visit, &Move::ReplaceFilter);
    assert_eq!(kinds(&visit, visit.time_s()), [(FaultKind::FouledCondenser, 0.5)], "it was repaired");
    let ever: Vec<(FaultKind, f64)> =
        visit.wrong_by(visit.time_s()).iter().map(|fault| (fault.kind, fault.severity)).collect();
    assert_eq!(ever, [(FaultKind::FouledCondenser, 0.5), (DIRT, 0.7)]);
    assert_eq!(visit.wrong_by(arrival_s).len(), 1);
    perform(&mut visit, &Move::OutdoorDisconnect(plant::Switch::Open));
    perform(&mut visit, &Move::Repair(Work::CleanCondenser));
    assert_eq!(visit.wrong_at(visit.time_s()).count(), 0);
}

#[test]
fn what_cannot_happen_is_refused_and_not_recorded() {
    let mut visit = start();
    let leak = |place| Happening::Inject { kind: FaultKind::RefrigerantLeak, place, severity: 0.5 };
    for (happening, why) in [
        (inject(FaultKind::FouledCondenser, 0.0), CannotHappen::Severity),
        (inject(FaultKind::FouledCondenser, 1.5), CannotHappen::Severity),
        (inject(FaultKind::FouledCondenser, f64::NAN), CannotHappen::Severity),
        (inject(DIRT, 0.7), CannotHappen::ThereAlready),
        (inject(FaultKind::Undercharged, 0.5), CannotHappen::HoldsFromTheStart),
        (inject(FaultKind::OrificeTooSmall, 0.5), CannotHappen::NoSuchPart),
        (leak(None), CannotHappen::PlaceMissing),
        (
            Happening::Inject {
                kind: FaultKind::DirtyBlowerWheel,
                place: Some(LeakPlace::IndoorCoil),
                severity: 0.5,
            },
            CannotHappen::PlaceTooMuch,
        ),
        (Happening::Clear { kind: FaultKind::FouledCondenser, place: None }, CannotHappen::NotThere),
        (
            Happening::Worsen { kind: FaultKind::FouledCondenser, place: None, severity: 0.5 },
            CannotHappen::NotThere,
        ),
        (Happening::Resume, CannotHappen::NotPaused),
        (Happening::Message(" ".to_owned()), CannotHappen::MessageLength),
        (Happening::Message("x".repeat(501)), CannotHappen::MessageLength),
        (Happening::Message("clear\u{1b}[2J".to_owned()), CannotHappen::MessageHidden),
        (Happening::Message("turned \u{202e}".to_owned()), CannotHappen::MessageHidden),
    ] {
        assert_eq!(visit.happen(happening.clone()), Err(why), "{happening:?}");
    }
    assert!(visit.events().is_empty());
    visit.happen(leak(Some(LeakPlace::LiquidLine))).expect("it can happen");
    visit.happen(Happening::Pause).expect("it can happen");
    assert!(visit.is_paused());
    assert_eq!(visit.happen(Happening::Pause), Err(CannotHappen::PausedAlready));
    visit.happen(Happening::Resume).expect("it can happen");
    perform(&mut visit, &Move::CloseTicket);
    assert_eq!(visit.happen(Happening::Pause), Err(CannotHappen::TicketClosed));
    let again = replay(&visit.record(), visit.call()).expect("it replays");
    assert_eq!(again.events(), visit.events());
}

/// What happens in a move has a time in it or after it, and no earlier one.
#[test]
fn what_happens_at_no_time_is_refused() {
    let mut visit = Visit::start(&short_call(), 4).expect("finite");
    visit.begin(&Move::Wait(Duration::Minutes(5.0)));
    visit.work(60.0).expect("finite");
    visit.happen(Happening::Message("one".to_owned())).expect("it can happen");
    visit.work(30.0).expect("finite");
    visit.happen(Happening::Message("two".to_owned())).expect("it can happen");
    while visit.busy().is_some() {
        visit.work(60.0).expect("finite");
    }
    let record = visit.record();
    assert!(replay(&record, visit.call()).is_ok());
    for at_s in [f64::NAN, f64::NEG_INFINITY, -7.0, record.events[1].at_s - 1.0] {
        let mut edited = record.clone();
        edited.events[2].at_s = at_s;
        let refused = replay(&edited, visit.call());
        assert!(matches!(refused, Err(visit::ReplayError::Time { number: 3, .. })), "{at_s}: {refused:?}");
    }
}

/// A record holds what is needed to make the visit again, and not the answer.
#[test]
fn a_record_does_not_tell_the_answer() {
    let mut visit = Visit::start(&short_call(), 3).expect("finite");
    perform(&mut visit, &Move::InspectFilter);
    let text = visit.record().to_text();
    let call = short_call();
    for fault in &call.faults {
        assert!(!text.contains(&format!("{:?}", fault.kind)), "{text}");
    }
    assert!(!text.contains(call.complaint.in_language("en-US")) && text.contains(&call.digest()), "{text}");
}

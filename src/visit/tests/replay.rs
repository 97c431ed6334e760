//! Same moves, same bytes: in one go, in slices, from the record.

mod common;

use call::{Duration, Mass, Question};
use common::{all, call_text, cool, off, perform, short_call, sound};
use plant::{Switch, Work};
use visit::{
    AirPoint, Bulb, Declaration, Entry, FileMistake, Move, Onlooker, Outcome, Panel, PipePoint, Place, Port,
    Record, ReplayError, Visit, make_again, replay, replay_before,
};

/// A visit with every kind of step in it: walks, refusals, waits, settling, charging, verification.
fn moves() -> Vec<Move> {
    vec![
        Move::Ask(Question::WhenItStarted),
        Move::Look(Place::IndoorCoil),
        Move::WatchBlower,
        Move::OpenPanel(Panel::CoilCabinet),
        Move::ConnectGauges,
        cool(60.0),
        Move::Wait(Duration::Minutes(7.0)),
        Move::ReadGauge(Port::Suction),
        Move::ReadPipe(PipePoint::SuctionAtServiceValve),
        Move::ReadAir(AirPoint::Supply, Bulb::Wet),
        Move::WarmBulb,
        Move::AddRefrigerant(Mass::Ounces(2.0)),
        Move::Declare(Declaration {
            cause: plant::FaultKind::RefrigerantLeak,
            place: Some(plant::LeakPlace::IndoorCoil),
            evidence: vec![8, 9],
            rules_out: vec![plant::FaultKind::LoadedFilter],
        }),
        off(),
        Move::Recover,
        Move::Verify,
        Move::CloseTicket,
        Move::Look(Place::Thermostat),
    ]
}

fn start() -> Visit {
    Visit::start(&short_call(), 11).expect("the history is finite")
}

fn bytes(visit: &Visit) -> String {
    ron::to_string(&(visit.notebook(), visit.plant(), visit.milestones(), visit.hazards()))
        .expect("it is plain data")
}

#[test]
fn slices_of_any_size_give_the_same_bytes() {
    let mut whole = start();
    for action in &moves() {
        perform(&mut whole, action);
    }
    for slice_s in [0.0, 0.25, 0.9, 7.0, 61.3, 1.0e9] {
        let mut sliced = start();
        for action in &moves() {
            sliced.begin(action);
            while sliced.busy().is_some() {
                let progress = sliced.work(slice_s).expect("the plant stays finite");
                assert_eq!(&progress.action, action);
                assert!(progress.done_s <= progress.total_s);
                assert_eq!(progress.is_done(), sliced.busy().is_none(), "{progress:?}");
            }
        }
        assert_eq!(bytes(&sliced), bytes(&whole), "in slices of {slice_s} s");
    }
}

#[test]
fn looking_at_the_displays_changes_nothing() {
    let (mut watched, mut unwatched) = (start(), start());
    for action in &moves() {
        perform(&mut unwatched, action);
        watched.begin(action);
        while watched.busy().is_some() {
            watched.work(30.0).expect("the plant stays finite");
            let _ = (watched.live(), watched.offers(Place::OutdoorUnit), watched.global_offers());
        }
    }
    assert_eq!(bytes(&watched), bytes(&unwatched));
}

#[test]
fn moves_begun_while_one_runs_wait_their_turn() {
    let mut one_by_one = start();
    let mut queued = start();
    for action in &moves()[..5] {
        perform(&mut one_by_one, action);
        queued.begin(action);
    }
    while queued.busy().is_some() {
        queued.work(3600.0).expect("the plant stays finite");
    }
    assert_eq!(bytes(&queued), bytes(&one_by_one));
}

#[test]
fn a_record_replays_to_the_same_bytes() {
    let mut visit = start();
    for (index, action) in moves().iter().enumerate() {
        // Time at rest, in uneven frames, as a window passes it.
        for _ in 0..index {
            visit.let_time_pass(0.317).expect("the plant stays finite");
        }
        perform(&mut visit, action);
    }
    let text = visit.record().to_text();
    let record = Record::from_text(&text, "visit.ron").expect("a written record can be read");
    assert_eq!(record, visit.record());
    assert!(record.call.names(&short_call()));
    // The call has the answer in it; the record has neither.
    let complaint = visit.call().complaint.in_language("en-US");
    assert!(call_text("Minutes(20)").contains(complaint) && !text.contains(complaint));
    let again = replay(&record, visit.call()).expect("an untouched record replays");
    assert_eq!(again.record().to_text(), text);
    assert_eq!(bytes(&again), bytes(&visit));
    assert_eq!(again.site(), visit.site());
}

/// Looks at the plant now and then and notes when.
#[derive(Default)]
struct Watcher {
    every_s: f64,
    looks: Vec<f64>,
    ends: Vec<(u32, f64)>,
    began_s: f64,
    until_s: f64,
    left: bool,
}

impl Onlooker for Watcher {
    fn arrives(&mut self, visit: &Visit, until_s: f64) {
        (self.began_s, self.until_s) = (visit.time_s(), until_s);
    }

    fn interval_s(&self) -> f64 {
        self.every_s
    }

    fn rests(&mut self, visit: &Visit) {
        self.began_s = visit.time_s();
    }

    fn begins_move(&mut self, visit: &Visit) {
        self.began_s = visit.time_s();
    }

    fn looks(&mut self, visit: &Visit) {
        self.looks.push(visit.time_s());
        let passed_s = visit.time_s() - self.began_s;
        assert!(passed_s <= self.every_s, "{passed_s} s without a look");
        self.began_s = visit.time_s();
    }

    fn ends_move(&mut self, visit: &Visit, entry: &Entry) {
        assert_eq!(visit.time_s(), entry.finished_s);
        self.ends.push((entry.number, entry.finished_s));
    }

    fn leaves(&mut self, visit: &Visit) {
        assert_eq!(visit.time_s(), self.until_s);
        self.left = true;
    }
}

/// Whoever looks on, and how often, neither changes the visit nor what another one sees.
#[test]
fn onlookers_change_nothing() {
    let mut visit = start();
    for action in &moves() {
        visit.let_time_pass(17.25).expect("finite");
        visit.perform(action).expect("finite");
    }
    let watcher = |every_s: f64| Watcher { every_s, ..Watcher::default() };
    let mut alone = watcher(15.0);
    make_again(&visit, &mut [&mut alone]).expect("finite");
    let (mut one, mut other) = (watcher(15.0), watcher(40.0));
    let replayed =
        replay_before(&visit.record(), visit.call(), &mut [&mut one, &mut other]).expect("a good record");
    assert_eq!(bytes(&replayed), bytes(&visit));
    assert_eq!(alone.looks, one.looks);
    assert!(one.looks.len() > 2 * other.looks.len() && other.looks.len() > 20);
    for watcher in [&alone, &one, &other] {
        assert!(watcher.left);
        let ends: Vec<(u32, f64)> =
            visit.notebook().iter().map(|entry| (entry.number, entry.finished_s)).collect();
        assert_eq!(watcher.ends, ends);
    }
}

#[test]
fn a_record_taken_in_mid_move_holds_what_is_finished() {
    let mut visit = start();
    perform(&mut visit, &Move::Look(Place::Thermostat));
    visit.let_time_pass(10.0).expect("the plant stays finite");
    visit.begin(&Move::Wait(Duration::Hours(1.0)));
    visit.work(100.0).expect("the plant stays finite");
    let record = visit.record();
    assert_eq!(record.moves().count(), 1);
    let again = replay(&record, visit.call()).expect("it replays");
    assert_eq!(again.notebook(), visit.notebook());
    // An open visit that rests at its end replays to the same plant, too.
    let mut resting = start();
    resting.let_time_pass(123.0).expect("the plant stays finite");
    assert_eq!(bytes(&replay(&resting.record(), resting.call()).expect("it replays")), bytes(&resting));
}

#[test]
fn a_stopped_wait_is_recorded_with_its_true_time() {
    let mut visit = start();
    visit.begin(&Move::Wait(Duration::Hours(2.0)));
    visit.work(95.5).expect("the plant stays finite");
    visit.stop_waiting();
    assert!(visit.busy().is_none());
    let entry = &visit.notebook()[0];
    assert_eq!(entry.action, Move::Wait(Duration::Seconds(95.5)));
    assert_eq!(entry.finished_s - entry.started_s, 95.5);
    assert_eq!(bytes(&replay(&visit.record(), visit.call()).expect("it replays")), bytes(&visit));
    // Other moves can't be cut short.
    visit.begin(&Move::Look(Place::Thermostat));
    visit.stop_waiting();
    assert!(visit.busy().is_some());
}

#[test]
fn a_changed_record_is_refused_with_the_reason() {
    let mut visit = start();
    all(&mut visit, &[Move::Look(Place::Thermostat), Move::ConnectGauges, Move::ReadGauge(Port::Suction)]);
    let record = visit.record();

    let mut forged = record.clone();
    forged.notebook_digest = "0000000000000000".to_owned();
    let error = replay(&forged, visit.call()).expect_err("a forged digest");
    assert!(matches!(error, ReplayError::Digest { .. }));

    let mut other_seed = record.clone();
    other_seed.seed += 1;
    assert!(matches!(replay(&other_seed, visit.call()), Err(ReplayError::Digest { .. })));

    let mut left_out = record.clone();
    left_out.events.remove(0);
    assert!(replay(&left_out, visit.call()).is_err());

    let mut early = record.clone();
    early.events[1].at_s -= 5.0;
    assert!(matches!(replay(&early, visit.call()), Err(ReplayError::Time { number: 2, .. })));

    let mut never = record.clone();
    never.ended_s = f64::INFINITY;
    assert!(matches!(replay(&never, visit.call()), Err(ReplayError::End { .. })), "its end is no event");

    let mut closed = record.clone();
    closed.closed = true;
    assert!(matches!(replay(&closed, visit.call()), Err(ReplayError::Closing)));

    // The same call by name, and not by what stands in it.
    let changed = call::read(&call_text("Minutes(21)"), &record.call.id).expect("valid");
    let error = replay(&record, &changed).expect_err("another call");
    let ReplayError::OtherCall { named, named_digest, given, given_digest } = error else {
        panic!("{error:?}")
    };
    assert_eq!((&named, &named_digest), (&record.call.id, &record.call.digest));
    assert_eq!((&given, &given_digest), (&record.call.id, &changed.digest()));
    assert_ne!(named_digest, given_digest);
}

#[test]
fn a_record_of_another_version_or_form_is_refused() {
    let text = sound(1).record().to_text();
    for (written, version) in [("1", 1), ("3", 3), ("0x1", 1), ("1_000", 1000)] {
        let other = text.replacen("version: 2", &format!("version: {written}"), 1);
        let problems = Record::from_text(&other, "v.ron").expect_err("only version 2 is read");
        let kind = if version == 1 {
            FileMistake::Older { version, read: 2 }
        } else {
            FileMistake::Newer { version, read: 2 }
        };
        assert_eq!((problems.told[0].place.line, &problems.told[0].kind), (2, &kind));
    }
    let misspelled = text.replacen("seed:", "sead:", 1);
    let problems = Record::from_text(&misspelled, "v.ron").expect_err("there is no key `sead`");
    assert!(format!("{:?}", problems.told[0].kind).contains("UnknownKey { key: \"sead\""), "{problems:?}");
    // A record with the keys of a call is still a record, and they are told.
    let disguised = text.replacen("(", "(complaint: \"\", system: \"\", ", 1);
    let problems = Record::from_text(&disguised, "v.ron").expect_err("no keys of a record");
    assert_eq!(problems.told.len(), 2, "{problems:?}");
    assert!(!call::is_call(&disguised));
    for (from, to) in [
        ("ended_s: ", "ended_s: NaN, //"),
        ("events: []", "events: [(at_s: inf, event: Move(InspectFilter))]"),
    ] {
        let spoilt = text.replacen(from, to, 1);
        let told = Record::from_text(&spoilt, "v.ron").expect_err(to).told;
        assert!(format!("{told:?}").contains("NotFinite"), "{told:?}");
    }
    assert!(Record::from_text("", "v.ron").is_err());
    let mut endless = sound(1).record();
    let event = visit::Event::Move(Move::InspectFilter);
    endless.events.resize(100_000, visit::Timed { at_s: endless.ended_s, event });
    let problems = Record::from_text(&endless.to_text(), "v.ron").expect_err("too many");
    let kind = FileMistake::TooManyEvents { events: 100_000, most: 20_160 };
    assert_eq!(problems.told[0].kind, kind);
}

#[test]
fn nothing_happens_after_closing() {
    let mut visit = start();
    perform(&mut visit, &Move::CloseTicket);
    let time_s = visit.time_s();
    assert!(visit.is_closed());
    visit.let_time_pass(600.0).expect("the plant stays finite");
    assert!(matches!(perform(&mut visit, &cool(70.0)).outcome, Outcome::Refused(_)));
    assert_eq!(visit.time_s(), time_s);
    assert_eq!(bytes(&replay(&visit.record(), visit.call()).expect("it replays")), bytes(&visit));
}

/// Records of before call a repair by another name, in their moves and in the facts that their digest is of.
#[test]
fn a_record_that_says_mend_replays() {
    let mut visit = start();
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Open), Move::Repair(Work::CleanCondenser)]);
    let facts = ron::to_string(visit.notebook()).expect("it is plain data");
    let of_before = facts.replace("Repair(CleanCondenser)", "Mend(CleanCondenser)");
    let record = visit.record();
    let text = record
        .to_text()
        .replace("Repair(CleanCondenser)", "Mend(CleanCondenser)")
        .replace(&record.notebook_digest, &format!("{:016x}", call::fnv1a_64(of_before.as_bytes())));
    assert!(text.contains("Mend(") && !text.contains("Repair("), "{text}");
    let read = Record::from_text(&text, "old.ron").expect("it is read");
    assert_eq!(bytes(&replay(&read, visit.call()).expect("it replays")), bytes(&visit));
    let forged = Record { notebook_digest: "0123456789abcdef".to_owned(), ..read };
    assert!(matches!(replay(&forged, visit.call()), Err(ReplayError::Digest { .. })));
}

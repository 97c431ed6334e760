//! Hypotheses of whole visits: work that is stopped and taken up again, and the sound path.

use std::sync::atomic::{AtomicU32, Ordering};

use call::Call;
use diagnosis::{Hypotheses, Hypothesis, Part, Prior, Purpose, When, guide, sound_path};
use plant::{Fault, FaultKind};
use visit::{AirPoint, Bulb, Move, PipePoint, Place, Visit};

/// A short call about a filter that is nearly shut.
fn call() -> Call {
    let text = "(version: 1, title: \"A filter\", complaint: \"There is ice.\", system: \"split-3-ton-r410a-txv\", \
        house: (air: (Fahrenheit(78), Fahrenheit(78)), relative_humidity: (0.5, 0.5)), \
        weather: (mean: (Fahrenheit(80), Fahrenheit(80)), swing: FahrenheitDifference(8), \
        dew_point: Fahrenheit(60), start_hour: 10, solar_peak_w_m2: 500), \
        thermostat: (mode: Cool, fan: Auto, set_point: Fahrenheit(68)), charge_share: (1, 1), \
        faults: [(kind: LoadedFilter, severity: (0.75, 0.75), onset: (Hours(0), Hours(0)))], \
        history: Minutes(40), prerequisites: [], rivals: [], \
        solved: (cleared: [LoadedFilter], charge_share: (0.9, 1.1), frost_mass_max: Grams(50), \
        proven_for: Minutes(15)), par_time: Minutes(90))";
    call::read(text, "filter.ron").unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn arrived(call: &Call) -> Hypotheses {
    Hypotheses::arrive(call, &Prior::Usual, &diagnosis::Unwatched).expect("finite").expect("nobody stops it")
}

/// Stopped anywhere, the work on an entry goes on to the same numbers: while shadows make the move, and between weighing and
/// refining.
#[test]
fn work_that_was_stopped_goes_on_to_the_same() {
    let call = call();
    let mut visit = Visit::start(&call, 5).expect("finite");
    for action in [
        Move::Look(Place::ReturnGrille),
        Move::InspectFilter,
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::ReadPipe(PipePoint::SuctionAtServiceValve),
        Move::ReadPipe(PipePoint::Discharge),
    ] {
        visit.perform(&action).expect("finite");
    }
    let at_arrival = arrived(&call);
    let last = visit.notebook().len() as u32;
    let mut straight = at_arrival.clone();
    let mut stopped = None;
    for entry in visit.notebook() {
        straight.weigh(entry, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
        let between = straight.clone();
        straight.refine(&diagnosis::Unwatched).expect("finite").expect("nobody stops it");
        if stopped.is_none() && straight.following().1 > between.following().1 {
            stopped = Some(between);
        }
    }
    let mut stopped = stopped.expect("an entry that asks for finer severities");
    stopped.catch_up(&visit, last, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    assert_eq!(stopped.weighed(), straight.weighed());
    assert_eq!(stopped.following(), straight.following());

    let mut again = at_arrival;
    let asked = AtomicU32::new(0);
    let mut stops = 0;
    // Stopped again and again, later each time: refining begins anew when it was stopped.
    while again.catch_up(&visit, last, &StopsAtTimes(&asked)).expect("finite").is_none() {
        stops += 1;
        assert!(stops < 1000, "it gets nowhere");
    }
    assert!(stops > 0, "it was never stopped");
    assert_eq!(again.weighed(), straight.weighed());

    let first = &straight.standing()[0];
    assert!(first.suspect.includes(FaultKind::LoadedFilter) && first.probability > 0.5, "{first:?}");
}

/// The program's own way through a call: it tests, declares what is wrong, mends it and proves it, and puts no refrigerant in.
#[test]
fn a_sound_path_tests_declares_mends_and_proves() {
    let call = call();
    let mut visit = Visit::start(&call, 5).expect("finite");
    let mut suspects = arrived(&call);
    let aims = sound_path(&mut visit, &mut suspects, &diagnosis::Unwatched)
        .expect("finite")
        .expect("nobody stops it");
    assert_eq!(aims.len(), visit.notebook().len());
    let first =
        |wanted: fn(&Purpose) -> bool| aims.iter().position(wanted).unwrap_or_else(|| panic!("{aims:?}"));
    let tests = first(|aim| matches!(aim, Purpose::Tests { .. }));
    let declares = first(|aim| *aim == Purpose::Declares);
    let mends = first(|aim| *aim == Purpose::Repairs(FaultKind::LoadedFilter));
    let proves = first(|aim| *aim == Purpose::Proves);
    assert!(tests < declares && declares < mends && mends < proves, "{aims:?}");
    assert!(!visit.notebook().iter().any(|entry| entry.action.adds_refrigerant()));
    assert!(!visit.plant().has(FaultKind::LoadedFilter));
    assert!(visit.is_closed(), "the ticket is closed");
    let refused: Vec<_> =
        visit.notebook().iter().filter(|entry| matches!(entry.outcome, visit::Outcome::Refused(_))).collect();
    assert!(refused.is_empty(), "{refused:?}");
}

/// A break that every wait leaves as it is: the way to it is short, no filter is drawn and no ohms are read a second time, and
/// nothing is tried more than twice as long as nothing is set.
#[test]
fn the_same_test_does_not_come_again_and_again() {
    let call = call();
    let fault = Fault { kind: FaultKind::BrokenYConductor, place: None, severity: 1.0, onset_s: 0.0 };
    let mut visit = Visit::start_with(&call, 5, &[fault], call.system.plate_charge_kg).expect("finite");
    let mut suspects = arrived(&call);
    guide(&mut visit, &mut suspects, 300.0, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    let entries = visit.notebook();
    assert!(entries.len() <= 30, "{} entries", entries.len());
    let count = |action: &Move| entries.iter().filter(|entry| entry.action == *action).count();
    for entry in entries.iter().filter(|entry| entry.action.only_tells()) {
        let action = &entry.action;
        let once = matches!(
            action,
            Move::InspectFilter | Move::MeasureResistance { .. } | Move::MeasureCapacitance { .. }
        );
        assert!(count(action) <= if once { 1 } else { 2 }, "{action:?}: {} times", count(action));
    }
    let broken = Part::of(&Hypothesis::single(FaultKind::BrokenYConductor, None));
    assert_eq!(suspects.likeliest_part().0, broken, "{:?}", suspects.standing().first());
    assert!(suspects.chance_of_part(&broken) >= 0.8);
}

/// A watcher that says no stops the path.
#[test]
fn a_sound_path_can_be_stopped() {
    let call = call();
    let mut visit = Visit::start(&call, 5).expect("finite");
    let mut suspects = arrived(&call);
    assert!(
        sound_path(&mut visit, &mut suspects, &StopsAtTimes(&AtomicU32::new(0))).expect("finite").is_none()
    );
}

/// With nothing in the notebook, the ice on the coil is in no hint: a plant that freezes and a sound one that have run alike
/// get the same.
#[test]
fn hints_do_not_know_of_ice_that_nobody_has_seen() {
    let call = Call { history_s: 4200.0, ..call() };
    let suspects = arrived(&call);
    let charge_kg = call.system.plate_charge_kg;
    let visit = |severity| {
        let fault = Fault { kind: FaultKind::LoadedFilter, place: None, severity, onset_s: 0.0 };
        Visit::start_with(&call, 5, &[fault], charge_kg).expect("finite")
    };
    let (mut iced, clear) = (visit(0.9), visit(0.0));
    assert_eq!(iced.running(), clear.running());
    assert!(iced.truth().frost_mass_kg > 1.0 && clear.truth().frost_mass_kg < 0.01);
    let hints = |suspects: &Hypotheses, visit: &Visit| {
        suspects.best_tests(visit, &diagnosis::Unwatched).expect("finite").expect("nobody stops it")
    };
    let unseen = hints(&suspects, &iced);
    assert_eq!(unseen, hints(&suspects, &clear));
    // Once the block has been seen, the thaw is part of every test that wants a clear coil.
    let mut told = suspects;
    for action in [Move::OpenPanel(visit::Panel::CoilCabinet), Move::Look(Place::IndoorCoil)] {
        iced.perform(&action).expect("finite");
        told.follow(iced.notebook().last().expect("an entry"), &diagnosis::Unwatched).expect("finite");
    }
    let after = hints(&told, &iced);
    let mut running = after.iter().filter(|test| test.when == When::RunningClear).peekable();
    assert!(running.peek().is_some(), "{after:?}");
    assert!(running.all(|test| test.minutes >= 60.0), "{after:?}");
}

/// Stops at the first, second, fourth… time it is asked.
struct StopsAtTimes<'a>(&'a AtomicU32);

impl diagnosis::Progress for StopsAtTimes<'_> {
    fn report(&self, _done: diagnosis::Done) {}

    fn is_cancelled(&self) -> bool {
        (self.0.fetch_add(1, Ordering::Relaxed) + 1).is_power_of_two()
    }
}

//! A visit that is over, weighed in one go, against the same followed by and by.

use call::Call;
use diagnosis::{Hypotheses, Prior};
use visit::{AirPoint, Bulb, Duration, Move, Panel, Place, Visit};

/// How far a probability may lie from that of suspects who followed.
const ALIKE: f64 = 0.02;

fn call() -> Call {
    let (id, text) = call::built_in().iter().find(|(id, _)| *id == "kiln-street").expect("a built-in call");
    let mut call = call::read(text, id).expect("a built-in call is valid");
    call.history_s = 3600.0;
    call
}

fn visit(call: &Call, seed: u64) -> Visit {
    let mut visit = Visit::start(call, seed).expect("finite");
    for action in [
        Move::Look(Place::SupplyRegister),
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::InspectFilter,
        Move::OpenPanel(Panel::CoilCabinet),
        Move::Look(Place::MeteringDevice),
        Move::Wait(Duration::Minutes(20.0)),
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::ReadAir(AirPoint::Return, Bulb::Dry),
        Move::Look(Place::IndoorCoil),
        Move::Look(Place::Thermostat),
    ] {
        visit.perform(&action).expect("finite");
        visit.let_time_pass(11.0).expect("finite");
    }
    visit
}

fn arrived(call: &Call) -> Hypotheses {
    Hypotheses::arrive(call, &Prior::Usual, &diagnosis::Unwatched).expect("finite").expect("nobody stops it")
}

fn looked_back(
    arrived: &Hypotheses,
    visit: &Visit,
    asked: &[u32],
    followed: Option<&Hypotheses>,
) -> Hypotheses {
    let mut suspects = arrived.clone();
    let done = suspects.look_back(visit.notebook(), asked, followed, &diagnosis::Unwatched);
    done.expect("finite").expect("nobody stops it");
    suspects
}

#[test]
fn what_is_asked_for_is_what_suspects_who_followed_believe() {
    let call = call();
    let visit = visit(&call, 1);
    let arrived = arrived(&call);
    let mut followed = arrived.clone();
    followed.catch_up(&visit, 10, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    let back = looked_back(&arrived, &visit, &[5, 9], None);
    assert_eq!(back.weighed().len(), 9, "what nobody asks for is not weighed");
    for entry in [5, 9] {
        for (name, (one, other)) in
            back.names().iter().zip(back.after(entry).iter().zip(followed.after(entry)))
        {
            assert!((one - other).abs() < ALIKE, "{name:?} after {entry}: {one} and {other}");
        }
    }
    for weighed in back.weighed() {
        let total: f64 = weighed.after.iter().sum();
        assert!((total - 1.0).abs() < 1.0e-9, "{total} after {}", weighed.entry);
    }

    // Shadows that have followed, and those that others have asked for, save work and nothing else.
    let taken_over = looked_back(&arrived, &visit, &[5, 9], Some(&followed));
    assert_eq!(taken_over.weighed(), back.weighed());
    assert_eq!(taken_over.standing(), back.standing());
    let anew = looked_back(&self::arrived(&call), &visit, &[5, 9], None);
    assert_eq!(anew.weighed(), back.weighed());

    // What comes after it is followed as ever, and what was weighed stays.
    let mut on = back.clone();
    on.catch_up(&visit, 10, &diagnosis::Unwatched).expect("finite").expect("nobody stops it");
    assert_eq!(on.weighed().len(), 10);
    assert_eq!(on.weighed()[..9], *back.weighed());
}

/// One arrival does for every seed of a call.
#[test]
fn another_learners_visit_leaves_no_trace() {
    let call = call();
    let (mine, other) = (visit(&call, 1), visit(&call, 2));
    let fresh = arrived(&call);
    let alone = looked_back(&fresh, &mine, &[9], None);
    let shared = arrived(&call);
    looked_back(&shared, &other, &[9], None);
    let after_the_other = looked_back(&shared, &mine, &[9], None);
    assert_eq!(after_the_other.weighed(), alone.weighed());
}

#[test]
fn it_can_be_stopped() {
    let call = call();
    let visit = visit(&call, 1);
    let mut suspects = arrived(&call);
    assert!(suspects.look_back(visit.notebook(), &[9], None, &Stopped).expect("finite").is_none());
}

/// Nobody waits for it.
struct Stopped;

impl diagnosis::Progress for Stopped {
    fn report(&self, _done: diagnosis::Done) {}

    fn is_cancelled(&self) -> bool {
        true
    }
}

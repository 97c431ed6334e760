//! A visit is recorded the same while it is worked, in whatever slices, and when it is made again.

use call::Duration;
use visit::{AirPoint, At, Bulb, LOOK_S, Move, Place, Recorded, Recording};

fn call() -> call::Call {
    let (id, text) = call::built_in()[0];
    let mut call = call::read(text, id).expect("valid");
    call.history_s = 1800.0;
    call
}

/// Works a visit in slices of so many seconds, in turn, as a window does at its frames.
fn worked(slices_s: &[f64]) -> Recorded {
    let mut recorded = Recorded::start(&call(), 5).expect("finite");
    let mut slices = slices_s.iter().copied().cycle();
    let mut slice = || slices.next().expect("endless");
    for action in [
        Move::Look(Place::Thermostat),
        Move::Wait(Duration::Minutes(13.0)),
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::InspectFilter,
        Move::CloseTicket,
    ] {
        let until_s = recorded.visit().time_s() + 41.25;
        while recorded.visit().time_s() < until_s {
            let left_s = until_s - recorded.visit().time_s();
            recorded.let_time_pass(slice().min(left_s)).expect("finite");
        }
        recorded.begin(&action);
        while recorded.visit().busy().is_some() {
            recorded.work(slice()).expect("finite");
        }
    }
    recorded
}

#[test]
fn a_recording_made_live_is_that_of_the_record() {
    let (visit, recording) = worked(&[0.25, 7.0, 1.75, 0.5, 33.25]).into_parts();
    let again = Recording::of(&visit).expect("finite");
    assert_eq!(recording.moments().len(), visit.notebook().len());
    assert_eq!(recording, again);
    let (other, in_one_go) = worked(&[600.0]).into_parts();
    assert_eq!(other.notebook_digest(), visit.notebook_digest());
    assert_eq!(recording, in_one_go);
    let (_, replayed) = Recorded::replay(&visit.record(), visit.call()).expect("replays").into_parts();
    assert_eq!(recording, replayed);
}

#[test]
fn looks_are_five_seconds_apart_and_end_with_their_stretch() {
    let (visit, recording) = worked(&[1.0]).into_parts();
    let looks = recording.looks();
    assert_eq!((looks[0].sample.since_arrival_s, looks[0].at), (0.0, At::End));
    let apart: Vec<f64> = looks
        .windows(2)
        .map(|pair| pair[1].sample.since_arrival_s - pair[0].sample.since_arrival_s)
        .collect();
    assert!(apart.iter().all(|apart_s| *apart_s > 0.0 && *apart_s <= LOOK_S), "{apart:?}");
    for moment in recording.moments() {
        let end = looks.iter().find(|look| look.sample.since_arrival_s == moment.since_arrival_s);
        assert_eq!(end.map(|look| look.at), Some(At::End), "entry {}", moment.entry);
    }
    assert_eq!(recording.length_s(), visit.time_s() - visit.arrival_s());
}

/// A visit that goes on from its record is recorded on without a seam.
#[test]
fn a_visit_that_goes_on_is_recorded_as_if_it_had_never_stopped() {
    let mut one = Recorded::start(&call(), 5).expect("finite");
    one.let_time_pass(20.0).expect("finite");
    one.perform(&Move::InspectFilter).expect("finite");
    let mut two = Recorded::replay(&one.visit().record(), &call()).expect("replays");
    for recorded in [&mut one, &mut two] {
        recorded.let_time_pass(33.0).expect("finite");
        recorded.perform(&Move::CloseTicket).expect("finite");
    }
    assert_eq!(one.into_parts().1, two.into_parts().1);
}

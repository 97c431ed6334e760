//! What the manometer tells the diagnosis: where in the way of the air something stands.

mod common;

use common::call;
use diagnosis::{Cause, Hypotheses, Prior, Unwatched};
use plant::FaultKind;
use visit::{Duration, Move, StaticTap, Visit};

/// Weak air is told by many causes; two pairs of taps tell a shut supply from a fallen return duct and from dirt.
#[test]
fn the_place_of_the_drop_tells_one_cause_of_weak_air_from_another() {
    let call = call(
        "split-3-ton-r410a-txv",
        "(kind: ClosedRegisters, severity: (0.5, 0.5), onset: (Hours(0), Hours(0)))",
    );
    let mut visit = Visit::start(&call, 5).expect("finite");
    let arrived = Hypotheses::arrive(&call, &Prior::Usual, &Unwatched).expect("finite");
    let mut suspects = arrived.expect("nobody stops it");
    let of = |suspects: &Hypotheses, kind| {
        suspects.chance_where(&suspects.probabilities(), |one| one.causes == [Cause { kind, place: None }])
    };
    let before = [FaultKind::ClosedRegisters, FaultKind::CollapsedReturnDuct].map(|kind| of(&suspects, kind));
    for action in [
        Move::Wait(Duration::Minutes(5.0)),
        Move::MeasureStatic { high: StaticTap::Supply, low: StaticTap::Room },
        Move::MeasureStatic { high: StaticTap::Room, low: StaticTap::Return },
    ] {
        visit.perform(&action).expect("finite");
        let entry = visit.notebook().last().expect("an entry").clone();
        suspects.follow(&entry, &Unwatched).expect("finite").expect("nobody stops it");
    }
    let after = [FaultKind::ClosedRegisters, FaultKind::CollapsedReturnDuct].map(|kind| of(&suspects, kind));
    assert!(after[0] > 0.5 && after[0] > 5.0 * before[0], "{before:?} {after:?}");
    assert!(after[1] < 0.1 * before[1], "{before:?} {after:?}");
}

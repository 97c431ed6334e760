//! The manometer: static pressures along the way of the air, and what tells a filter from a coil and from ducts.

mod common;

use call::Duration;
use common::{all, cool, fault, off, perform, reading, refusal, sound, with};
use plant::FaultKind;
use visit::{GaugeNote, Move, Note, Panel, Refusal, StaticTap, Trust, Visit};

const EXTERNAL: Move = of(StaticTap::Supply, StaticTap::BeforeCoil);
const FILTER: Move = of(StaticTap::Return, StaticTap::BeforeCoil);
const COIL: Move = of(StaticTap::BeforeCoil, StaticTap::AfterCoil);
const RETURN_DUCT: Move = of(StaticTap::Room, StaticTap::Return);
const SUPPLY: Move = of(StaticTap::Supply, StaticTap::Room);

const fn of(high: StaticTap, low: StaticTap) -> Move {
    Move::MeasureStatic { high, low }
}

fn running(mut visit: Visit) -> Visit {
    all(&mut visit, &[cool(60.0), Move::Wait(Duration::Minutes(10.0))]);
    visit
}

/// What the manometer shows, Pa.
fn shown_pa(visit: &mut Visit, action: &Move) -> f64 {
    let shown = reading(visit, action);
    assert_eq!(shown.trust, Trust::Sound);
    shown.value
}

#[test]
fn the_manometer_shows_what_the_plant_has_at_its_taps() {
    let mut visit = running(sound(3));
    let truth = visit.truth().clone();
    for (action, true_pa) in [
        (RETURN_DUCT, -truth.return_static_pa),
        (FILTER, truth.filter_drop_pa()),
        (COIL, truth.coil_drop_pa()),
        (SUPPLY, truth.supply_static_pa),
        (EXTERNAL, truth.external_static_pa()),
        (of(StaticTap::AfterCoil, StaticTap::Supply), truth.coil_outlet_static_pa - truth.supply_static_pa),
    ] {
        let shown_pa = shown_pa(&mut visit, &action);
        // One percent and one pascal, noise on it.
        assert!((shown_pa - true_pa).abs() < 1.3 + 0.013 * true_pa.abs(), "{action:?}: {shown_pa} {true_pa}");
    }
}

/// A clogged filter takes its own drop, a matted coil and a shut duct theirs: each is told from the others by where it is.
#[test]
fn what_is_in_the_way_shows_between_its_own_taps() {
    let mut clean = running(sound(3));
    for (kind, severity, own) in [
        (FaultKind::LoadedFilter, 0.6, FILTER),
        (FaultKind::FouledEvaporator, 0.5, COIL),
        (FaultKind::CollapsedReturnDuct, 0.6, RETURN_DUCT),
        (FaultKind::ClosedRegisters, 0.6, SUPPLY),
    ] {
        let mut visit = running(with(3, &[fault(kind, None, severity)]));
        for action in [FILTER, COIL, RETURN_DUCT, SUPPLY] {
            // A matted coil has no filter before it.
            if kind == FaultKind::FouledEvaporator && action == FILTER {
                continue;
            }
            let (there_pa, sound_pa) = (shown_pa(&mut visit, &action), shown_pa(&mut clean, &action));
            if action == own {
                assert!(there_pa > 1.3 * sound_pa, "{kind:?} {action:?}: {there_pa} {sound_pa}");
            } else {
                assert!(there_pa < sound_pa + 1.0, "{kind:?} {action:?}: {there_pa} {sound_pa}");
            }
        }
    }
}

#[test]
fn the_plate_is_told_where_it_says_something() {
    let mut visit = running(sound(3));
    let said = |entry: &visit::Entry| {
        entry.notes.iter().any(|note| matches!(note, Note::Gauge(GaugeNote::PlateAllowsStatic { .. })))
    };
    assert!(said(&perform(&mut visit, &EXTERNAL)) && !said(&perform(&mut visit, &FILTER)));
}

#[test]
fn it_needs_two_taps_and_closed_panels_and_shows_nothing_without_air() {
    let mut visit = sound(3);
    let same = of(StaticTap::Room, StaticTap::Room);
    assert_eq!(refusal(&mut visit, &same), Refusal::SameTap);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    assert_eq!(refusal(&mut visit, &COIL), Refusal::PanelOffSpoilsStatic(Panel::CoilCabinet));
    assert_eq!(visit.needed_first(&COIL), Some(vec![Move::ClosePanel(Panel::CoilCabinet)]));
    all(&mut visit, &[Move::ClosePanel(Panel::CoilCabinet), off(), Move::Wait(Duration::Minutes(20.0))]);
    let still_pa = shown_pa(&mut visit, &EXTERNAL);
    assert!(still_pa.abs() < 2.0, "{still_pa}");
}

//! Filter slot and coil face: what is found there, what stays there, and in which order it comes right. And the points of a line
//! at which a restriction shows.

mod common;

use call::{Duration, Milestone, Temperature};
use common::{all, cool, fault, frozen, off, perform, reading, refusal, with};
use plant::{FanSetting, FaultKind, Mode, Switch, Work};
use visit::{FilterNote, Move, Note, Observation, Outcome, Panel, PipePoint, Place, Refusal, Sight, Visit};

fn seen(visit: &mut Visit, action: &Move) -> (Vec<Observation>, Vec<Note>) {
    let entry = perform(visit, action);
    match entry.outcome {
        Outcome::Seen(observations) => (observations, entry.notes),
        other => panic!("{action:?} should be seen, was {other:?}"),
    }
}

const COIL: Move = Move::Look(Place::IndoorCoil);
const PEEL: Move = Move::Repair(Work::PeelFilterMedium);
const WASH: Move = Move::Repair(Work::CleanCoil);

/// Compressor off, blower on, until the ice is gone.
fn thaw(visit: &mut Visit) {
    let fan_only = Move::SetThermostat {
        mode: Mode::Off,
        fan: FanSetting::On,
        set_point: Temperature::Fahrenheit(70.0),
    };
    all(visit, &[fan_only]);
    for _ in 0..40 {
        all(visit, &[Move::Wait(Duration::Minutes(30.0))]);
        if visit.truth().frost_mass_kg < 0.005 {
            return;
        }
    }
    panic!("{} kg of ice are left", visit.truth().frost_mass_kg);
}

#[test]
fn the_medium_of_a_collapsed_filter_comes_off_only_after_the_thaw() {
    let mut visit = frozen(5);
    assert!(!visit.sees_coil_face(), "the night made a block of it");
    let slot = seen(&mut visit, &Move::InspectFilter).0;
    assert_eq!(slot, [Observation::FilterCollapsed]);
    assert_eq!(refusal(&mut visit, &PEEL), Refusal::BehindPanel(Panel::CoilCabinet));
    all(&mut visit, &[off(), Move::IndoorServiceSwitch(Switch::Open), Move::OpenPanel(Panel::CoilCabinet)]);
    let (iced, said) = seen(&mut visit, &COIL);
    assert!(
        iced.contains(&Observation::BlockOfIce) && !iced.contains(&Observation::FilterOnCoil),
        "{iced:?}"
    );
    let medium = Note::Sight(Sight::MediumOnCoil);
    assert!(!said.contains(&medium), "{said:?}");
    assert_eq!(refusal(&mut visit, &PEEL), Refusal::IceBeforePeel);
    assert_eq!(refusal(&mut visit, &WASH), Refusal::IceBeforeWash);
    // A new filter pulls nothing off the fins.
    let (changed, _) = seen(&mut visit, &Move::ReplaceFilter);
    assert!(changed.contains(&Observation::PartWasFaulty(FaultKind::LoadedFilter)));
    all(&mut visit, &[Move::IndoorServiceSwitch(Switch::Closed)]);
    thaw(&mut visit);
    let (bare, said) = seen(&mut visit, &COIL);
    assert!(bare.contains(&Observation::NoIce) && bare.contains(&Observation::FilterOnCoil), "{bare:?}");
    assert!(said.contains(&medium), "{said:?}");
    assert_eq!(seen(&mut visit, &Move::InspectFilter).0, [Observation::FilterClean]);
    assert!(visit.plant().has(FaultKind::LoadedFilter));
    let choked = visit.truth().airflow_m3_s;

    all(&mut visit, &[Move::IndoorServiceSwitch(Switch::Open)]);
    assert_eq!(seen(&mut visit, &PEEL).0, [Observation::PartWasFaulty(FaultKind::LoadedFilter)]);
    assert!(!seen(&mut visit, &COIL).0.contains(&Observation::FilterOnCoil));
    assert!(!visit.plant().has(FaultKind::LoadedFilter));
    assert_eq!(refusal(&mut visit, &PEEL), Refusal::NoMediumOnCoil);
    all(&mut visit, &[Move::IndoorServiceSwitch(Switch::Closed), Move::Wait(Duration::Minutes(2.0))]);
    assert!(visit.truth().airflow_m3_s > 1.5 * choked, "{choked} then {}", visit.truth().airflow_m3_s);
    assert!(visit.hazards().is_empty(), "{:?}", visit.hazards());
}

/// A verification names what a half-done repair has left.
#[test]
fn a_repair_by_halves_is_not_proven() {
    let proof = [cool(60.0), Move::Verify];
    let left = |faults: &[plant::Fault], moves: &[Move]| {
        let mut visit = with(4, faults);
        all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet), off()]);
        if visit.truth().frost_mass_kg > 0.005 {
            thaw(&mut visit);
        }
        all(&mut visit, moves);
        all(&mut visit, &proof[..1]);
        match perform(&mut visit, &proof[1]).outcome {
            Outcome::Verified(found) => found.faults_left,
            other => panic!("{other:?}"),
        }
    };
    let collapsed = [fault(FaultKind::LoadedFilter, None, 0.93)];
    assert_eq!(left(&collapsed, &[Move::ReplaceFilter]), [FaultKind::LoadedFilter]);
    assert_eq!(left(&collapsed, &[Move::ReplaceFilter, PEEL]), []);
    let matted = [fault(FaultKind::FouledEvaporator, None, 0.4)];
    assert_eq!(left(&matted, &[WASH]), [FaultKind::FouledEvaporator]);
    assert_eq!(left(&matted, &[Move::ReplaceFilter]), [FaultKind::FouledEvaporator]);
    assert_eq!(left(&matted, &[WASH, Move::ReplaceFilter]), []);
}

#[test]
fn a_slot_without_a_filter_is_empty_until_one_is_fitted() {
    let mut visit = with(4, &[fault(FaultKind::FouledEvaporator, None, 0.5)]);
    let (observations, said) = seen(&mut visit, &Move::InspectFilter);
    assert_eq!(observations, [Observation::FilterMissing]);
    assert_eq!(said[0], Note::Filter(FilterNote::SlotEmpty), "{said:?}");
    assert!(visit.milestones().iter().any(|(reached, _)| *reached == Milestone::FilterInspected));
    // Looked at once more, and after the wash, it is as empty.
    all(&mut visit, &[off(), Move::OpenPanel(Panel::CoilCabinet), Move::IndoorServiceSwitch(Switch::Open)]);
    all(&mut visit, &[Move::Wait(Duration::Hours(3.0)), WASH]);
    assert_eq!(seen(&mut visit, &Move::InspectFilter).0, [Observation::FilterMissing]);
    // A filter where none was is no part changed for nothing.
    let fitted = seen(&mut visit, &Move::ReplaceFilter).0;
    assert!(!fitted.contains(&Observation::PartWasSound), "{fitted:?}");
    assert_eq!(seen(&mut visit, &Move::InspectFilter).0, [Observation::FilterClean]);
    assert!(!visit.plant().has(FaultKind::FouledEvaporator));
    // One more is.
    assert!(seen(&mut visit, &Move::ReplaceFilter).0.contains(&Observation::PartWasSound));
}

/// Clamps at valve, drier inlet and drier outlet tell on which side of the drier's inlet the liquid flashes.
#[test]
fn clamps_along_the_liquid_line_tell_a_kink_from_a_drier() {
    let drops = |kind| {
        let mut visit = with(4, &[fault(kind, None, 0.96)]);
        all(&mut visit, &[cool(55.0), Move::Wait(Duration::Minutes(20.0))]);
        let mut at = |point| reading(&mut visit, &Move::ReadPipe(point)).value;
        let [valve, before, after] =
            [PipePoint::LiquidAtServiceValve, PipePoint::LiquidBeforeDrier, PipePoint::LiquidAfterDrier]
                .map(&mut at);
        (valve - before, before - after)
    };
    let (kink, drier) = drops(FaultKind::KinkedLiquidLine);
    assert!(kink > 4.0 && drier < 0.5 * kink, "kinked: {kink:.1} K, then {drier:.1} K over the drier");
    let (kink, drier) = drops(FaultKind::PluggedDrier);
    assert!(kink.abs() < 2.0 && drier > 4.0, "plugged: {kink:.1} K, then {drier:.1} K over the drier");
}

#[test]
fn a_new_length_of_suction_line_mends_the_kink() {
    let mut visit = with(4, &[fault(FaultKind::KinkedSuctionLine, None, 0.9)]);
    let work = Move::Repair(Work::ReplaceSuctionLine);
    assert!(visit.offers(Place::LineSet).iter().any(|offer| offer.action == work));
    all(&mut visit, &[off(), Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges, Move::Recover]);
    assert_eq!(seen(&mut visit, &work).0, [Observation::PartWasFaulty(FaultKind::KinkedSuctionLine)]);
    assert!(!visit.plant().has(FaultKind::KinkedSuctionLine));
    let (looked, _) = seen(&mut visit, &Move::Look(Place::LineSet));
    assert!(!looked.contains(&Observation::SuctionLineKinked), "{looked:?}");
}

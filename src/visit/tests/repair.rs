//! Parts replaced and things put right: every piece of work of the plant, the sound way and the others.

mod common;

use call::{Mass, Milestone};
use common::{all, cool, fault, off, perform, reading, refusal, sound, tells, with};
use plant::{BlowerKind, Capacitor, FaultKind, Switch, Work};
use visit::{
    Caution, Circuit, Entry, Hazard, Location, Move, Note, Observation, Outcome, Panel, Place, Refusal,
    SiteNote, Visit, WorkNote,
};

const OWN: [Work; 3] = [Work::ReplaceFilter, Work::StrapAndInsulateBulb, Work::ReplaceMeteringDevice];

fn jobs() -> impl Iterator<Item = Work> {
    Work::PARTS.into_iter().filter(|work| !OWN.contains(work))
}

fn fits(visit: &Visit, work: Work) -> bool {
    match work {
        Work::ReplaceBlowerCapacitor => visit.plant().blower_kind() == BlowerKind::Psc,
        Work::ReplaceBlowerModule | Work::ReconnectBlowerCommand => {
            visit.plant().blower_kind() == BlowerKind::Ecm
        }
        _ => true,
    }
}

/// Power off everywhere, panels open, capacitors discharged, as a careful technician leaves it before work.
fn made_safe(visit: &mut Visit) {
    all(
        visit,
        &[
            off(),
            Move::IndoorServiceSwitch(Switch::Open),
            Move::OpenPanel(Panel::BlowerCompartment),
            Move::OpenPanel(Panel::CoilCabinet),
            Move::OutdoorDisconnect(Switch::Open),
            Move::OpenPanel(Panel::OutdoorElectrical),
            Move::DischargeCapacitor(Capacitor::Compressor),
            Move::DischargeCapacitor(Capacitor::OutdoorFan),
        ],
    );
    if fits(visit, Work::ReplaceBlowerCapacitor) {
        all(visit, &[Move::DischargeCapacitor(Capacitor::Blower)]);
    }
}

fn with_blower(kind: BlowerKind, faults: &[plant::Fault]) -> Visit {
    let name = match kind {
        BlowerKind::Psc => "split-3-ton-r410a-txv",
        BlowerKind::Ecm => "split-3-ton-r32-txv-ecm",
    };
    let mut call = common::short_call();
    call.system = plant::System::built_in(name).expect("it is in the catalogue");
    let visit =
        Visit::start_with(&call, 6, faults, call.system.plate_charge_kg).expect("the history is finite");
    assert_eq!(visit.plant().blower_kind(), kind);
    visit
}

#[test]
fn every_job_is_offered_where_the_part_is() {
    let psc = with_blower(BlowerKind::Psc, &[]);
    let ecm = with_blower(BlowerKind::Ecm, &[]);
    for work in jobs() {
        let offers: Vec<visit::Offer> = [&psc, &ecm]
            .into_iter()
            .flat_map(|visit| Place::ALL.into_iter().flat_map(|p| visit.offers(p)))
            .collect();
        let offer = offers.iter().find(|offer| offer.action == Move::Repair(work));
        let offer = offer.unwrap_or_else(|| panic!("{work:?} is offered nowhere"));
        assert!(offer.minutes >= 5.0, "{offer:?}");
        if work.opens_circuit() {
            assert_eq!(offer.caution, Some(Caution::CircuitWork), "{offer:?}");
        }
    }
    for work in OWN {
        let offered = Place::ALL
            .into_iter()
            .any(|place| psc.offers(place).iter().any(|offer| offer.action == Move::Repair(work)));
        assert!(!offered, "{work:?} has a move of its own");
        assert_eq!(refusal(&mut psc.clone(), &Move::Repair(work)), Refusal::HasMoveOfItsOwn(work));
    }
}

#[test]
fn a_part_that_is_not_there_is_refused() {
    let psc = with_blower(BlowerKind::Psc, &[]);
    let mut ecm = with_blower(BlowerKind::Ecm, &[]);
    for (visit, work, reason) in [
        (&psc, Work::ReplaceBlowerModule, Refusal::PscHasNoModule),
        (&psc, Work::ReconnectBlowerCommand, Refusal::PscHasNoHarness),
        (&ecm, Work::ReplaceBlowerCapacitor, Refusal::EcmHasNoRunCapacitor),
    ] {
        assert_eq!(refusal(&mut visit.clone(), &Move::Repair(work)), reason, "{work:?}");
    }
    let discharge = Move::DischargeCapacitor(Capacitor::Blower);
    assert_eq!(refusal(&mut ecm, &discharge), Refusal::EcmHasNoRunCapacitor);
}

/// Recovered and purged, on a place without flames: one of the systems burns (class A2L). Both take the better part of an hour, and
/// the place is looked at again before each.
fn emptied(visit: &mut Visit) {
    let safe = Location::ALL.map(Move::MakeAreaSafe);
    all(visit, &safe);
    all(visit, &[Move::ConnectGauges, Move::Recover]);
    all(visit, &safe);
    all(visit, &[Move::PurgeWithNitrogen]);
    all(visit, &safe);
}

/// What was done, what the old part showed, and air in the circuit where it was opened; nothing else.
fn assert_told(entry: &Entry, work: Work, shown: WorkNote) {
    let mut told = vec![WorkNote::Done(work), shown];
    if work.opens_circuit() {
        told.push(WorkNote::AirInCircuit);
    }
    let told: Vec<Note> = told.into_iter().map(Note::from).collect();
    assert_eq!(entry.notes, told, "{work:?}");
}

#[test]
fn every_job_finds_its_fault_and_finds_nothing_on_a_sound_part() {
    for kind in [BlowerKind::Psc, BlowerKind::Ecm] {
        for work in jobs() {
            let mut clean = with_blower(kind, &[]);
            // What is peeled off the coil is no part: it is there or there is nothing to do (air_way.rs).
            if !fits(&clean, work) || work == Work::PeelFilterMedium {
                continue;
            }
            made_safe(&mut clean);
            let before = clean.cost();
            if work.opens_circuit() {
                emptied(&mut clean);
            }
            let entry = perform(&mut clean, &Move::Repair(work));
            assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::PartWasSound]), "{work:?}");
            assert_told(&entry, work, WorkNote::WasSound(work));
            assert!(clean.cost() >= before && clean.hazards().is_empty(), "{work:?}: {:?}", clean.hazards());
            assert!(clean.milestones().iter().any(|(reached, _)| *reached == Milestone::PartReplaced));
            let expected = if work.opens_circuit() { Circuit::Opened } else { Circuit::Charged };
            assert_eq!(clean.site().circuit, expected, "{work:?}");
            for cured in &work.repairs() {
                let mut visit = with_blower(kind, &[fault(*cured, None, 0.5)]);
                made_safe(&mut visit);
                if work.opens_circuit() {
                    emptied(&mut visit);
                }
                if visit.truth().frost_mass_kg > 0.01 {
                    all(&mut visit, &[Move::Wait(quantity::Duration::Hours(4.0))]);
                }
                let entry = perform(&mut visit, &Move::Repair(work));
                assert_eq!(
                    entry.outcome,
                    Outcome::Seen(vec![Observation::PartWasFaulty(*cured)]),
                    "{work:?} {cured:?}"
                );
                // A coil that has been washed still wants its filter.
                if work == Work::CleanCoil {
                    assert!(visit.plant().has(*cured));
                    all(&mut visit, &[Move::ReplaceFilter]);
                }
                assert!(!visit.plant().has(*cured));
                assert_told(&entry, work, WorkNote::WasFaulty(work));
            }
        }
    }
}

#[test]
fn a_closed_panel_stops_the_job() {
    let table = [
        (Work::ReplaceBlowerMotor, Panel::BlowerCompartment),
        (Work::ReplaceBoard, Panel::BlowerCompartment),
        (Work::CleanCoil, Panel::CoilCabinet),
        (Work::ReplaceContactor, Panel::OutdoorElectrical),
        (Work::ReplaceCompressor, Panel::OutdoorElectrical),
    ];
    let mut visit = sound(3);
    for (work, panel) in table {
        assert_eq!(refusal(&mut visit, &Move::Repair(work)), Refusal::BehindPanel(panel), "{work:?}");
    }
    let discharge = Move::DischargeCapacitor(Capacitor::OutdoorFan);
    assert_eq!(refusal(&mut visit, &discharge), Refusal::BehindPanel(Panel::OutdoorElectrical));
}

#[test]
fn live_work_and_charged_capacitors_are_kept_as_hazards() {
    let mut live = sound(3);
    all(&mut live, &[Move::OpenPanel(Panel::BlowerCompartment), Move::Repair(Work::ReplaceControlFuse)]);
    assert_eq!(live.hazards(), [(Hazard::WiringWorkWithPowerOn, 2)]);

    let mut charged = sound(3);
    all(
        &mut charged,
        &[
            cool(55.0),
            Move::Wait(quantity::Duration::Minutes(6.0)),
            Move::OutdoorDisconnect(Switch::Open),
            Move::OpenPanel(Panel::OutdoorElectrical),
        ],
    );
    let mut careful = charged.clone();
    all(&mut charged, &[Move::Repair(Work::ReplaceFanCapacitor)]);
    assert_eq!(charged.hazards(), [(Hazard::ChargedCapacitorTouched, 5)]);
    all(
        &mut careful,
        &[Move::DischargeCapacitor(Capacitor::OutdoorFan), Move::Repair(Work::ReplaceFanCapacitor)],
    );
    assert!(careful.hazards().is_empty(), "{:?}", careful.hazards());
}

#[test]
fn a_new_drier_in_a_charged_circuit_vents_and_needs_vacuum_and_charge_as_any_work_on_the_circuit() {
    let drier = Move::Repair(Work::ReplaceDrier);
    let mut rash = sound(9);
    all(&mut rash, std::slice::from_ref(&drier));
    let hazards: Vec<Hazard> = rash.hazards().iter().map(|(hazard, _)| *hazard).collect();
    assert_eq!(hazards[..2], [Hazard::CircuitWorkWithPowerOn, Hazard::RefrigerantVented]);

    let mut visit = with(9, &[fault(FaultKind::PluggedDrier, None, 0.8)]);
    let plate_kg = visit.plant().system().plate_charge_kg;
    all(
        &mut visit,
        &[off(), Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges, Move::Recover, drier],
    );
    assert_eq!(refusal(&mut visit, &Move::WeighIn(Mass::Kilograms(plate_kg))), Refusal::NoVacuumToWeighInto);
    assert!(reading(&mut visit, &Move::Evacuate).value < 133.3);
    all(
        &mut visit,
        &[Move::WeighIn(Mass::Kilograms(plate_kg)), Move::OutdoorDisconnect(Switch::Closed), cool(60.0)],
    );
    let Outcome::Verified(found) = perform(&mut visit, &Move::Verify).outcome else { panic!("it verifies") };
    assert!(found.steady && found.faults_left.is_empty(), "{found:?}");
    assert!(visit.hazards().is_empty(), "{:?}", visit.hazards());
}

#[test]
fn welded_contacts_let_the_compressor_run_on_when_the_thermostat_is_off() {
    let mut visit = with(4, &[fault(FaultKind::WeldedContactor, None, 1.0)]);
    let stops = |visit: &Visit| {
        visit.milestones().iter().filter(|(reached, _)| *reached == Milestone::CompressorStopped).count()
    };
    let entry = perform(&mut visit, &off());
    assert!(tells(&entry, SiteNote::RunsOn), "{:?}", entry.notes);
    assert_eq!(stops(&visit), 0);
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Open)]);
    assert_eq!(stops(&visit), 1);
}

/// A short at the outdoor unit melts one fuse after the other; seen at the board and at the cable, mended, it is over.
#[test]
fn a_new_fuse_alone_does_not_mend_a_short() {
    let mut visit = with_blower(BlowerKind::Psc, &[fault(FaultKind::ShortedYConductor, None, 1.0)]);
    let new_fuse = |visit: &mut Visit| {
        all(visit, &[Move::IndoorServiceSwitch(Switch::Open)]);
        let entry = perform(visit, &Move::Repair(Work::ReplaceControlFuse));
        all(visit, &[Move::IndoorServiceSwitch(Switch::Closed)]);
        entry.outcome
    };
    let calling = [cool(55.0), Move::Wait(quantity::Duration::Minutes(10.0))];
    all(&mut visit, &[Move::OpenPanel(Panel::BlowerCompartment), Move::OpenPanel(Panel::OutdoorElectrical)]);
    all(&mut visit, &calling);
    for _ in 0..2 {
        assert!(visit.plant().control_fuse_is_blown());
        let was_faulty = Outcome::Seen(vec![Observation::PartWasFaulty(FaultKind::BlownControlFuse)]);
        assert_eq!(new_fuse(&mut visit), was_faulty);
        all(&mut visit, &calling);
    }
    for (place, sight) in
        [(Place::ControlBoard, Observation::FuseBlown), (Place::OutdoorUnit, Observation::CableChafed)]
    {
        let entry = perform(&mut visit, &Move::Look(place));
        let Outcome::Seen(seen) = entry.outcome else { panic!("{place:?}: {:?}", entry.outcome) };
        assert!(seen.contains(&sight), "{place:?}: {seen:?}");
    }
    let mended = perform(&mut visit, &Move::Repair(Work::RepairConductor)).outcome;
    assert_eq!(mended, Outcome::Seen(vec![Observation::PartWasFaulty(FaultKind::ShortedYConductor)]));
    new_fuse(&mut visit);
    all(&mut visit, &calling);
    assert!(!visit.plant().control_fuse_is_blown() && visit.plant().compressor_runs());
}

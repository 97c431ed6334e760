//! What the site forbids, offers, shows and costs.

mod common;

use std::collections::BTreeSet;

use call::{Duration, Mass, Milestone, Question, Temperature};
use common::{all, cool, fault, frozen, off, perform, refusal, sound, tells, with};
use plant::{FanSetting, FaultKind, LeakPlace, Mode, Switch, Terminal};
use strum::VariantNames;
use visit::{
    BulbState, Caution, GaugeNote, Gauges, Hazard, LeakMethod, Location, Move, Observation, Outcome, Panel,
    PipePoint, Place, Port, Refusal, SiteNote, Visit,
};

fn seen(visit: &mut Visit, action: &Move) -> Vec<Observation> {
    match perform(visit, action).outcome {
        Outcome::Seen(observations) => observations,
        other => panic!("{action:?} should see, was {other:?}"),
    }
}

#[test]
fn what_is_closed_or_not_there_is_refused_and_costs_time() {
    let volts = |from, to| Move::MeasureVoltage { from, to };
    let behind_cabinet = Refusal::BehindPanel(Panel::CoilCabinet);
    let table = [
        (Move::WatchBlower, Refusal::PanelHidesWheel),
        (Move::Look(Place::MeteringDevice), Refusal::CabinetHidesMeteringDevice),
        (Move::Look(Place::ControlBoard), Refusal::PanelHidesTerminalStrip),
        (volts(Terminal::Y, Terminal::C), Refusal::TerminalsBehindPanel(Panel::BlowerCompartment)),
        (
            volts(Terminal::ContactorLoad1, Terminal::ContactorLoad2),
            Refusal::TerminalsBehindPanel(Panel::OutdoorElectrical),
        ),
        (volts(Terminal::R, Terminal::ContactorCoilC), Refusal::LeadsTooShort),
        (volts(Terminal::R, Terminal::R), Refusal::SameTerminal),
        (Move::ReadGauge(Port::Suction), Refusal::NoGauges),
        (Move::ReadPipe(PipePoint::SuctionAtBulb), behind_cabinet),
        (Move::ReadPipe(PipePoint::SensingBulb), behind_cabinet),
        (Move::ReadPipe(PipePoint::LiquidAtMeteringDevice), behind_cabinet),
        (Move::WarmBulb, behind_cabinet),
        (Move::ChillBulb, behind_cabinet),
        (Move::SearchLeak(LeakPlace::IndoorCoil, LeakMethod::Bubbles), behind_cabinet),
        (Move::RepairLeak(LeakPlace::IndoorCoil), behind_cabinet),
        (Move::ReplaceMeteringDevice, behind_cabinet),
        (Move::Recover, Refusal::NoHoses),
        (Move::Evacuate, Refusal::NoHoses),
        (Move::WeighIn(Mass::Kilograms(3.0)), Refusal::NoHoses),
        (Move::AddRefrigerant(Mass::Kilograms(0.2)), Refusal::NoHoses),
        (Move::DisconnectGauges, Refusal::NoHosesOn),
        (Move::ClosePanel(Panel::CoilCabinet), Refusal::PanelClosedAlready(Panel::CoilCabinet)),
        (Move::OutdoorDisconnect(Switch::Closed), Refusal::DisconnectInAlready),
        (Move::IndoorServiceSwitch(Switch::Closed), Refusal::AirHandlerOnAlready),
        (Move::Wait(Duration::Hours(13.0)), Refusal::WaitOutOfRange),
        (Move::Wait(Duration::Seconds(f64::NAN)), Refusal::WaitOutOfRange),
        (cool(20.0), Refusal::SetPointOutOfRange),
    ];
    let mut visit = sound(3);
    for (action, reason) in table {
        let before_s = visit.time_s();
        assert_eq!(refusal(&mut visit, &action), reason, "{action:?}");
        assert!(visit.time_s() >= before_s + 60.0, "{action:?} costs its minute");
    }
    assert!(visit.milestones().is_empty(), "a refusal reaches nothing: {:?}", visit.milestones());
}

#[test]
fn charging_and_vacuum_follow_the_state_of_the_circuit() {
    let mut visit = sound(3);
    all(&mut visit, &[off(), Move::ConnectGauges]);
    assert_eq!(refusal(&mut visit, &Move::ConnectGauges), Refusal::HosesOnAlready);
    assert_eq!(refusal(&mut visit, &Move::Evacuate), Refusal::CircuitUnderPressure);
    assert_eq!(refusal(&mut visit, &Move::WeighIn(Mass::Kilograms(3.0))), Refusal::TopUpIsNotWeighingIn);
    for mass in [Mass::Kilograms(0.0), Mass::Pounds(-1.0), Mass::Grams(f64::NAN), Mass::Pounds(30.0)] {
        assert_eq!(refusal(&mut visit, &Move::AddRefrigerant(mass)), Refusal::MassOutOfRange);
    }
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Open), Move::Recover]);
    assert_eq!(refusal(&mut visit, &Move::Recover), Refusal::NothingToRecover);
    assert_eq!(refusal(&mut visit, &Move::WeighIn(Mass::Kilograms(3.0))), Refusal::NoVacuumToWeighInto);
    assert_eq!(refusal(&mut visit, &Move::Verify), Refusal::NoChargeToRun);
    all(&mut visit, &[Move::Evacuate]);
    assert_eq!(refusal(&mut visit, &Move::AddRefrigerant(Mass::Kilograms(0.2))), Refusal::WeighWholeChargeIn);
}

#[test]
fn verification_needs_power_and_a_call_for_cooling() {
    let mut visit = sound(3);
    all(&mut visit, &[off()]);
    assert_eq!(refusal(&mut visit, &Move::Verify), Refusal::NothingStartsThermostatOff);
    all(&mut visit, &[cool(70.0), Move::OutdoorDisconnect(Switch::Open)]);
    assert_eq!(refusal(&mut visit, &Move::Verify), Refusal::NothingStartsDisconnectOut);
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Closed), Move::IndoorServiceSwitch(Switch::Open)]);
    assert_eq!(refusal(&mut visit, &Move::Verify), Refusal::NothingStartsAirHandlerOff);
}

#[test]
fn a_fixed_orifice_has_no_bulb() {
    let text = common::call_text("Minutes(20)").replace("r410a-txv", "r410a-orifice");
    let call = call::read(&text, "orifice").expect("the call is valid with an orifice");
    let mut visit = Visit::start(&call, 1).expect("the history is finite");
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    for action in
        [Move::WarmBulb, Move::InsulateBulb, Move::PutBulbBack, Move::ReadPipe(PipePoint::SensingBulb)]
    {
        assert_eq!(refusal(&mut visit, &action), Refusal::NoBulb, "{action:?}");
    }
}

#[test]
fn walking_costs_a_minute() {
    let mut visit = sound(3);
    let near_s = {
        let entry = perform(&mut visit, &Move::Look(Place::Thermostat));
        entry.finished_s - entry.started_s
    };
    let far = perform(&mut visit, &Move::Look(Place::OutdoorUnit));
    assert_eq!(far.finished_s - far.started_s, near_s + 60.0);
    assert_eq!(visit.site().standing, Location::Outdoors);
    let stay = perform(&mut visit, &Move::Look(Place::LineSet));
    assert_eq!(stay.finished_s - stay.started_s, near_s);
}

#[test]
fn every_place_offers_moves_and_every_kind_of_move_is_offered_somewhere() {
    let mut offered: BTreeSet<String> = BTreeSet::new();
    let kind = |action: &Move| {
        let text = format!("{action:?}");
        text.split(['(', ' ', '{']).next().unwrap_or_default().to_owned()
    };
    let mut opened = sound(3);
    all(&mut opened, &[Move::OpenPanel(Panel::CoilCabinet), Move::ConnectGauges]);
    for visit in [sound(3), opened] {
        for place in Place::ALL {
            let offers = visit.offers(place);
            assert!(offers.iter().any(|offer| offer.action == Move::Look(place)), "{place:?}");
            for offer in &offers {
                assert!(offer.minutes > 0.0, "{offer:?}");
                offered.insert(kind(&offer.action));
            }
        }
        offered.extend(visit.global_offers().iter().map(|offer| kind(&offer.action)));
    }
    // A declaration is written by the learner; only a system or a site that these are not offers the others.
    let elsewhere = ["Declare"];
    for name in Move::VARIANTS.iter().filter(|name| !elsewhere.contains(name)) {
        assert!(offered.contains(*name), "{name} is offered nowhere");
    }
    for point in PipePoint::ALL {
        let action = Move::ReadPipe(point);
        let somewhere =
            Place::ALL.iter().any(|place| sound(3).offers(*place).iter().any(|o| o.action == action));
        assert!(somewhere, "{point:?}");
    }
}

#[test]
fn an_offer_says_what_making_the_move_then_does() {
    let mut visit = with(3, &[fault(FaultKind::UninsulatedBulb, None, 0.7)]);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    for place in Place::ALL {
        for offer in visit.offers(place) {
            let mut tried = visit.clone();
            let entry = perform(&mut tried, &offer.action);
            match (&offer.refused, &entry.outcome) {
                (Some(said), Outcome::Refused(reason)) => assert_eq!(said, reason),
                (None, Outcome::Refused(reason)) => {
                    panic!("{:?} was offered, then refused: {reason:?}", offer.action)
                }
                (Some(said), outcome) => {
                    panic!("{:?} was said to be refused ({said:?}), was {outcome:?}", offer.action)
                }
                (None, _) => {
                    let took_min = (entry.finished_s - entry.started_s) / 60.0;
                    let ends_by_gauge = matches!(
                        offer.action,
                        Move::Recover
                            | Move::Evacuate
                            | Move::WeighIn(_)
                            | Move::AddRefrigerant(_)
                            | Move::Verify
                    );
                    let alike = (took_min - offer.minutes).abs() < 0.3;
                    assert!(
                        ends_by_gauge || alike,
                        "{:?}: {took_min} against {}",
                        offer.action,
                        offer.minutes
                    );
                }
            }
        }
    }
}

#[test]
fn cautions_stand_where_the_danger_is() {
    for (action, minded) in [
        (Move::OpenPanel(Panel::OutdoorElectrical), Some(Caution::OutdoorPanel)),
        (Move::RepairLeak(LeakPlace::LiquidLine), Some(Caution::CircuitWork)),
        (Move::ConnectGauges, Some(Caution::Gauges)),
        (Move::WatchBlower, Some(Caution::BlowerCompartment)),
        (Move::Ask(Question::WhenItStarted), None),
    ] {
        assert_eq!(visit::caution(&action), minded, "{action:?}");
    }
}

#[test]
fn a_frozen_coil_is_seen_thawed_and_seen_clear() {
    let mut visit = frozen(5);
    assert!(
        visit.truth().frost_mass_kg > 0.5,
        "the night froze the coil: {} kg",
        visit.truth().frost_mass_kg
    );
    // From outside, only the line and the drain tell.
    let outside = seen(&mut visit, &Move::Look(Place::IndoorCoil));
    assert!(!outside.contains(&Observation::BlockOfIce) && !outside.contains(&Observation::NoIce));
    assert!(visit.milestones().is_empty());
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    let open = seen(&mut visit, &Move::Look(Place::IndoorCoil));
    assert!(open.contains(&Observation::BlockOfIce) || open.contains(&Observation::SomeIce), "{open:?}");
    // What lies on the fins does not show through a block of ice.
    assert_eq!(open.contains(&Observation::FilterOnCoil), visit.sees_coil_face(), "{open:?}");
    let reached =
        |visit: &Visit, wanted| visit.milestones().iter().any(|(milestone, _)| *milestone == wanted);
    assert!(reached(&visit, Milestone::CoilSeen) && !reached(&visit, Milestone::CoilThawed));
    // Fan only and a wait thaw it.
    let fan_only = Move::SetThermostat {
        mode: Mode::Off,
        fan: FanSetting::On,
        set_point: Temperature::Fahrenheit(70.0),
    };
    all(&mut visit, &[fan_only, Move::Wait(Duration::Hours(4.0))]);
    assert_eq!(seen(&mut visit, &Move::Look(Place::IndoorCoil))[0], Observation::NoIce);
    assert!(reached(&visit, Milestone::CoilThawed) && reached(&visit, Milestone::CompressorStopped));
    assert!(visit.site().coil_seen_clear);
}

#[test]
fn the_filter_shows_how_it_is_and_a_new_one_is_clean() {
    for (severity, expected) in [
        (0.1, Observation::FilterClean),
        (0.4, Observation::FilterDirty),
        (0.8, Observation::FilterMatted),
        (0.97, Observation::FilterCollapsed),
    ] {
        let mut visit = with(4, &[fault(FaultKind::LoadedFilter, None, severity)]);
        assert_eq!(seen(&mut visit, &Move::InspectFilter), [expected]);
        let replaced = seen(&mut visit, &Move::ReplaceFilter);
        let faulty = replaced.contains(&Observation::PartWasFaulty(FaultKind::LoadedFilter));
        assert_eq!(faulty, expected != Observation::FilterClean, "{replaced:?}");
        assert_eq!(seen(&mut visit, &Move::InspectFilter), [Observation::FilterClean]);
        assert!(visit.cost() > 0.0 && visit.site().filters_replaced == 1);
    }
    let mut clean = sound(4);
    assert!(seen(&mut clean, &Move::ReplaceFilter).contains(&Observation::PartWasSound));
}

#[test]
fn the_blower_and_the_air_are_seen_as_they_are() {
    let mut visit = sound(4);
    all(
        &mut visit,
        &[cool(55.0), Move::OpenPanel(Panel::BlowerCompartment), Move::Wait(Duration::Minutes(5.0))],
    );
    assert_eq!(seen(&mut visit, &Move::WatchBlower), [Observation::BlowerTurning]);
    assert_eq!(seen(&mut visit, &Move::Look(Place::SupplyRegister)), [Observation::AirStrong]);
    let running = seen(&mut visit, &Move::Look(Place::OutdoorUnit));
    assert!(
        running.contains(&Observation::CompressorRunning)
            && running.contains(&Observation::OutdoorFanRunning)
    );
    all(&mut visit, &[off(), Move::Wait(Duration::Minutes(5.0))]);
    assert_eq!(seen(&mut visit, &Move::WatchBlower), [Observation::BlowerStill]);
    assert_eq!(seen(&mut visit, &Move::Look(Place::SupplyRegister)), [Observation::AirNone]);
    assert!(seen(&mut visit, &Move::Look(Place::OutdoorUnit)).contains(&Observation::CompressorStill));
}

/// Cabinet open, gauges on, and the plant has run for twenty minutes.
fn bulb_within_reach() -> [Move; 4] {
    [
        Move::OpenPanel(Panel::CoilCabinet),
        Move::ConnectGauges,
        cool(55.0),
        Move::Wait(Duration::Minutes(20.0)),
    ]
}

#[test]
fn the_bulb_answers_through_a_sound_valve_and_not_through_a_stuck_one() {
    let prepare = bulb_within_reach();
    let mut healthy = sound(6);
    all(&mut healthy, &prepare);
    assert_eq!(seen(&mut healthy, &Move::WarmBulb), [Observation::BulbAnswered]);
    assert_eq!(healthy.site().bulb, BulbState::InHand);
    let mut stuck = with(6, &[fault(FaultKind::MeteringRestricted, None, 0.6)]);
    all(&mut stuck, &prepare);
    assert_eq!(seen(&mut stuck, &Move::WarmBulb), [Observation::BulbDidNotAnswer]);
    // A hand that does something else lets go; strapping it back is a move of its own.
    perform(&mut stuck, &Move::ReadPipe(PipePoint::LiquidBeforeDrier));
    assert_eq!(stuck.site().bulb, BulbState::Hanging);
    all(&mut stuck, &[Move::PutBulbBack]);
    assert_eq!(stuck.site().bulb, BulbState::AsFound);
    // With no gauges, or with the compressor standing, nothing can be seen.
    let mut blind = sound(6);
    all(&mut blind, &[Move::OpenPanel(Panel::CoilCabinet)]);
    assert_eq!(seen(&mut blind, &Move::WarmBulb), []);
    let mut standing = sound(6);
    all(&mut standing, &[off(), Move::OpenPanel(Panel::CoilCabinet), Move::ConnectGauges]);
    assert_eq!(seen(&mut standing, &Move::WarmBulb), []);
    assert!(!standing.milestones().iter().any(|(milestone, _)| *milestone == Milestone::BulbTested));
}

/// In ice water a sound valve closes down and suction pressure falls; one that is stuck open holds it. In warm weather nothing else
/// tells them apart: both stand open.
#[test]
fn a_chilled_bulb_closes_a_sound_valve_and_not_one_that_is_stuck_open() {
    let prepare = bulb_within_reach();
    let mut healthy = sound(6);
    all(&mut healthy, &prepare);
    assert_eq!(seen(&mut healthy, &Move::ChillBulb), [Observation::ChilledBulbClosedValve]);
    assert_eq!(healthy.site().bulb, BulbState::InIceWater);
    // It stays in its cup whatever the hands do.
    perform(&mut healthy, &Move::ReadPipe(PipePoint::LiquidBeforeDrier));
    assert_eq!(healthy.site().bulb, BulbState::InIceWater);
    all(&mut healthy, &[Move::PutBulbBack]);
    assert_eq!(healthy.site().bulb, BulbState::AsFound);
    for severity in [0.7, 0.8, 0.9] {
        let mut stuck = with(6, &[fault(FaultKind::MeteringStuckOpen, None, severity)]);
        all(&mut stuck, &prepare);
        let told = seen(&mut stuck, &Move::ChillBulb);
        assert_eq!(told, [Observation::ChilledBulbDidNotCloseValve], "{severity}");
    }
    let mut blind = sound(6);
    all(&mut blind, &[Move::OpenPanel(Panel::CoilCabinet)]);
    assert_eq!(seen(&mut blind, &Move::ChillBulb), []);
    let mut standing = sound(6);
    all(&mut standing, &[off(), Move::OpenPanel(Panel::CoilCabinet), Move::ConnectGauges]);
    assert_eq!(seen(&mut standing, &Move::ChillBulb), []);
}

/// What a test of the bulb is foreseen to give, panel and gauges put in place, is what it gives.
#[test]
fn tests_of_the_bulb_are_foreseen() {
    for (faults, answered, closed) in [
        (vec![], Observation::BulbAnswered, Observation::ChilledBulbClosedValve),
        (
            vec![fault(FaultKind::MeteringStuckOpen, None, 0.95)],
            Observation::BulbDidNotAnswer,
            Observation::ChilledBulbDidNotCloseValve,
        ),
    ] {
        let mut visit = with(6, &faults);
        all(&mut visit, &[cool(55.0), Move::Wait(Duration::Minutes(20.0))]);
        let first = visit.needed_first(&Move::ChillBulb).expect("it can be reached");
        assert_eq!(first, [Move::OpenPanel(Panel::CoilCabinet), Move::ConnectGauges]);
        let foreseen = |visit: &Visit, action| visit.foresee_bulb_test(&action).expect("finite");
        assert_eq!(foreseen(&visit, Move::WarmBulb), Some(Outcome::Seen(vec![answered])));
        assert_eq!(foreseen(&visit, Move::ChillBulb), Some(Outcome::Seen(vec![closed])));
        assert_eq!(foreseen(&visit, Move::PutBulbBack), None);
        all(&mut visit, &first);
        assert_eq!(seen(&mut visit, &Move::ChillBulb), [closed]);
    }
}

#[test]
fn a_bare_bulb_is_seen_and_insulated() {
    let mut visit = with(6, &[fault(FaultKind::UninsulatedBulb, None, 0.7)]);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    assert!(seen(&mut visit, &Move::Look(Place::MeteringDevice)).contains(&Observation::BulbBare));
    assert_eq!(
        seen(&mut visit, &Move::InsulateBulb),
        [Observation::PartWasFaulty(FaultKind::UninsulatedBulb)]
    );
    assert!(seen(&mut visit, &Move::Look(Place::MeteringDevice)).contains(&Observation::BulbInsulated));
}

#[test]
fn leaks_show_where_they_are_and_where_there_is_pressure() {
    for place in LeakPlace::ALL {
        let mut visit = with(7, &[fault(FaultKind::RefrigerantLeak, Some(place), 0.3)]);
        all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
        for other in LeakPlace::ALL {
            for method in [LeakMethod::ElectronicDetector, LeakMethod::Bubbles] {
                let expected = if other == place {
                    Observation::LeakFound(other)
                } else {
                    Observation::NoLeakFound(other)
                };
                assert_eq!(seen(&mut visit, &Move::SearchLeak(other, method)), [expected], "{method:?}");
            }
        }
    }
    // A pinhole is for the detector only.
    let place = LeakPlace::SuctionServiceValve;
    let mut pinhole = with(7, &[fault(FaultKind::RefrigerantLeak, Some(place), 0.08)]);
    assert_eq!(
        seen(&mut pinhole, &Move::SearchLeak(place, LeakMethod::Bubbles)),
        [Observation::NoLeakFound(place)]
    );
    assert_eq!(
        seen(&mut pinhole, &Move::SearchLeak(place, LeakMethod::ElectronicDetector)),
        [Observation::LeakFound(place)]
    );
    // Recovered refrigerant leaks nowhere.
    all(&mut pinhole, &[off(), Move::ConnectGauges, Move::Recover]);
    assert_eq!(
        seen(&mut pinhole, &Move::SearchLeak(place, LeakMethod::ElectronicDetector)),
        [Observation::NoLeakFound(place)]
    );
}

#[test]
fn a_live_panel_is_a_hazard_and_a_dead_one_is_not() {
    let mut visit = sound(3);
    all(&mut visit, &[Move::OpenPanel(Panel::OutdoorElectrical)]);
    assert_eq!(visit.hazards(), [(Hazard::LivePanelOpened, 1)]);
    let mut careful = sound(3);
    all(&mut careful, &[Move::OutdoorDisconnect(Switch::Open), Move::OpenPanel(Panel::OutdoorElectrical)]);
    assert!(careful.hazards().is_empty());
}

#[test]
fn closing_packs_up() {
    let mut visit = sound(3);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet), Move::ConnectGauges, Move::CloseTicket]);
    assert!(visit.is_closed() && visit.site().open_panels.is_empty());
    assert_eq!(visit.site().gauges, Gauges::Off);
    assert!(visit.plant().ledger().hoses_kg > 0.0);
    assert!(visit.live().is_empty());
    let closing = &visit.notebook()[2];
    assert!(tells(closing, SiteNote::PanelBackOn(Panel::CoilCabinet)), "{:?}", closing.notes);
    let ledger = visit.plant().ledger();
    let off = GaugeNote::HosesOff { lost_kg: ledger.hoses_kg, kept_kg: ledger.trapped_kg };
    assert!(tells(closing, off), "{:?}: {off:?}", closing.notes);
}

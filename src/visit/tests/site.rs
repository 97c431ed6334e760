//! What the site forbids, offers, shows and costs.

mod common;

use std::collections::BTreeSet;

use call::{Duration, Mass, Milestone, Question, Temperature};
use common::{all, cool, fault, frozen, off, perform, refusal, sound, with};
use plant::{FanSetting, FaultKind, LeakPlace, Mode, Switch, Terminal};
use visit::{
    BulbState, Gauges, Hazard, LeakMethod, Location, Move, Observation, Outcome, Panel, PipePoint, Place,
    Port, Visit,
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
    let table = [
        (Move::WatchBlower, "blower panel is still on"),
        (Move::Look(Place::MeteringDevice), "coil cabinet is closed"),
        (Move::Look(Place::ControlBoard), "blower panel is still on"),
        (volts(Terminal::Y, Terminal::C), "blower panel is still on"),
        (volts(Terminal::ContactorLoad1, Terminal::ContactorLoad2), "electrical panel"),
        (volts(Terminal::R, Terminal::ContactorCoilC), "leads don't reach"),
        (volts(Terminal::R, Terminal::R), "same terminal"),
        (Move::ReadGauge(Port::Suction), "gauges are not connected"),
        (Move::ReadPipe(PipePoint::SuctionAtBulb), "coil cabinet is closed"),
        (Move::ReadPipe(PipePoint::SensingBulb), "coil cabinet is closed"),
        (Move::ReadPipe(PipePoint::LiquidAtMeteringDevice), "coil cabinet is closed"),
        (Move::WarmBulb, "coil cabinet is closed"),
        (Move::ChillBulb, "coil cabinet is closed"),
        (Move::SearchLeak(LeakPlace::IndoorCoil, LeakMethod::Bubbles), "coil cabinet is closed"),
        (Move::RepairLeak(LeakPlace::IndoorCoil), "coil cabinet is closed"),
        (Move::ReplaceMeteringDevice, "coil cabinet is closed"),
        (Move::Recover, "connect the gauges"),
        (Move::Evacuate, "connect the gauges"),
        (Move::WeighIn(Mass::Kilograms(3.0)), "connect the gauges"),
        (Move::AddRefrigerant(Mass::Kilograms(0.2)), "connect the gauges"),
        (Move::DisconnectGauges, "No hoses"),
        (Move::ClosePanel(Panel::CoilCabinet), "closed already"),
        (Move::OutdoorDisconnect(Switch::Closed), "in already"),
        (Move::IndoorServiceSwitch(Switch::Closed), "on already"),
        (Move::Wait(Duration::Hours(13.0)), "12 hours"),
        (Move::Wait(Duration::Seconds(f64::NAN)), "12 hours"),
        (cool(20.0), "50 to 90"),
    ];
    let mut visit = sound(3);
    for (action, words) in table {
        let before_s = visit.time_s();
        let reason = refusal(&mut visit, &action);
        assert!(reason.contains(words), "{action:?}: {reason}");
        assert!(visit.time_s() >= before_s + 60.0, "{action:?} costs its minute");
    }
    assert!(visit.milestones().is_empty(), "a refusal reaches nothing: {:?}", visit.milestones());
}

#[test]
fn charging_and_vacuum_follow_the_state_of_the_circuit() {
    let mut visit = sound(3);
    all(&mut visit, &[off(), Move::ConnectGauges]);
    assert!(refusal(&mut visit, &Move::ConnectGauges).contains("already"));
    assert!(refusal(&mut visit, &Move::Evacuate).contains("Recover first"));
    assert!(refusal(&mut visit, &Move::WeighIn(Mass::Kilograms(3.0))).contains("top-up"));
    for mass in [Mass::Kilograms(0.0), Mass::Pounds(-1.0), Mass::Grams(f64::NAN), Mass::Pounds(30.0)] {
        assert!(refusal(&mut visit, &Move::AddRefrigerant(mass)).contains("25 lb"));
    }
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Open), Move::Recover]);
    assert!(refusal(&mut visit, &Move::Recover).contains("nothing left"));
    assert!(refusal(&mut visit, &Move::WeighIn(Mass::Kilograms(3.0))).contains("evacuate"));
    assert!(refusal(&mut visit, &Move::Verify).contains("no charge"));
    all(&mut visit, &[Move::Evacuate]);
    assert!(refusal(&mut visit, &Move::AddRefrigerant(Mass::Kilograms(0.2))).contains("weigh"));
}

#[test]
fn verification_needs_power_and_a_call_for_cooling() {
    let mut visit = sound(3);
    all(&mut visit, &[off()]);
    assert!(refusal(&mut visit, &Move::Verify).contains("thermostat is off"));
    all(&mut visit, &[cool(70.0), Move::OutdoorDisconnect(Switch::Open)]);
    assert!(refusal(&mut visit, &Move::Verify).contains("disconnect is out"));
    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Closed), Move::IndoorServiceSwitch(Switch::Open)]);
    assert!(refusal(&mut visit, &Move::Verify).contains("switched off"));
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
        assert!(refusal(&mut visit, &action).contains("no bulb"), "{action:?}");
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
                assert!(!offer.label.is_empty() && offer.minutes > 0.0, "{offer:?}");
                offered.insert(kind(&offer.action));
            }
        }
        offered.extend(visit.global_offers().iter().map(|offer| kind(&offer.action)));
    }
    let every = [
        "Look",
        "Ask",
        "ReadDataPlate",
        "SetThermostat",
        "OutdoorDisconnect",
        "IndoorServiceSwitch",
        "OpenPanel",
        "ClosePanel",
        "InspectFilter",
        "ReplaceFilter",
        "WatchBlower",
        "MeasureVoltage",
        "ConnectGauges",
        "DisconnectGauges",
        "ReadGauge",
        "ReadPipe",
        "ReadAir",
        "WarmBulb",
        "ChillBulb",
        "PutBulbBack",
        "InsulateBulb",
        "SearchLeak",
        "Recover",
        "RepairLeak",
        "ReplaceMeteringDevice",
        "Mend",
        "DischargeCapacitor",
        "MeasureResistance",
        "MeasureCapacitance",
        "ClampCurrent",
        "Evacuate",
        "WeighIn",
        "AddRefrigerant",
        "Wait",
        "Verify",
        "CloseTicket",
    ];
    for name in every {
        assert!(offered.contains(name), "{name} is offered nowhere");
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
    let mut visit = with(3, &[fault(FaultKind::BulbBareInColdAir, None, 0.7)]);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    for place in Place::ALL {
        for offer in visit.offers(place) {
            let mut tried = visit.clone();
            let entry = perform(&mut tried, &offer.action);
            match (&offer.refused, &entry.outcome) {
                (Some(said), Outcome::Refused(reason)) => assert_eq!(said, reason),
                (None, Outcome::Refused(reason)) => {
                    panic!("{:?} was offered, then refused: {reason}", offer.action)
                }
                (Some(said), outcome) => {
                    panic!("{:?} was said to be refused ({said}), was {outcome:?}", offer.action)
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
    let line_voltage = visit::caution(&Move::OpenPanel(Panel::OutdoorElectrical)).expect("a caution");
    assert!(line_voltage.contains("capacitor"));
    let brazing = visit::caution(&Move::RepairLeak(LeakPlace::LiquidLine)).expect("a caution");
    assert!(brazing.contains("nitrogen") && brazing.contains("40 CFR 82") && brazing.contains("local codes"));
    assert!(visit::caution(&Move::ConnectGauges).expect("a caution").contains("frost"));
    assert!(visit::caution(&Move::WatchBlower).expect("a caution").contains("Rotating"));
    assert!(visit::caution(&Move::Ask(Question::WhenItStarted)).is_none());
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
    let mut stuck = with(6, &[fault(FaultKind::MeteringStuckThrottled, None, 0.6)]);
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
    let mut visit = with(6, &[fault(FaultKind::BulbBareInColdAir, None, 0.7)]);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    assert!(seen(&mut visit, &Move::Look(Place::MeteringDevice)).contains(&Observation::BulbBare));
    assert_eq!(
        seen(&mut visit, &Move::InsulateBulb),
        [Observation::PartWasFaulty(FaultKind::BulbBareInColdAir)]
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
    let notes = visit.notebook()[2].notes.join(" ");
    assert!(notes.contains("coil cabinet"), "{notes}");
}

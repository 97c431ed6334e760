//! Whatever a learner does, in whatever order: the visit stays finite, time goes forward, and the record replays.

mod common;

use call::{Duration, Mass, Question, Temperature};
use plant::{Capacitor, Conductor, FanSetting, FaultKind, LeakPlace, Mode, Switch, Terminal, Work};
use proptest::prelude::*;
use proptest::sample::select;
use visit::{
    AirPoint, Bulb, Declaration, LeakMethod, Move, Outcome, Panel, PipePoint, Place, Port, Visit, replay,
};

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => 0.0..40.0,
        1 => select(vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1.0e300, 1.0e-300]),
    ]
}

fn any_move() -> impl Strategy<Value = Move> {
    let terminal = || select(Terminal::ALL.to_vec());
    let leak_place = || select(LeakPlace::ALL.to_vec());
    let switch = || select(vec![Switch::Open, Switch::Closed]);
    let bulb = select(vec![Bulb::Dry, Bulb::Wet]);
    let method = select(vec![LeakMethod::ElectronicDetector, LeakMethod::Bubbles]);
    let thermostat = (
        select(vec![Mode::Off, Mode::Cool]),
        select(vec![FanSetting::Auto, FanSetting::On]),
        prop_oneof![50.0..90.0, number()],
    );
    prop_oneof![
        select(Place::ALL.to_vec()).prop_map(Move::Look),
        select(Question::ALL.to_vec()).prop_map(Move::Ask),
        thermostat.prop_map(|(mode, fan, t_f)| Move::SetThermostat {
            mode,
            fan,
            set_point: Temperature::Fahrenheit(t_f)
        }),
        switch().prop_map(Move::OutdoorDisconnect),
        switch().prop_map(Move::IndoorServiceSwitch),
        select(Panel::ALL.to_vec()).prop_map(Move::OpenPanel),
        select(Panel::ALL.to_vec()).prop_map(Move::ClosePanel),
        (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureVoltage { from, to }),
        select(vec![
            Move::ReadDataPlate,
            Move::InspectFilter,
            Move::ReplaceFilter,
            Move::WatchBlower,
            Move::DisconnectGauges,
            Move::WarmBulb,
            Move::PutBulbBack,
            Move::InsulateBulb,
            Move::ReplaceMeteringDevice,
            Move::Verify,
        ]),
        select(Work::PARTS.to_vec()).prop_map(Move::Mend),
        select(Capacitor::ALL.to_vec()).prop_map(Move::DischargeCapacitor),
        (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureResistance { from, to }),
        (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureCapacitance { from, to }),
        select(Conductor::ALL.to_vec()).prop_map(Move::ClampCurrent),
        select(vec![Move::ConnectGauges, Move::Recover, Move::Evacuate]),
        select(vec![Port::Suction, Port::Liquid]).prop_map(Move::ReadGauge),
        select(PipePoint::ALL.to_vec()).prop_map(Move::ReadPipe),
        (select(vec![AirPoint::Return, AirPoint::Supply, AirPoint::Outdoor]), bulb)
            .prop_map(|(point, bulb)| Move::ReadAir(point, bulb)),
        (leak_place(), method).prop_map(|(place, method)| Move::SearchLeak(place, method)),
        leak_place().prop_map(Move::RepairLeak),
        number().prop_map(|mass| Move::WeighIn(Mass::Pounds(mass))),
        number().prop_map(|mass| Move::AddRefrigerant(Mass::Ounces(mass))),
        number().prop_map(|time| Move::Wait(Duration::Minutes(time))),
        Just(Move::Declare(Declaration {
            cause: FaultKind::RefrigerantLeak,
            place: None,
            evidence: vec![0, 1, 99],
            rules_out: Vec::new(),
        })),
    ]
}

fn checked(visit: &Visit) -> Result<(), TestCaseError> {
    let mut last_s = visit.arrival_s();
    for (index, entry) in visit.notebook().iter().enumerate() {
        prop_assert_eq!(entry.number as usize, index + 1);
        prop_assert!(entry.started_s >= last_s && entry.finished_s > entry.started_s, "{:?}", entry);
        last_s = entry.finished_s;
        match &entry.outcome {
            Outcome::Read(reading) => {
                prop_assert!(reading.value.is_finite() && reading.uncertainty > 0.0, "{:?}", entry);
            }
            Outcome::Verified(found) => {
                prop_assert!(found.superheat_k.is_finite() && found.subcooling_k.is_finite());
            }
            _ => {}
        }
    }
    for live in visit.live() {
        prop_assert!(live.value.is_finite(), "{:?}", live);
    }
    prop_assert!(visit.cost().is_finite() && visit.cost() >= 0.0);
    prop_assert!(visit.plant().ledger_gap_kg().abs() < 1.0e-9, "{}", visit.plant().ledger_gap_kg());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_moves_is_lived_through(
        seed in 0_u64..1000,
        moves in proptest::collection::vec((any_move(), 0.0..90.0_f64), 1..40),
    ) {
        let mut visit = Visit::start(&common::short_call(), seed).expect("the history is finite");
        for (action, rest_s) in &moves {
            visit.let_time_pass(*rest_s).expect("the plant stays finite");
            visit.perform(action).expect("the plant stays finite");
        }
        checked(&visit)?;
        let record = visit.record();
        let read = visit::Record::from_text(&record.to_text(), "visit.ron").expect("a written record can be read");
        prop_assert_eq!(read.to_text(), record.to_text());
        let again = replay(&read).expect("an untouched record replays");
        prop_assert_eq!(again.record().to_text(), record.to_text());
    }
}

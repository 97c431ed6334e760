//! Whatever a learner does, in whatever order: the visit stays finite, time goes forward, and the record replays.

mod common;

use call::{Duration, Mass, Question, Temperature};
use plant::{Capacitor, Conductor, FanSetting, FaultKind, LeakPlace, Mode, Switch, Terminal, Work};
use proptest::prelude::*;
use proptest::sample::select;
use visit::{
    AirPoint, Bulb, ChargeBy, CylinderUse, Declaration, LeakMethod, Location, Move, Outcome, Panel,
    PipePoint, Place, Port, Pressure, TemperatureDifference, Visit, replay,
};

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => 0.0..40.0,
        1 => select(vec![-1.0e300, -1.0, 0.0, 1.0e300, 1.0e-300]),
    ]
}

fn service_move() -> impl Strategy<Value = Move> {
    let pressure = || {
        (number(), select(vec![0, 1, 2, 3])).prop_map(|(value, unit)| match unit {
            0 => Pressure::PoundsGauge(10.0 * value),
            1 => Pressure::InchesOfVacuum(value),
            2 => Pressure::Microns(100.0 * value),
            _ => Pressure::KilopascalsGauge(50.0 * value),
        })
    };
    let duration = || number().prop_map(Duration::Minutes);
    let mass = || number().prop_map(Mass::Ounces);
    let by = select(vec![ChargeBy::Subcooling, ChargeBy::Superheat]);
    prop_oneof![
        2 => Just(Move::ConnectGauges),
        2 => Just(Move::Recover),
        1 => Just(Move::Evacuate),
        1 => pressure().prop_map(Move::RecoverTo),
        1 => mass().prop_map(Move::RemoveRefrigerant),
        2 => pressure().prop_map(Move::PressurizeWithNitrogen),
        1 => duration().prop_map(Move::StandingTest),
        1 => select(vec![Move::VentNitrogen, Move::PurgeWithNitrogen]),
        1 => (pressure(), duration()).prop_map(|(target, within)| Move::EvacuateTo { target, within }),
        1 => duration().prop_map(Move::DecayTest),
        1 => mass().prop_map(Move::AddVapor),
        1 => (by, number(), mass(), duration()).prop_map(|(by, target_f, at_most, within)| Move::ChargeTo {
            by,
            target: TemperatureDifference::FahrenheitDifference(target_f),
            at_most,
            within,
        }),
        1 => select(vec![CylinderUse::Charging, CylinderUse::Recovery]).prop_map(Move::ChangeCylinder),
        1 => select(Location::ALL.to_vec()).prop_map(Move::MakeAreaSafe),
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
        1 => select(Place::ALL.to_vec()).prop_map(Move::Look),
        1 => select(Question::ALL.to_vec()).prop_map(Move::Ask),
        1 => thermostat.prop_map(|(mode, fan, t_f)| Move::SetThermostat {
            mode,
            fan,
            set_point: Temperature::Fahrenheit(t_f)
        }),
        1 => switch().prop_map(Move::OutdoorDisconnect),
        1 => switch().prop_map(Move::IndoorServiceSwitch),
        1 => select(Panel::ALL.to_vec()).prop_map(Move::OpenPanel),
        1 => select(Panel::ALL.to_vec()).prop_map(Move::ClosePanel),
        1 => (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureVoltage { from, to }),
        1 => select(vec![
            Move::ReadDataPlate,
            Move::InspectFilter,
            Move::ReplaceFilter,
            Move::WatchBlower,
            Move::DisconnectGauges,
            Move::WarmBulb,
            Move::ChillBulb,
            Move::PutBulbBack,
            Move::InsulateBulb,
            Move::ReplaceMeteringDevice,
            Move::Verify,
        ]),
        1 => select(Work::PARTS.to_vec()).prop_map(Move::Repair),
        1 => select(Capacitor::ALL.to_vec()).prop_map(Move::DischargeCapacitor),
        1 => (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureResistance { from, to }),
        1 => (terminal(), terminal()).prop_map(|(from, to)| Move::MeasureCapacitance { from, to }),
        1 => select(Conductor::ALL.to_vec()).prop_map(Move::ClampCurrent),
        4 => service_move(),
        1 => select(vec![Move::ConnectGauges, Move::Recover, Move::Evacuate]),
        1 => select(vec![Port::Suction, Port::Liquid]).prop_map(Move::ReadGauge),
        1 => select(PipePoint::ALL.to_vec()).prop_map(Move::ReadPipe),
        1 => (select(vec![AirPoint::Return, AirPoint::Supply, AirPoint::Outdoor]), bulb)
            .prop_map(|(point, bulb)| Move::ReadAir(point, bulb)),
        1 => (leak_place(), method).prop_map(|(place, method)| Move::SearchLeak(place, method)),
        1 => leak_place().prop_map(Move::RepairLeak),
        1 => number().prop_map(|mass| Move::WeighIn(Mass::Pounds(mass))),
        1 => number().prop_map(|mass| Move::AddRefrigerant(Mass::Ounces(mass))),
        1 => number().prop_map(|time| Move::Wait(Duration::Minutes(time))),
        1 => Just(Move::Declare(Declaration {
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
                for value_k in
                    [found.superheat, found.subcooling].into_iter().filter_map(visit::Margin::kelvin)
                {
                    prop_assert!(value_k.is_finite() && value_k >= -1.0, "{:?}", entry);
                }
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
        let again = replay(&read, visit.call()).expect("an untouched record replays");
        prop_assert_eq!(again.record().to_text(), record.to_text());
    }
}

//! What instruments and moves say where there is nothing to show: a vacuum, an empty scale, no superheat, no time left.

mod common;

use call::{Duration, Mass, Milestone, Pressure, TemperatureDifference};
use common::{all, cool, fault, off, perform, reading, refusal, short_call, sound, tells, with};
use media::units::{STANDARD_ATMOSPHERE_PA, inches_of_mercury_from_pa};
use plant::{FaultKind, Switch, System};
use visit::{
    Absence, ChargeBy, ChargeNote, Circuit, Entry, FileMistake, Margin, Move, Note, Outcome, PipePoint, Port,
    Refusal, ShownMargin, VacuumNote, Verification, Visit, read_moves, scale_tells,
};

fn reached(visit: &Visit, wanted: Milestone) -> bool {
    visit.milestones().iter().any(|(milestone, _)| *milestone == wanted)
}

fn evacuated(seed: u64) -> Visit {
    let mut visit = sound(seed);
    let dead = [off(), Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges];
    all(&mut visit, &dead);
    all(&mut visit, &[Move::Recover, Move::Evacuate]);
    visit
}

/// No gauge shows less than a perfect vacuum, 29.9 inHg below the atmosphere, whatever its standing error.
#[test]
fn a_gauge_stops_at_a_perfect_vacuum() {
    let mut at_the_stop = 0;
    for seed in 0..8 {
        let mut visit = evacuated(seed);
        for port in [Port::Suction, Port::Liquid] {
            let shown = reading(&mut visit, &Move::ReadGauge(port));
            assert!(shown.value >= -STANDARD_ATMOSPHERE_PA, "seed {seed}, {port:?}: {shown:?}");
            let vacuum_in_hg = inches_of_mercury_from_pa(-shown.value);
            assert!((25.0..29.95).contains(&vacuum_in_hg), "seed {seed}, {port:?}: {vacuum_in_hg} inHg");
            at_the_stop += u32::from(vacuum_in_hg > 29.85);
        }
    }
    assert!(at_the_stop > 0, "no gauge of these seeds errs far enough to the low side");
}

/// What the display of a scale drifts to is not put in: a charge that is found on target shows none and earns no mark.
#[test]
fn a_scale_shows_nothing_rather_than_less() {
    for seed in 0..6 {
        let mut visit = sound(seed);
        ready(&mut visit);
        let shown_f = 1.8 * visit.truth().subcooling_k;
        let entry = perform(&mut visit, &charge_to(shown_f, 40.0));
        let Outcome::Read(shown) = &entry.outcome else { panic!("{entry:?}") };
        assert_eq!(visit.plant().ledger().added_kg, 0.0, "seed {seed}: {:?}", entry.notes);
        assert!(shown.value >= 0.0, "seed {seed}: {shown:?}");
        let told = Note::from(ChargeNote::Weighed { weighed_kg: shown.value });
        assert!(!scale_tells(shown.value) && entry.notes[0] == told, "seed {seed}: {entry:?}");
        assert!(!reached(&visit, Milestone::RefrigerantAdded), "seed {seed}");
    }
}

#[test]
fn what_no_scale_tells_is_not_weighed_in() {
    let mut visit = evacuated(9);
    for mass in [Mass::Ounces(0.0), Mass::Ounces(0.1), Mass::Grams(4.9), Mass::Ounces(-3.0)] {
        for action in [Move::WeighIn(mass), Move::RemoveRefrigerant(mass)] {
            assert_eq!(refusal(&mut visit, &action), Refusal::MassOutOfRange, "{action:?}");
        }
    }
    assert_eq!(visit.site().circuit, Circuit::Evacuated);
    assert!(!reached(&visit, Milestone::WeighedIn));
    let problems = read_moves("[WeighIn(Grams(4))]", "visit.ron").expect_err("no scale tells it");
    let kind = &problems.told[0].kind;
    assert!(matches!(kind, FileMistake::Impossible { low, .. } if low.written == 5.0), "{kind:?}");
}

/// Running, gauges on and a clamp where subcooling is taken.
fn ready(visit: &mut Visit) {
    all(visit, &[cool(60.0), Move::ConnectGauges, Move::ReadPipe(PipePoint::LiquidAtServiceValve)]);
    all(visit, &[Move::Wait(Duration::Minutes(20.0))]);
}

fn charge_to(target_f: f64, minutes: f64) -> Move {
    Move::ChargeTo {
        by: ChargeBy::Subcooling,
        target: TemperatureDifference::FahrenheitDifference(target_f),
        at_most: Mass::Pounds(3.0),
        within: Duration::Minutes(minutes),
    }
}

#[test]
fn charging_that_runs_out_of_time_says_how_far_it_came() {
    let mut visit = with(5, &[fault(FaultKind::Undercharged, None, 0.5)]);
    ready(&mut visit);
    let over = |entry: &Entry| {
        entry.notes.iter().find_map(|note| match note {
            Note::Charge(ChargeNote::TimeOver { target_difference_k, steps }) => {
                Some((*target_difference_k, *steps))
            }
            _ => None,
        })
    };
    let entry = perform(&mut visit, &charge_to(40.0, 45.0));
    let (target_k, steps) = over(&entry).expect("it is over");
    assert!((1.8 * target_k - 40.0).abs() < 1.0e-9, "{entry:?}");
    let made = |note: &&Note| matches!(note, Note::Charge(ChargeNote::StepIn { .. }));
    assert!(steps > 0 && entry.notes.iter().filter(made).count() == steps as usize, "{entry:?}");
    // What there is of subcooling, which is hardly any.
    let now_k = entry.notes.iter().find_map(|note| match note {
        Note::Charge(ChargeNote::Now {
            shown: ShownMargin::Subcooling { difference_k } | ShownMargin::SaturatedLiquid { difference_k },
        }) => Some(*difference_k),
        _ => None,
    });
    assert!(now_k.is_some_and(|now_k| (-1.0..target_k).contains(&now_k)), "{entry:?}");
    // Over before the hoses are on: nothing has been done.
    let entry = perform(&mut visit, &charge_to(40.0, 2.0));
    assert_eq!(entry.notes, [Note::from(ChargeNote::NotConnected)]);
    // On target, it says nothing of the kind.
    let shown_f = 1.8 * visit.truth().subcooling_k;
    let entry = perform(&mut visit, &charge_to(shown_f.max(1.0), 120.0));
    assert_eq!(over(&entry), None, "{:?}", entry.notes);
}

/// Ten minutes or more (common practice, no source).
#[test]
fn a_short_decay_test_proves_nothing_and_says_so() {
    let mut visit = evacuated(9);
    let target = Pressure::Microns(400.0);
    let to = perform(&mut visit, &Move::EvacuateTo { target, within: Duration::Hours(2.0) });
    let Outcome::Read(shown) = &to.outcome else { panic!("{to:?}") };
    let stood = |note: &Note| {
        // The minute that it has to stand there, and the time for the pump to be put on before.
        matches!(note, Note::Vacuum(VacuumNote::StoodAtTarget { after_s })
            if (60.0..to.finished_s - to.started_s).contains(after_s))
    };
    assert!(to.notes.iter().any(stood), "{to:?}");
    assert!(tells(&to, VacuumNote::ValvedOff { shown_vacuum_pa: shown.value }), "{to:?}");
    let entry = perform(&mut visit, &Move::DecayTest(Duration::Minutes(5.0)));
    assert!(!reached(&visit, Milestone::VacuumHeld), "{entry:?}");
    assert!(tells(&entry, VacuumNote::TooShort), "{:?}", entry.notes);
    let entry = perform(&mut visit, &Move::DecayTest(Duration::Minutes(10.0)));
    assert!(reached(&visit, Milestone::VacuumHeld), "{entry:?}");
    assert!(tells(&entry, VacuumNote::Holds), "{:?}", entry.notes);
}

fn verified(visit: &mut Visit) -> Verification {
    let entry = perform(visit, &Move::Verify);
    let Outcome::Verified(found) = entry.outcome else { panic!("{entry:?}") };
    found
}

#[test]
fn there_is_no_superheat_where_nothing_boils() {
    // What is left is vapour.
    let call = short_call();
    let mut empty = Visit::start_with(&call, 5, &[], 0.1).expect("the history is finite");
    all(&mut empty, &[cool(55.0)]);
    let found = verified(&mut empty);
    for margin in [found.superheat, found.subcooling] {
        let Margin::Absent(absence @ (Absence::NoLiquid | Absence::AtRest)) = margin else {
            panic!("{found:?}")
        };
        assert_eq!(margin.of_what(ChargeBy::Superheat), ShownMargin::NoSuperheat(absence));
        assert_eq!(margin.of_what(ChargeBy::Subcooling), ShownMargin::NoSubcooling(absence));
    }

    // Without its fan the unit trips on high pressure seconds after each start.
    let mut tripping = with(5, &[fault(FaultKind::DeadFanMotor, None, 1.0)]);
    all(&mut tripping, &[cool(55.0)]);
    let found = verified(&mut tripping);
    assert!(matches!(found.superheat, Margin::Absent(Absence::AtRest | Absence::StartingUp)), "{found:?}");
    assert_eq!(found.superheat, found.subcooling, "{found:?}");
    assert!(!found.steady);
}

#[test]
fn a_saturated_suction_line_is_called_so() {
    let mut call = short_call();
    call.system = System::built_in("split-3-ton-r410a-orifice").expect("built in");
    let charge_kg = call.system.plate_charge_kg;
    let faults = [fault(FaultKind::OrificeTooLarge, None, 1.0)];
    let mut flooding = Visit::start_with(&call, 5, &faults, charge_kg).expect("the history is finite");
    all(&mut flooding, &[cool(55.0)]);
    let found = verified(&mut flooding);
    let superheat_k = found.superheat.kelvin().expect("it runs");
    assert!(superheat_k.abs() <= 1.0, "{found:?}");
    let shown = found.superheat.of_what(ChargeBy::Superheat);
    assert_eq!(shown, ShownMargin::SaturatedVapor { difference_k: superheat_k });
    assert!(superheat_k != 0.0 || superheat_k.is_sign_positive(), "{found:?}");

    let mut sound = sound(5);
    all(&mut sound, &[cool(55.0)]);
    let found = verified(&mut sound);
    let shown = found.superheat.of_what(ChargeBy::Superheat);
    assert!(matches!(shown, ShownMargin::Superheat { difference_k } if difference_k > 2.0), "{shown:?}");
}

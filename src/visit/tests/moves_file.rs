//! Moves files: what is read, and what is refused where.

use call::{Duration, Mass};
use plant::Work;
use visit::{Declaration, Move, Panel, Place, moves_text, read_moves};

#[test]
fn moves_are_read_as_they_are_written() {
    let text = r#"// A visit.
[
    Look(Thermostat),
    SetThermostat(mode: Off, fan: On, set_point: Fahrenheit(72)),
    OutdoorDisconnect(Open),
    OpenPanel(CoilCabinet),
    MeasureVoltage(from: Y, to: C),
    Repair(CleanCondenser),
    DischargeCapacitor(OutdoorFan),
    Wait(Minutes(45)),
    PressurizeWithNitrogen(PoundsGauge(150)),
    StandingTest(Minutes(30)),
    EvacuateTo(target: Microns(400), within: Hours(2)),
    ChargeTo(by: Subcooling, target: FahrenheitDifference(10), at_most: Ounces(16), within: Hours(3)),
    MakeAreaSafe(Indoors),
    WeighIn(Pounds(6.5)),
    Declare((cause: RefrigerantLeak, place: IndoorCoil, evidence: [1, 2], rules_out: [LoadedFilter])),
    CloseTicket,
]"#;
    let moves = read_moves(text, "visit.ron").expect("the file is sound");
    assert_eq!(moves.len(), 16);
    assert_eq!(moves[0], Move::Look(Place::Thermostat));
    assert_eq!(moves[3], Move::OpenPanel(Panel::CoilCabinet));
    assert_eq!(moves[7], Move::Wait(Duration::Minutes(45.0)));
    assert_eq!(moves[13], Move::WeighIn(Mass::Pounds(6.5)));
    assert!(matches!(
        &moves[14],
        Move::Declare(Declaration { place: Some(plant::LeakPlace::IndoorCoil), .. })
    ));
}

#[test]
fn every_rule_rejects_with_its_line() {
    let impossible = |asked: &str| format!("Impossible {{ asked: {asked}, ");
    let unknown = |name: &str| format!("Written(UnknownName {{ name: \"{name}\", ");
    let table = [
        ("Look(Attic)", unknown("Attic")),
        ("MeasureVoltage(from: Q, to: C)", unknown("Q")),
        ("Wait(Fortnights(1))", unknown("Fortnights")),
        ("Lok(Thermostat)", format!("{}nearest: Names {{ names: [\"Look\"", unknown("Lok"))),
        ("Repair(ReplaceFilter)", "OwnMove { work: \"ReplaceFilter\", instead: \"ReplaceFilter\"".to_owned()),
        (
            "Repair(RepairLeak(LiquidLine))",
            "OwnMove { work: \"RepairLeak(LiquidLine)\", instead: \"RepairLeak\"".to_owned(),
        ),
        ("Repair(PaintTheCabinet)", unknown("PaintTheCabinet")),
        ("Wait(Hours(0))", impossible("Wait")),
        ("Wait(Hours(100))", impossible("Wait")),
        ("AddRefrigerant(Ounces(-3))", impossible("Refrigerant")),
        ("AddVapor(Ounces(0))", impossible("Refrigerant")),
        ("RemoveRefrigerant(Pounds(90))", impossible("Refrigerant")),
        ("PressurizeWithNitrogen(PoundsGauge(900))", impossible("TestPressure")),
        ("RecoverTo(PoundsGauge(30))", impossible("Recovery")),
        ("EvacuateTo(target: Microns(1), within: Hours(1))", impossible("Vacuum")),
        ("EvacuateTo(target: Microns(500), within: Hours(0))", impossible("Limit")),
        ("DecayTest(Hours(40))", impossible("Wait")),
        ("ChangeCylinder(Oxygen)", unknown("Oxygen")),
        (
            "ChargeTo(by: Subcooling, target: CelsiusDifference(90), at_most: Ounces(4), within: Hours(1))",
            impossible("ChargeTarget"),
        ),
        ("WeighIn(Kilograms(40))", impossible("Refrigerant")),
        ("WeighIn(Grams(NaN))", "Written(NotFinite { written: \"NaN\"".to_owned()),
        ("SetThermostat(mode: Cool, fan: Auto, set_point: Celsius(75))", impossible("SetPoint")),
        ("MeasureVoltage(from: Y, to: Y)", "SameTerminal { terminal: \"Y\"".to_owned()),
        ("Declare((cause: LoadedFilter, evidence: [0], rules_out: []))", "NoEntry".to_owned()),
        ("Wait(Hours(1)) /* \u{202e} */", "Written(Hidden { code: \"U+202E\"".to_owned()),
    ];
    for (line, fact) in table {
        let text = format!("[\n    Look(Thermostat),\n    {line},\n]");
        let problems = read_moves(&text, "visit.ron").expect_err(line).told;
        assert_eq!(problems.len(), 1, "{line}: {problems:?}");
        let problem = &problems[0];
        assert_eq!(problem.place.line, 3, "{line}: {problem:?}");
        assert!(problem.place.column >= 5, "{line}: {problem:?}");
        let told = format!("{:?}", problem.kind);
        assert!(told.starts_with(&fact), "{line}: {told}");
    }
}

#[test]
fn several_mistakes_are_told_at_once() {
    let text = "[\n    Look(Attic),\n    ReadGauge(Suction),\n    Wait(Fortnights(1)),\n]";
    let problems = read_moves(text, "visit.ron").expect_err("two mistakes").told;
    let lines: Vec<usize> = problems.iter().map(|problem| problem.place.line).collect();
    assert_eq!(lines, [2, 4], "{problems:?}");
    let text = "[\n    Wait(Hours(0)),\n    AddRefrigerant(Ounces(-3)),\n]";
    let problems = read_moves(text, "visit.ron").expect_err("two mistakes").told;
    assert_eq!(problems.iter().map(|problem| problem.place.line).collect::<Vec<_>>(), [2, 3]);
}

#[test]
fn a_file_of_before_may_say_mend_for_repair() {
    let text = "[Mend(CleanCondenser), Repair(CleanCondenser)]";
    let (moves, old_names) = visit::read_moves_with_notes(text, "old.ron").expect("both are read");
    assert_eq!(moves, [Move::Repair(Work::CleanCondenser), Move::Repair(Work::CleanCondenser)]);
    assert_eq!(old_names.len(), 1, "{old_names:?}");
    assert_eq!(
        moves_text(&moves).matches("Repair(CleanCondenser)").count(),
        2,
        "written as it is called now"
    );
}

/// Kinds of fault that were called otherwise once are the same under their old names.
#[test]
fn an_old_name_of_a_fault_is_read() {
    let text = include_str!("../../../scenarios/visits/kiln-street-sound.ron");
    assert!(text.contains("UninsulatedBulb"));
    let old = text.replace("UninsulatedBulb", "BulbBareInColdAir");
    assert_eq!(read_moves(&old, "old.ron"), read_moves(text, "new.ron"));
}

#[test]
fn a_quantity_that_is_no_number_is_known() {
    let wait = |hours| Move::Wait(Duration::Hours(hours));
    assert!(wait(1.0).is_finite() && Move::ConnectGauges.is_finite());
    assert!(!wait(f64::NAN).is_finite() && !wait(f64::INFINITY).is_finite());
    assert!(!Move::AddRefrigerant(Mass::Ounces(f64::NAN)).is_finite());
}

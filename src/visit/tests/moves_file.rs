//! Moves files: what is read, and what is refused where.

use call::{Duration, Mass};
use visit::{Declaration, Move, Panel, Place, read_moves};

#[test]
fn moves_are_read_as_they_are_written() {
    let text = r#"// A visit.
[
    Look(Thermostat),
    SetThermostat(mode: Off, fan: On, set_point: Fahrenheit(72)),
    OutdoorDisconnect(Open),
    OpenPanel(CoilCabinet),
    MeasureVoltage(from: Y, to: C),
    Mend(CleanCondenser),
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
    let table = [
        ("Look(Attic)", "Attic", ""),
        ("MeasureVoltage(from: Q, to: C)", "Q", ""),
        ("Wait(Fortnights(1))", "Fortnights", ""),
        ("Lok(Thermostat)", "Lok", "Look"),
        ("Mend(ReplaceFilter)", "ReplaceFilter", "ReplaceFilter"),
        ("Mend(RepairLeak(LiquidLine))", "RepairLeak", "RepairLeak"),
        ("Mend(PaintTheCabinet)", "PaintTheCabinet", ""),
        ("Wait(Hours(0))", "wait", "split"),
        ("Wait(Hours(100))", "wait", "split"),
        ("AddRefrigerant(Ounces(-3))", "mass", "unit"),
        ("AddVapor(Ounces(0))", "mass", "unit"),
        ("RemoveRefrigerant(Pounds(90))", "mass", "unit"),
        ("PressurizeWithNitrogen(PoundsGauge(900))", "test pressure", "unit"),
        ("RecoverTo(PoundsGauge(30))", "recovery", "unit"),
        ("EvacuateTo(target: Microns(1), within: Hours(1))", "vacuum", "unit"),
        ("EvacuateTo(target: Microns(500), within: Hours(0))", "limit", "unit"),
        ("DecayTest(Hours(40))", "wait", "split"),
        ("ChangeCylinder(Oxygen)", "Oxygen", ""),
        (
            "ChargeTo(by: Subcooling, target: CelsiusDifference(90), at_most: Ounces(4), within: Hours(1))",
            "target",
            "unit",
        ),
        ("WeighIn(Kilograms(40))", "mass", "unit"),
        ("SetThermostat(mode: Cool, fan: Auto, set_point: Celsius(75))", "set point", "unit"),
        ("MeasureVoltage(from: Y, to: Y)", "probes", "another"),
        ("Declare((cause: LoadedFilter, evidence: [0], rules_out: []))", "entry 0", "number 1"),
    ];
    for (line, words, hint) in table {
        let text = format!("[\n    Look(Thermostat),\n    {line},\n]");
        let problems = read_moves(&text, "visit.ron").expect_err(line);
        assert_eq!(problems.len(), 1, "{line}: {problems:?}");
        let problem = &problems[0];
        assert_eq!(problem.line, 3, "{line}: {problem}");
        assert!(problem.column >= 5, "{line}: {problem}");
        assert!(problem.message.contains(words), "{line}: {problem}");
        assert!(problem.hint.contains(hint), "{line}: {problem}");
        assert!(!problem.allowed.is_empty(), "{line}: {problem}");
    }
}

#[test]
fn several_mistakes_are_told_at_once() {
    let text = "[\n    Look(Attic),\n    ReadGauge(Suction),\n    Wait(Fortnights(1)),\n]";
    let problems = read_moves(text, "visit.ron").expect_err("two mistakes");
    let lines: Vec<usize> = problems.iter().map(|problem| problem.line).collect();
    assert_eq!(lines, [2, 4], "{problems:?}");
    let text = "[\n    Wait(Hours(0)),\n    AddRefrigerant(Ounces(-3)),\n]";
    let problems = read_moves(text, "visit.ron").expect_err("two mistakes");
    assert_eq!(problems.iter().map(|problem| problem.line).collect::<Vec<_>>(), [2, 3]);
}

/// Kinds of fault that were called otherwise once are the same under their old names.
#[test]
fn an_old_name_of_a_fault_is_read() {
    let text = include_str!("../../../scenarios/visits/kiln-street-sound.ron");
    assert!(text.contains("UninsulatedBulb"));
    let old = text.replace("UninsulatedBulb", "BulbBareInColdAir");
    assert_eq!(read_moves(&old, "old.ron"), read_moves(text, "new.ron"));
}

//! The visit screen, worked by label, by pointer in the drawing, and by keyboard alone.

use crate::bench::{Bench, at_work, visit_after};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use session::{Command, Speed};
use visit::{ChargeBy, CylinderUse, Duration, Location, Mass, Move, Place, Port, Pressure};
use words::{Language, Units, Words};

const SIZE: [f32; 2] = [1366.0, 768.0];
const WORDS: Words = Words { units: Units::Ip, language: Language::English };

fn performed(harness: &Harness<'_, Bench>) -> Vec<Move> {
    harness
        .state()
        .commands
        .iter()
        .filter_map(|command| match command {
            Command::Perform(action) => Some(action.clone()),
            _ => None,
        })
        .collect()
}

#[test]
fn every_place_is_in_the_list_and_in_the_drawing() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    for place in Place::ALL {
        harness.get_by_label(&format!("In the drawing: {}", WORDS.say(&place))).click();
        harness.run_steps(3);
        assert_eq!(harness.state().state.place(), place, "the drawing leads elsewhere");
    }
    for (place, letter) in Place::ALL.into_iter().zip('A'..) {
        harness.get_by_label(&format!("{letter} {}", WORDS.heading(&place))).click();
        harness.run_steps(3);
        assert_eq!(harness.state().state.place(), place, "the list leads elsewhere");
    }
    assert!(performed(&harness).is_empty(), "going to a place is no move");
}

#[test]
fn a_press_on_a_move_asks_for_it() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.get_by_label_contains("Look at the thermostat").click();
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::Look(Place::Thermostat)]);
}

#[test]
fn a_refused_move_says_why_and_can_be_tried() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::K);
    harness.run_steps(3);
    let refusal = harness
        .state()
        .visit
        .offers(Place::OutdoorUnit)
        .into_iter()
        .find(|offer| offer.action == Move::ReadGauge(Port::Suction))
        .and_then(|offer| offer.refused)
        .expect("without gauges there is nothing to read");
    let told = format!("Not now: {}", WORDS.say(&refusal));
    let reasons: Vec<_> = harness.query_all_by_label(&told).collect();
    assert!(!reasons.is_empty(), "the reason does not stand under the move: {told}");
    drop(reasons);
    harness.get_by_label_contains("Read the suction gauge").scroll_to_me();
    harness.run_steps(12);
    harness.get_by_label_contains("Read the suction gauge").click();
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::ReadGauge(Port::Suction)]);
}

#[test]
fn a_caution_stands_where_the_move_is() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    let caution =
        visit::caution(&Move::OutdoorDisconnect(plant::Switch::Open)).expect("line voltage needs a caution");
    let text = WORDS.say(&caution);
    assert!(harness.query_by_label(&text).is_none());
    harness.key_press(Key::L);
    harness.run_steps(3);
    assert!(harness.query_by_label(&text).is_some());
    assert!(harness.query_all_by_label("Caution").next().is_some(), "the warning word is missing");
}

#[test]
fn keys_alone_connect_the_gauges() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    let offers = harness.state().visit.offers(Place::OutdoorUnit);
    let third = offers[2].action.clone();
    harness.key_press(Key::K);
    harness.run_steps(3);
    harness.key_press(Key::Num3);
    harness.run_steps(3);
    assert_eq!(performed(&harness), [third]);
}

#[test]
fn going_to_a_place_gives_its_first_move_the_keyboard() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::D);
    harness.run_steps(3);
    harness.key_press(Key::Enter);
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::Look(Place::FilterSlot)]);
}

#[test]
fn tab_reaches_the_second_move() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::D);
    harness.run_steps(3);
    harness.key_press(Key::Tab);
    harness.run_steps(3);
    harness.key_press(Key::Enter);
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::InspectFilter]);
}

#[test]
fn space_pauses_and_presses_nothing() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::D);
    harness.run_steps(3);
    harness.key_press(Key::Space);
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::TogglePause]);
}

#[test]
fn the_clock_is_set_by_button_and_key() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.get_by_label("300×").click();
    harness.run_steps(3);
    harness.key_press(Key::Period);
    harness.run_steps(3);
    assert_eq!(
        harness.state().commands,
        [Command::SetSpeed(Speed::ThreeHundred), Command::SetSpeed(Speed::Ten)]
    );
}

#[test]
fn a_wait_is_chosen_in_its_dialog() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::W);
    harness.run_steps(3);
    harness.get_by_label("30 min").click();
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::Wait(Duration::Minutes(30.0))]);
    assert!(harness.query_by_label("Wait this long").is_none(), "the dialog stays open");
}

#[test]
fn a_running_wait_shows_progress_and_can_be_stopped() {
    let mut visit = visit_after(&[]);
    visit.begin(&Move::Wait(Duration::Minutes(30.0)));
    visit.work(300.0).expect("the plant stays finite");
    let mut harness = at_work(visit, SIZE);
    harness.get_by_label("Stop waiting").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::StopWaiting]);
    harness.key_press(Key::Num1);
    harness.run_steps(3);
    assert!(performed(&harness).is_empty(), "a move was begun beside another");
}

#[test]
fn the_customer_is_asked() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::Q);
    harness.run_steps(3);
    harness.get_by_label_contains("When was the filter last changed?").click();
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::Ask(call::Question::FilterLastChanged)]);
}

#[test]
fn refrigerant_is_never_added_without_an_amount() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::K);
    harness.run_steps(3);
    let button = harness.get_by_label_contains("Add refrigerant");
    button.scroll_to_me();
    harness.run_steps(12);
    harness.get_by_label_contains("Add refrigerant…").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Enter an amount.").is_some());
    harness.get_by_label("Add").click();
    harness.run_steps(3);
    assert!(performed(&harness).is_empty());
}

#[test]
fn a_declaration_needs_cause_place_and_evidence() {
    let visit = visit_after(&[Move::Look(Place::OutdoorUnit), Move::ReadDataPlate]);
    let mut harness = at_work(visit, SIZE);
    harness.key_press(Key::X);
    harness.run_steps(3);
    let declare = |harness: &mut Harness<'_, Bench>| {
        harness.get_by_label("Declare").click();
        harness.run_steps(3);
    };
    assert!(harness.query_by_label("Choose a cause.").is_some());
    declare(&mut harness);
    let before = harness.get_by_label("Refrigerant leak").rect();
    harness.run_steps(5);
    assert_eq!(before, harness.get_by_label("Refrigerant leak").rect(), "the dialog does not stand still");
    // The catalogue is longer than the list is high.
    harness.get_by_label("Refrigerant leak").scroll_to_me();
    harness.run_steps(8);
    harness.get_by_label("Refrigerant leak").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Choose where.").is_some());
    harness.get_by_label("Indoor coil").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Cite at least one entry.").is_some());
    declare(&mut harness);
    assert!(performed(&harness).is_empty(), "declared without evidence");
    harness.get_by_label("No. 1").click();
    harness.get_by_label("Not: dirty or plugged filter").click();
    harness.run_steps(3);
    declare(&mut harness);
    let expected = visit::Declaration {
        cause: plant::FaultKind::RefrigerantLeak,
        place: Some(plant::LeakPlace::IndoorCoil),
        evidence: vec![1],
        rules_out: vec![plant::FaultKind::LoadedFilter],
    };
    assert_eq!(performed(&harness), [Move::Declare(expected)]);
}

#[test]
fn entries_ticked_in_the_notebook_are_cited_in_the_declaration() {
    let visit = visit_after(&[Move::Look(Place::OutdoorUnit)]);
    let mut harness = at_work(visit, SIZE);
    harness.get_by_label("1").click();
    harness.run_steps(3);
    harness.key_press(Key::X);
    harness.run_steps(3);
    assert!(harness.query_by_label("Evidence from the notebook: 1 cited").is_some());
}

#[test]
fn help_opens_and_closes_by_key() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::F1);
    harness.run_steps(3);
    let before = harness.get_by_label("How to work here").rect();
    harness.run_steps(5);
    assert_eq!(before, harness.get_by_label("How to work here").rect(), "the page does not stand still");
    harness.key_press(Key::Escape);
    harness.run_steps(3);
    assert!(harness.query_by_label("How to work here").is_none());
}

#[test]
fn closed_panels_hide_coil_and_blower() {
    let harness = at_work(visit_after(&[]), SIZE);
    let picture = |harness: &Harness<'_, Bench>| {
        harness.get_by_label_contains("The site.").accesskit_node().label().unwrap_or_default()
    };
    let closed = picture(&harness);
    assert!(!closed.contains("on the coil") && !closed.contains("coil free"), "{closed}");
    assert!(!closed.contains("blower wheel"), "{closed}");
    let opened = visit_after(&[
        Move::OpenPanel(visit::Panel::CoilCabinet),
        Move::OpenPanel(visit::Panel::BlowerCompartment),
    ]);
    let open = picture(&at_work(opened, SIZE));
    assert!(open.contains("coil") && open.contains("blower wheel"), "{open}");
}

#[test]
fn units_change_by_key() {
    let visit = visit_after(&[Move::ConnectGauges, Move::ReadGauge(Port::Suction)]);
    let mut harness = at_work(visit, SIZE);
    assert!(harness.query_all_by_label_contains("psig ±").next().is_some());
    harness.key_press(Key::U);
    harness.run_steps(3);
    assert!(harness.query_all_by_label_contains("psig ±").next().is_none());
    assert!(harness.query_all_by_label_contains("kPa gauge ±").next().is_some());
}

#[test]
fn everything_fits_small_screens_and_no_text_is_tiny() {
    for size in [[1280.0, 720.0], [1366.0, 690.0], [1366.0, 768.0], [1920.0, 1080.0]] {
        let harness = at_work(visit_after(&[Move::ConnectGauges, Move::ReadDataPlate]), size);
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, size.into());
        for label in ["Leave", "Ask customer  Q", "Close ticket  T", "Wait…  W", "L Outdoor disconnect"] {
            let rect = harness.get_by_label(label).rect();
            assert!(screen.contains_rect(rect), "{label} is off a screen of {size:?}: {rect:?}");
        }
        let drawing = harness.get_by_label_contains("The site.").rect();
        assert!(drawing.width() > 600.0 && drawing.height() > 380.0, "{size:?}: {drawing:?}");
        for place in Place::ALL {
            let hit = harness.get_by_label(&format!("In the drawing: {}", WORDS.say(&place))).rect();
            assert!(drawing.contains_rect(hit), "{place:?} is outside the drawing at {size:?}");
        }
        for clipped in &harness.output().shapes {
            smallest_text(&clipped.shape);
        }
    }
}

fn smallest_text(shape: &egui::Shape) {
    match shape {
        egui::Shape::Text(text) => {
            for section in &text.galley.job.sections {
                let size = section.format.font_id.size;
                assert!(size >= 13.0, "{} px: {}", size, text.galley.text());
            }
        }
        egui::Shape::Vec(shapes) => shapes.iter().for_each(smallest_text),
        _ => {}
    }
}

#[test]
fn the_ticket_is_closed_by_keys_alone() {
    let mut harness = at_work(visit_after(&[]), SIZE);
    harness.key_press(Key::T);
    harness.run_steps(4);
    assert!(harness.query_by_label("! The repair has not been verified.").is_some());
    harness.key_press(Key::Tab);
    harness.run_steps(3);
    harness.key_press(Key::Enter);
    harness.run_steps(3);
    assert_eq!(performed(&harness), [Move::CloseTicket]);
}

/// Every service move can be reached at the outdoor unit: at once, or through the dialog that asks for its values.
#[test]
fn service_moves_are_reached_through_their_dialogs() {
    let asked = |row: &str, go: Option<&str>| {
        let mut harness = at_work(visit_after(&[]), SIZE);
        harness.key_press(Key::K);
        harness.run_steps(3);
        harness.get_by_label_contains(row).scroll_to_me();
        harness.run_steps(12);
        harness.get_by_label_contains(row).click();
        harness.run_steps(3);
        if let Some(go) = go {
            harness.get_by_label(go).click();
            harness.run_steps(3);
        }
        performed(&harness)
    };
    let with_values = [
        (
            "Pressurize with nitrogen…",
            "Pressurize",
            Move::PressurizeWithNitrogen(Pressure::PoundsGauge(150.0)),
        ),
        ("Standing pressure test…", "Start the test", Move::StandingTest(Duration::Minutes(30.0))),
        ("Recover to a target…", "Recover", Move::RecoverTo(Pressure::InchesOfVacuum(10.0))),
        (
            "Evacuate to a target…",
            "Evacuate",
            Move::EvacuateTo { target: Pressure::Microns(500.0), within: Duration::Minutes(60.0) },
        ),
        ("Watch the vacuum…", "Watch", Move::DecayTest(Duration::Minutes(10.0))),
    ];
    for (row, go, wanted) in with_values {
        assert_eq!(asked(row, Some(go)), [wanted]);
    }
    for (row, wanted) in [
        ("Bleed off the nitrogen", Move::VentNitrogen),
        ("Purge the circuit with nitrogen", Move::PurgeWithNitrogen),
        ("Get another charging cylinder", Move::ChangeCylinder(CylinderUse::Charging)),
        ("Get another recovery cylinder", Move::ChangeCylinder(CylinderUse::Recovery)),
        ("Make the area at the outdoor unit safe", Move::MakeAreaSafe(Location::Outdoors)),
    ] {
        assert_eq!(asked(row, None), [wanted]);
    }
    // Nothing is asked for without a target or an amount: those are the learner's to find.
    for row in ["Charge to a target…", "Recover part of the refrigerant…", "Add vapor…"] {
        assert!(asked(row, None).is_empty());
    }
    let visit = visit_after(&[]);
    let offered = visit.offers(Place::OutdoorUnit);
    let has = |wanted: fn(&Move) -> bool| offered.iter().any(|offer| wanted(&offer.action));
    assert!(has(|action| matches!(action, Move::ChargeTo { by: ChargeBy::Subcooling, .. })));
    assert!(has(|action| *action == Move::RemoveRefrigerant(Mass::Ounces(4.0))));
    assert!(has(|action| matches!(action, Move::AddVapor(_))));
}

//! The review.

use std::sync::LazyLock;

use crate::bench::{take, visit_after};
use call::Milestone;
use diagnosis::{Hypothesis, Purpose};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use judge::{Area, Mark, Marks, Reason};
use report::{AfterEntry, Course, PathStep, PosteriorHistory, Review, ReviewFigures, SoundPath, Timeline};
use session::{Command, FiguresLook, HintsTaken, PathLook, ReviewLook, Stage, WeighingLook as Weighing};
use ui::{Shown, UiState};
use visit::{Move, Place, Port, Recording, Visit};
use words::Words;

const SIZE: [f32; 2] = [1366.0, 768.0];

struct Afterwards {
    state: UiState,
    words: Words,
    visit: Visit,
    review: Review,
    course: Course,
    timeline: Timeline,
    dossier: Option<ReviewFigures>,
    figures: FiguresLook,
    weighing: Weighing,
    hints: HintsTaken,
    path: PathLook,
    commands: Vec<Command>,
}

fn marks() -> Marks {
    let mark = |area, points, of, reason, entry| Mark { area, points, of, reason, entry };
    let (closed, verified) = (Milestone::TicketClosed, vec![Milestone::RepairVerified]);
    let (declared, read) = (Milestone::CauseDeclared, vec![Milestone::ThermostatRead]);
    // A rule that the call has not says nothing of its own.
    let rule = usize::MAX;
    Marks::of(vec![
        mark(Area::Order, 4.0, 4.0, Reason::InOrder { rule, before: declared, one_of: read }, Some(1)),
        mark(Area::Order, 0.0, 4.0, Reason::OutOfOrder { rule, before: closed, one_of: verified }, Some(2)),
        mark(Area::Evidence, 0.0, 25.0, Reason::NothingDeclared, None),
        mark(Area::Repair, 2.5, 20.0, Reason::NothingNeedless, Some(2)),
    ])
}

fn afterwards(visit: Visit, dossier: Option<ReviewFigures>, weighing: Weighing) -> Afterwards {
    let review = Review::new(&visit, &marks());
    let course = Course::of(&Recording::of(&visit).expect("the plant stays finite"));
    let chances = dossier.as_ref().and_then(|dossier| dossier.chances.as_ref());
    let timeline = Timeline::of(&visit, &review, chances);
    let state = UiState::default();
    Afterwards {
        state,
        words: Words::default(),
        visit,
        review,
        course,
        timeline,
        dossier,
        figures: FiguresLook::Over,
        weighing,
        hints: HintsTaken::default(),
        path: PathLook::Over,
        commands: Vec::new(),
    }
}

fn shown(state: Afterwards) -> Harness<'static, Afterwards> {
    let mut harness = Harness::builder().with_size(SIZE).build_ui_state(
        |ui, after: &mut Afterwards| {
            let look = ReviewLook {
                call: after.visit.call(),
                review: &after.review,
                notebook: after.visit.notebook(),
                arrival_s: after.visit.arrival_s(),
                course: &after.course,
                timeline: &after.timeline,
                dossier: after.dossier.as_ref(),
                figures: after.figures,
                weighing: after.weighing,
                hints: after.hints,
                path: after.path,
            };
            let stage = Stage::Reviewing(Box::new(look));
            let shown = Shown { stage, notice: None, words: after.words, turn: 0 };
            let given = ui::show(ui, &mut after.state, shown);
            take(&mut after.words, &mut after.commands, given);
        },
        state,
    );
    harness.run_steps(4);
    harness
}

#[test]
fn the_review_shows_each_mark_with_its_move_and_what_was_wrong() {
    let visit = visit_after(&[Move::Look(Place::Thermostat), Move::CloseTicket]);
    let state = afterwards(visit, None, Weighing::Over);
    let wrong = state.words.say(&state.review.wrong[0].kind);
    let mut harness = shown(state);
    for text in [
        "Reading the thermostat came first, then declaring the cause.",
        "No cause was declared.",
        "Nothing was replaced needlessly.",
    ] {
        assert!(harness.query_by_label(text).is_some(), "{text}");
    }
    assert!(harness.query_all_by_label("Move 2: Tell the customer and close the ticket").count() == 2);
    harness.get_by_label("Move 1: Look at the thermostat").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("◐ 2.5 of 20").is_some());
    assert!(harness.query_by_label_contains(&format!("What was wrong: {wrong}, still there")).is_some());
    assert!(harness.query_by_label_contains("You declared: nothing").is_some());
    harness.get_by_label("What the system did").click();
    harness.run_steps(3);
    harness.get_by_label("Where the refrigerant went").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Leaked out").is_some());
    harness.get_by_label("Save record  S").click();
    harness.get_by_label("Save as a page  P").click();
    harness.get_by_label("Back to the calls").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::SaveRecord, Command::SavePage, Command::Leave]);
}

#[test]
fn the_review_is_saved_from_the_keyboard() {
    let visit = visit_after(&[Move::Look(Place::Thermostat), Move::CloseTicket]);
    let mut harness = shown(afterwards(visit, None, Weighing::Over));
    let units = harness.state().words.units;
    for key in [Key::P, Key::S, Key::U] {
        harness.key_press(key);
        harness.run_steps(2);
    }
    assert_eq!(harness.state().commands, [Command::SavePage, Command::SaveRecord]);
    assert_ne!(harness.state().words.units, units, "U changes the units");
    // With help over it, nothing is written behind its back.
    harness.key_press(Key::F1);
    harness.run_steps(2);
    harness.key_press(Key::P);
    harness.run_steps(2);
    assert_eq!(harness.state().commands.len(), 2);
}

#[test]
fn what_is_still_being_worked_out_says_so() {
    let visit = visit_after(&[Move::Look(Place::Thermostat), Move::CloseTicket]);
    let mut harness = shown(afterwards(visit, None, Weighing::UnderWay(0.4)));
    assert!(harness.query_by_label("A sound path").is_none(), "there is no path to show");
    harness.state_mut().figures = FiguresLook::UnderWay(0.3);
    harness.state_mut().path = PathLook::ToCome;
    harness.run_steps(3);
    assert!(
        harness.query_by_label(&words::Words::default().say(&Reason::NothingNeedless)).is_some(),
        "the marks are there"
    );
    for (page, told) in [
        ("Where the evidence led", "The evidence is being worked out"),
        ("The cycle", "This is being worked out"),
        ("What would have come next", "This is being worked out"),
        ("A sound path", "A sound path will be worked out"),
    ] {
        harness.get_by_label(page).click();
        harness.run_steps(3);
        assert!(harness.query_by_label(told).is_some(), "{page}");
    }
    harness.state_mut().figures = FiguresLook::Over;
    harness.get_by_label("The cycle").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("This could not be worked out for this visit.").is_some());
}

/// Whoever reads on while the evidence is weighed does not lose the place when it is there.
#[test]
fn suspects_come_into_room_that_was_kept_for_them() {
    let (visit, mut dossier) = WEIGHED.clone();
    let chances = dossier.chances.as_mut().expect("weighed");
    chances.suspects.truncate(2);
    for kind in [
        plant::FaultKind::FouledCondenser,
        plant::FaultKind::LoadedFilter,
        plant::FaultKind::Undercharged,
        plant::FaultKind::Overcharged,
        plant::FaultKind::DirtyBlowerWheel,
        plant::FaultKind::NonCondensables,
    ] {
        chances.suspects.push(Hypothesis::single(kind, None));
    }
    let many = chances.suspects.len();
    chances.before.resize(many, 0.0);
    chances.entries.iter_mut().for_each(|entry| entry.after.resize(many, 0.0));
    let timeline = Timeline::of(&visit, &Review::new(&visit, &marks()), Some(chances));
    assert_eq!(timeline.rows.len(), Timeline::MOST_ROWS);
    let mut harness = shown(afterwards(visit, None, Weighing::UnderWay(0.4)));
    harness.get_by_label("Where the evidence led").click();
    harness.run_steps(3);
    let top =
        |harness: &Harness<'_, Afterwards>| harness.get_by_label("Where the order was broken").rect().top();
    let before = top(&harness);
    let state = harness.state_mut();
    (state.weighing, state.timeline, state.dossier) = (Weighing::Over, timeline, Some(dossier));
    harness.run_steps(3);
    assert!((top(&harness) - before).abs() < 2.0, "{} and {before}", top(&harness));
}

/// A visit with readings, and all that can be shown of it; two suspects, weighed by hand.
static WEIGHED: LazyLock<(Visit, ReviewFigures)> = LazyLock::new(|| {
    let visit = visit_after(&[
        Move::ConnectGauges,
        Move::ReadGauge(Port::Suction),
        Move::ReadGauge(Port::Liquid),
        Move::CloseTicket,
    ]);
    let mut dossier = figures(&visit, 1.0);
    let fault = &visit.seeded().faults[0];
    let plugged = Hypothesis::single(plant::FaultKind::PluggedDrier, None);
    // The longest names there are.
    let bulb = Hypothesis::single(plant::FaultKind::UninsulatedBulb, None);
    let leak = Hypothesis::single(plant::FaultKind::RefrigerantLeak, Some(plant::LeakPlace::IndoorCoil));
    let pair = Hypothesis { causes: bulb.causes.iter().chain(&leak.causes).cloned().collect() };
    dossier.chances = Some(PosteriorHistory {
        suspects: vec![Hypothesis::single(fault.kind, fault.place), plugged, bulb, pair],
        before: vec![0.4, 0.6, 0.0, 0.0],
        entries: visit
            .notebook()
            .iter()
            .map(|entry| {
                let after = if entry.number < 2 { [0.4, 0.6, 0.0, 0.0] } else { [0.95, 0.05, 0.0, 0.0] };
                AfterEntry {
                    entry: entry.number,
                    after: after.to_vec(),
                    gained_bits: if entry.number == 2 { 0.8 } else { 0.0 },
                    doubt: report::doubt_of(&entry.outcome),
                }
            })
            .collect(),
    });
    dossier.path = Some(SoundPath {
        steps: vec![PathStep {
            action: Move::InspectFilter,
            minutes: 5.0,
            aim: Purpose::Prepares,
            gain: None,
            entry: None,
        }],
    });
    (visit, dossier)
});

#[test]
fn every_page_shows_its_facts_inside_the_window() {
    let (visit, dossier) = WEIGHED.clone();
    let mut harness = shown(afterwards(visit, Some(dossier), Weighing::Over));
    for (page, facts) in [
        (
            "Where the evidence led",
            [
                "Ruled out: filter drier plugged (60\u{a0}% to 5.0\u{a0}%).",
                "What each reading ruled out",
                "Where the order was broken",
            ],
        ),
        ("The cycle", ["Evaporating", "Superheat", "Without a fault"]),
        ("What would have come next", ["As you left it", "Repaired", "Compressor starts"]),
        (
            "A sound path",
            ["Makes the next test possible.", "1 step, 5 min", "1. Pull the filter and look at it (5 min)"],
        ),
    ] {
        harness.get_by_label(page).click();
        harness.run_steps(4);
        for fact in facts {
            let node = harness.get_by_label(fact);
            let rect = node.rect();
            assert!(rect.right() <= SIZE[0] && rect.left() >= 0.0, "{page}: {fact} at {rect:?}");
        }
        if page == "Where the evidence led" {
            // Names are shown in full, over lines where they must.
            for name in [
                "Sensing bulb bare in cold cabinet air",
                "Sensing bulb bare in cold cabinet air and refrigerant leak (indoor coil)",
            ] {
                assert!(harness.query_by_label(name).is_some(), "{name}");
            }
            let mut shortened = Vec::new();
            for clipped in &harness.output().shapes {
                collect_shortened(&clipped.shape, &mut shortened);
            }
            assert!(shortened.is_empty(), "{shortened:?}");
        }
        for clipped in &harness.output().shapes {
            text_is_whole(page, &clipped.shape, clipped.clip_rect);
        }
    }
}

/// Texts that were shortened for want of room.
fn collect_shortened(shape: &egui::Shape, found: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) if text.galley.elided => found.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect_shortened(shape, found)),
        _ => {}
    }
}

/// No text is tiny, and none is cut off at the side.
fn text_is_whole(page: &str, shape: &egui::Shape, clip: egui::Rect) {
    match shape {
        egui::Shape::Text(text) => {
            let bounds = text.visual_bounding_rect();
            if !clip.intersects(bounds) {
                return;
            }
            let words = text.galley.text();
            let inside = clip.x_range().expand(1.0);
            assert!(
                inside.contains(bounds.left()) && inside.contains(bounds.right()),
                "{page}: {words} is cut off"
            );
            assert!(bounds.right() <= SIZE[0], "{page}: {words} is off the screen");
            for section in &text.galley.job.sections {
                assert!(section.format.font_id.size >= 13.0 || words.is_empty(), "{page}: {words} is tiny");
            }
        }
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|shape| text_is_whole(page, shape, clip)),
        _ => {}
    }
}

fn figures(visit: &Visit, hours: f64) -> ReviewFigures {
    let recording = Recording::of(visit).expect("the plant stays finite");
    let figures = ReviewFigures::of(visit, &recording, hours, &diagnosis::Unwatched);
    figures.expect("the plants stay finite").expect("nobody stops it")
}

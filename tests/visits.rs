//! Whole visits to the built-in calls, from files of moves: a sound one and a rookie's to each. Sound visits
//! score high and rookies' low, and each is the same visit, with the same marks, when it is worked again from
//! its record.

use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

use call::Call;
use judge::{Area, Arrivals, Marks, judge, judge_weighed, weigh};
use visit::{Move, Outcome, Record, Visit, read_moves, replay};

/// Lowest score of a sound visit.
const SOUND_POINTS_MIN: f64 = 85.0;
/// Highest score of a rookie's visit.
const ROOKIE_POINTS_MAX: f64 = 45.0;

fn call_named(id: &str) -> Call {
    let (_, text) = call::built_in().iter().find(|(known, _)| *known == id).expect("a built-in call");
    call::read(text, id).unwrap_or_else(|problems| panic!("{id}: {problems:?}"))
}

fn moves_of(id: &str, manner: &str) -> Vec<Move> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("scenarios/visits/{id}-{manner}.ron"));
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    read_moves(&text, &path.display().to_string()).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// What [`judge`] does, with the arrivals of the suspects kept for all tests.
fn judged(visit: &Visit) -> Marks {
    static ARRIVALS: LazyLock<Arrivals> = LazyLock::new(Arrivals::default);
    let suspects = weigh(visit, &ARRIVALS, &diagnosis::Unwatched).expect("the suspects stay finite");
    judge_weighed(visit, &suspects.expect("nobody stops it")).expect("the plant stays finite")
}

fn worked(id: &str, manner: &str, seed: u64) -> Visit {
    let mut visit = Visit::start(&call_named(id), seed).expect("a call starts");
    for action in moves_of(id, manner) {
        visit.perform(&action).expect("the plant stays finite");
    }
    visit
}

/// Judges a visit, and again after it went through the text of its record.
fn judged_twice(visit: &Visit) -> Marks {
    let text = visit.record().to_text();
    let record = Record::from_text(&text, "record.ron").unwrap_or_else(|problems| panic!("{problems:#?}"));
    let again = replay(&record, visit.call()).unwrap_or_else(|error| panic!("{error:?}"));
    assert_eq!(again.record().to_text(), text, "the record of the replayed visit differs");
    assert_eq!(again.notebook(), visit.notebook());
    assert_eq!(again.truth(), visit.truth());
    let marks = judged(visit);
    assert_eq!(judged(&again), marks, "the replayed visit has other marks");
    marks
}

fn told(marks: &Marks) -> String {
    marks
        .items
        .iter()
        .map(|mark| {
            format!("{:?} {:.1}/{:.1} {:?} {:?}", mark.area, mark.points, mark.of, mark.reason, mark.entry)
        })
        .collect::<Vec<_>>()
        .join("\n")
}

fn sound(id: &str) {
    let visit = worked(id, "sound", 1);
    for entry in visit.notebook() {
        assert!(!matches!(entry.outcome, Outcome::Refused(_)), "refused: {entry:?}");
    }
    assert!(visit.is_closed());
    let marks = judged_twice(&visit);
    assert!(marks.total >= SOUND_POINTS_MIN, "{id}: {:.1}\n{}", marks.total, told(&marks));
    // An instructor's sound order must be possible to keep in full.
    assert_eq!(marks.points_in(Area::Order), Area::Order.weight(), "{}", told(&marks));
}

fn rookie(id: &str) {
    let visit = worked(id, "rookie", 1);
    assert!(visit.plant().ledger().added_kg > 0.2, "the rookie adds refrigerant");
    let marks = judged_twice(&visit);
    assert!(marks.total <= ROOKIE_POINTS_MAX, "{id}: {:.1}\n{}", marks.total, told(&marks));
    assert!(marks.points_in(Area::Refrigerant) <= 8.0, "{}", told(&marks));
}

macro_rules! of_each_call {
    ($($module:ident: $id:literal),*) => { $(
        mod $module {
            #[test]
            fn a_sound_visit_scores_high_and_replays() {
                super::sound($id);
            }

            #[test]
            fn a_rookies_visit_scores_low_and_replays() {
                super::rookie($id);
            }
        }
    )* };
}

of_each_call! {
    tannery_lane: "tannery-lane",
    orchard_court: "orchard-court",
    kiln_street: "kiln-street",
    ferry_steps: "ferry-steps"
}

#[test]
fn every_built_in_call_has_its_visits() {
    for (id, _) in call::built_in() {
        assert!(!moves_of(id, "sound").is_empty());
        assert!(!moves_of(id, "rookie").is_empty());
    }
}

/// The moves of a sound visit with one thing done worse, or left out.
fn spoiled(id: &str, spoil: impl Fn(Vec<Move>) -> Vec<Move>) -> (Visit, Marks) {
    let mut visit = Visit::start(&call_named(id), 1).expect("a call starts");
    for action in spoil(moves_of(id, "sound")) {
        visit.perform(&action).expect("the plant stays finite");
    }
    let marks = judged(&visit);
    (visit, marks)
}

#[test]
fn without_its_evidence_a_true_cause_excludes_nothing() {
    let (_, marks) = spoiled("tannery-lane", |mut moves| {
        for action in &mut moves {
            if let Move::Declare(declaration) = action {
                declaration.evidence.clear();
            }
        }
        moves
    });
    // The cause is true, nothing else is earned.
    assert_eq!(marks.points_in(Area::Evidence), 10.0, "{}", told(&marks));
}

#[test]
fn evidence_written_down_after_the_declaration_does_not_count() {
    let (visit, marks) = spoiled("tannery-lane", |mut moves| {
        for action in &mut moves {
            if let Move::Declare(declaration) = action {
                declaration.evidence = vec![16, 19];
            }
        }
        moves
    });
    assert!(visit.notebook().len() > 19);
    assert_eq!(marks.points_in(Area::Evidence), 10.0, "{}", told(&marks));
}

#[test]
fn a_filter_changed_under_a_running_blower_costs_safety() {
    let (_, marks) = spoiled("tannery-lane", |moves| {
        moves.into_iter().filter(|action| !matches!(action, Move::IndoorServiceSwitch(_))).collect()
    });
    assert!(marks.points_in(Area::Safety) <= 6.0, "{}", told(&marks));
    assert_eq!(marks.points_in(Area::Repair), Area::Repair.weight(), "{}", told(&marks));
}

#[test]
fn a_repair_that_was_not_verified_is_not_proven() {
    let (_, marks) =
        spoiled("kiln-street", |moves| moves.into_iter().filter(|action| *action != Move::Verify).collect());
    assert!(marks.points_in(Area::Repair) <= 15.0, "{}", told(&marks));
    assert!(marks.points_in(Area::Order) < Area::Order.weight(), "{}", told(&marks));
}

#[test]
fn a_circuit_cut_open_without_recovery_costs_refrigerant() {
    let (_, marks) = spoiled("orchard-court", |moves| {
        moves.into_iter().filter(|action| *action != Move::Recover).collect()
    });
    assert!(marks.points_in(Area::Refrigerant) <= 12.0, "{}", told(&marks));
}

#[test]
fn the_judge_weighs_by_itself_as_it_does_with_suspects_that_were_kept() {
    let visit = worked("tannery-lane", "rookie", 1);
    assert_eq!(judge(&visit).expect("the plant stays finite"), judged(&visit));
}

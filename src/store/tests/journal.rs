//! A visit that is killed at any moment loses the move in progress at most.

use std::fs;
use std::path::PathBuf;

use store::{Interrupted, Journal, interrupted};
use visit::Duration;
use visit::{Move, Place, Record, Visit};

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimebench-journal-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn arrived() -> Visit {
    let (id, text) = call::built_in()[0];
    let call = call::read(text, id).expect("valid");
    Visit::start(&call, 3).expect("finite")
}

const MOVES: [Move; 4] = [
    Move::Look(Place::Thermostat),
    Move::InspectFilter,
    Move::Wait(Duration::Minutes(5.0)),
    Move::ReadDataPlate,
];

fn make(visit: &mut Visit, action: &Move) {
    visit.begin(action);
    while visit.busy().is_some() {
        visit.work(30.0).expect("finite");
    }
}

/// Cut anywhere, the journal gives a record of all moves whose lines are whole, which replays.
#[test]
fn a_journal_cut_anywhere_gives_all_that_was_whole() {
    let folder = folder("cut");
    let mut visit = arrived();
    let mut journal = Journal::begin(&visit, None, &folder).expect("written");
    let path = folder
        .join(fs::read_dir(&folder).expect("a folder").next().expect("one").expect("a file").file_name());
    let mut ends = vec![fs::metadata(&path).expect("there").len()];
    let mut records = vec![visit.record()];
    for action in &MOVES {
        make(&mut visit, action);
        journal.follow(&visit).expect("written");
        ends.push(fs::metadata(&path).expect("there").len());
        records.push(visit.record());
    }
    drop(journal);
    let whole = fs::read(&path).expect("there");
    assert_eq!(whole.len() as u64, ends[MOVES.len()]);
    for length in 0..=whole.len() {
        fs::write(&path, &whole[..length]).expect("written");
        let read = Interrupted::read(&path);
        let moves = ends.iter().filter(|end| **end <= length as u64).count();
        let Some(last) = moves.checked_sub(1) else {
            assert!(read.is_err(), "{length}");
            continue;
        };
        let record = read.expect("a record").record;
        // The plant went on after the last move, until the next.
        assert_eq!(record.events, records[last].events, "{length}");
        assert_eq!(record.notebook_digest, records[last].notebook_digest, "{length}");
    }
    fs::write(&path, &whole).expect("written");
    let left = interrupted(&folder);
    assert_eq!(left.len(), 1);
    let saved = left[0].to_record(".visit.ron").expect("written");
    assert!(interrupted(&folder).is_empty() && !path.exists());
    let record = Record::from_text(&fs::read_to_string(&saved).expect("there"), "saved").expect("a record");
    let again = visit::replay(&record, visit.call()).expect("replays");
    assert_eq!(again.notebook_digest(), visit.notebook_digest());
    assert_eq!(again.notebook().len(), MOVES.len());
    fs::remove_dir_all(folder).expect("removed");
}

/// What another program works on is not offered, and what is over is gone.
#[test]
fn a_visit_that_is_being_worked_is_not_left() {
    let folder = folder("held");
    let mut visit = arrived();
    let mut one = Journal::begin(&visit, None, &folder).expect("written");
    let other = Journal::begin(&visit, None, &folder).expect("a second visit to the same call");
    make(&mut visit, &MOVES[0]);
    one.follow(&visit).expect("written");
    assert!(interrupted(&folder).is_empty(), "both are held");
    drop(other);
    assert!(interrupted(&folder).is_empty(), "the other has no move to go on from");
    drop(one);
    assert_eq!(interrupted(&folder).len(), 1);
    fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_visit_that_goes_on_has_all_its_moves_in_its_journal() {
    let folder = folder("on");
    let mut visit = arrived();
    for action in &MOVES[..2] {
        make(&mut visit, action);
    }
    let journal = Journal::begin(&visit, None, &folder).expect("written");
    drop(journal);
    let left = interrupted(&folder);
    assert_eq!(left[0].record.events.len(), 2);
    assert_eq!(left[0].record.notebook_digest, visit.notebook_digest());
    let journal = Journal::begin(&visit, None, &folder).expect("written");
    journal.over();
    assert_eq!(fs::read_dir(&folder).expect("a folder").count(), 1, "the one before stays");
    fs::remove_dir_all(folder).expect("removed");
}

/// A folder in which nothing can be written is told, and nothing is left in it.
#[test]
fn what_cannot_be_written_is_told() {
    let folder = folder("none");
    let file = folder.join("a file");
    fs::write(&file, "").expect("written");
    assert!(Journal::begin(&arrived(), None, &file).is_err());
    fs::write(folder.join("odd.journal"), "no record\n").expect("written");
    assert!(Interrupted::read(&folder.join("odd.journal")).is_err());
    assert!(interrupted(&folder).is_empty());
    fs::remove_dir_all(folder).expect("removed");
}
